package calc_test

import (
	"fmt"
	"strings"
	"testing"

	"splittally/calc"
	"splittally/calc/billing"
	"splittally/calc/ledger"
)

// hoursOf writes a channel of a record: days of October 2024 with so many kWh in
// each hour; a day of "" has no readings.
func hoursOf(role, name string, each ...string) string {
	text := "channel " + role + "\nname " + name + "\nunit kWh, energy of each interval\nrounding 0.0005\n"
	for i, kWh := range each {
		text += fmt.Sprintf("2024-10-%02d", i+1)
		if kWh == "" {
			text += " .\n"
			continue
		}
		text += strings.Repeat(" "+kWh, 24) + "\n"
	}
	return text
}

const recordHead = "hours 1\nfile shed.csv\nstep 3600\nzone the home’s clock, as written\n"

func TestRolesOfARecord(t *testing.T) {
	record := recordHead + hoursOf("leg-a", "A", "0.5", "0.5", "0.5") + hoursOf("leg-b", "B", "0.25", "0.25", "0.25") +
		hoursOf("production", "Roof", "0.1", "0.1", "0.1") + hoursOf("export", "Out", "0.05", "0.05", "") + hoursOf("circuit", "Pump", "0.01", "0.01", "0.01")
	bill := billing.Period{From: "2024-10-01", To: "2024-10-03", KWh: "54", Convention: "both-belong"}
	f := calc.Work(calc.Case{Monitors: []calc.Monitor{{Name: "Shed", Record: record}}, Periods: []billing.Period{bill}, Today: "2024-11-01"})
	if len(f.Instruments) != 1 || len(f.Instruments[0].Legs) != 2 || f.Instruments[0].Results[0].Filled.Total.String() != "54 kWh" {
		t.Fatalf("%d instruments: %+v", len(f.Instruments), f.Problems)
	}
	if got := f.Periods[0].Produced; !got.Given || got.Energy.String() != "7.2 kWh" {
		t.Errorf("produced %v", got)
	}
	if got := f.Periods[0].Exported; got.Given {
		t.Errorf("exported %v, though a day of it is missing", got)
	}
	if n := len(f.Readings[0].Beside); n != 3 {
		t.Errorf("%d channels beside", n)
	}
	// The meter's own legs add up too.
	f = calc.Work(calc.Case{Meter: calc.Meter{Record: record}, Periods: []billing.Period{bill}, Today: "2024-11-01"})
	if e := f.Meter.At(f.Meter.First); e.State != ledger.Measured || e.Energy.String() != "18 kWh" {
		t.Errorf("the meter's first day: %+v", e)
	}
}

// TestFileAndPaste: pasted days stand where the file has none, and nowhere else.
func TestFileAndPaste(t *testing.T) {
	m := calc.Monitor{
		Record:   recordHead + hoursOf("import", "House", "0.5", "", "0.5"),
		Readings: "1 Oct 2024  13.0 kWh\n2 Oct 2024  11.0 kWh\n4 Oct 2024  10.0 kWh",
	}
	f := calc.Work(calc.Case{Monitors: []calc.Monitor{m}, Today: "2024-11-01"})
	if len(f.Instruments) != 1 {
		t.Fatalf("%d instruments", len(f.Instruments))
	}
	l := f.Instruments[0].Ledger
	var got []string
	for _, d := range l.Days {
		got = append(got, d.Energy.String())
	}
	if want := "12 kWh, 11 kWh, 12 kWh, 10 kWh"; strings.Join(got, ", ") != want {
		t.Errorf("days %s, want %s", strings.Join(got, ", "), want)
	}
	told := ""
	for _, n := range f.Notices {
		if n.Code == "file-and-paste" {
			told = n.Text
		}
	}
	if !strings.Contains(told, "2 from the pasted text") || !strings.Contains(told, "differ by 1.00 kWh") {
		t.Errorf("told %q", told)
	}
}

// TestRecordThatCannotBeRead: a bad line is told with its place, the rest is kept.
func TestRecordThatCannotBeRead(t *testing.T) {
	record := recordHead + hoursOf("import", "House", "0.5", "0.5") + "2024-10-03 0.5 0.5\n"
	f := calc.Work(calc.Case{Monitors: []calc.Monitor{{Record: record}}, Today: "2024-11-01"})
	if len(f.Problems) != 1 || f.Problems[0].Path != "monitors.0.record" || f.Problems[0].Line != 11 {
		t.Fatalf("%v", f.Problems)
	}
	if len(f.Instruments) != 1 || len(f.Instruments[0].Ledger.Days) != 2 {
		t.Errorf("%d instruments", len(f.Instruments))
	}
}

// TestMeterSettlesDates: the meter's own days add up to a bill in one way alone,
// so nobody has to be asked which of its dates belong; a given answer stands.
func TestMeterSettlesDates(t *testing.T) {
	days := []string{"0.5", "0.25", "0.75", "0.5", "1", "0.125"}
	c := calc.Case{
		Meter:   calc.Meter{Record: recordHead + hoursOf("import", "Meter", days...)},
		Periods: []billing.Period{{From: "2024-10-02", To: "2024-10-05", KWh: "60"}}, Today: "2024-11-01",
	}
	if got := calc.Work(calc.Case{Periods: c.Periods, Today: c.Today}).Periods[0]; len(got.Ways) < 2 {
		t.Fatalf("without the meter's days nothing is open: %+v", got)
	}
	f := calc.Work(c)
	if got := f.Periods[0]; got.Convention != billing.BothBelong || got.Span.Days() != 4 {
		t.Errorf("taken as %s, %s", got.Convention, got.Span)
	}
	told := 0
	for _, n := range f.Notices {
		if n.Code == "dates-by-meter" {
			told++
		}
	}
	if told != 1 {
		t.Errorf("told %d times", told)
	}
	c.Answers = []calc.Answer{{Question: "periods.0.convention", Choice: string(billing.LastExcluded)}}
	if got := calc.Work(c).Periods[0]; got.Convention != billing.LastExcluded {
		t.Errorf("the answer given was passed over: %s", got.Convention)
	}
}
