package view

import (
	"strings"
	"testing"

	"splittally/calc"
	"splittally/calc/billing"
)

// days writes a day in each line, from 1 March on.
func days(kWh ...string) string {
	var b strings.Builder
	b.WriteString("Day\tkWh\n")
	for i, x := range kWh {
		b.WriteString("2024-03-" + string(rune('0'+(i+1)/10)) + string(rune('0'+(i+1)%10)) + "\t" + x + "\n")
	}
	return b.String()
}

// The monitor beside the meter's own days, and these beside a bill.
func TestPairedAndMetered(t *testing.T) {
	meter := []string{"10.1", "12.2", "9.4", "11.0", "10.6", "14.3", "13.8", "9.9", "10.2", "11.5", "12.0", "10.8", "9.1", "13.3"}
	seen := []string{"10.3", "12.4", "9.6", "11.2", "10.8", "3.2", "14.1", "10.1", "10.4", "11.7", "12.2", "11.0", "9.3", "13.5"}
	c := calc.Case{
		Monitors: []calc.Monitor{{Name: "Clamp <b>", Readings: days(seen...)}},
		Meter:    calc.Meter{Readings: days(meter...)},
		Periods:  []billing.Period{{From: "2024-03-01", To: "2024-03-14", Days: "14", KWh: "158"}},
	}
	closed := Render(c, calc.Work(c), nil)
	open := Render(c, calc.Work(c), map[string]bool{"paired-days-0": true})
	paired, metered := closed.Slots["paired"], closed.Slots["metered"]
	for _, want := range []string{"Day by day beside the meter", "Clamp &lt;b&gt;", "1 day disagrees", "6 Mar 2024", "lacks a part of the day", `class="warn"`} {
		if !strings.Contains(paired, want) {
			t.Errorf("no %q in %s", want, paired)
		}
	}
	if strings.Contains(paired, "7 Mar 2024") || !strings.Contains(open.Slots["paired"], "7 Mar 2024") {
		t.Error("all days are drawn where they are folded, or not where they are open")
	}
	for _, want := range []string{"beside its bills", "agrees with them to within its rounding", "158.20", "−0.20"} {
		if !strings.Contains(metered, want) {
			t.Errorf("no %q in %s", want, metered)
		}
	}
	c.Meter.Readings = ""
	if without := Render(c, calc.Work(c), nil).Slots; without["paired"] != "" || without["metered"] != "" {
		t.Error("something is drawn without the meter's own days")
	}
}
