package record_test

import (
	"fmt"
	"strings"
	"testing"

	"splittally/calc/record"
)

// told writes a ledger for a table: a line a day, then its slots that are not
// plain hours.
func told(t *testing.T, text string) string {
	t.Helper()
	r, problems := record.Parse("channel import\nrounding 0.001\n" + text)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	l, err := r.Channels[0].Ledger(3600)
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	for _, e := range l.Days {
		fmt.Fprintf(&b, "%s %s ±%s", []string{"missing", "measured", "spread", "partial"}[e.State], e.Energy, e.Rounding)
		if e.Hours > 0 {
			fmt.Fprintf(&b, " %g h", e.Hours)
		}
		if e.Total.Days() > 0 {
			fmt.Fprintf(&b, " of %d days", e.Total.Days())
		}
		b.WriteString("\n")
	}
	fmt.Fprintf(&b, "%d slots", len(l.Slots))
	for _, s := range l.Slots {
		if s.To-s.From != 60 || s.Short != 0 || s.Again {
			fmt.Fprintf(&b, "; %d–%d %s short %d", s.From, s.To, s.Energy, s.Short)
			if s.Again {
				b.WriteString(" again")
			}
		}
	}
	return b.String()
}

func hours(figure string, n int) string { return strings.Repeat(" "+figure, n) }

func TestLedgerOfHours(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"a whole day", "2024-03-01" + hours("0.5", 24), "measured 12 kWh ±0.004898979 kWh\n24 slots"},
		{"a lost minute", "2024-03-01 0.5@3540" + hours("0.5", 23), "partial 12 kWh ±0.004897278 kWh 23.983333333333334 h\n24 slots; 0–60 0.5 kWh short 60000"},
		{"a day of 25 hours", "2024-11-03 twice:1" + hours("1", 25), "measured 25 kWh ±0.005 kWh\n25 slots; 60–120 1 kWh short 0 again"},
		{"a day of 23 hours", "2024-03-10 never:2" + hours("1", 23), "measured 23 kWh ±0.004795832 kWh\n23 slots"},
		{"a total within a day", "2024-03-01" + hours("0.5", 10) + hours("1~", 4) + hours("0.5", 10), "measured 14 kWh ±0.004898979 kWh\n21 slots; 600–840 4 kWh short 0"},
		{
			"a total near midnight", "2024-03-01" + hours("0.5", 23) + " 1~\n2024-03-02 2~" + hours("0.5", 23),
			"measured 12.5 kWh ±2.000006 kWh\nmeasured 13.5 kWh ±2.000006 kWh\n48 slots",
		},
		{
			"a total over a night", "2024-03-01" + hours("0.5", 20) + hours("1~", 4) + "\n2024-03-02" + hours("1~", 6) + hours("0.5", 18),
			"spread 14 kWh ±0.004898979 kWh of 2 days\nspread 15 kWh ±0.004898979 kWh of 2 days\n0 slots",
		},
		{
			"a total over a night, and a lost hour", "2024-03-01 ." + hours("0.5", 19) + hours("1~", 4) + "\n2024-03-02" + hours("1~", 6) + hours("0.5", 18),
			"missing 0 kWh ±0 kWh\nmissing 0 kWh ±0 kWh\n0 slots",
		},
		{
			"totals of two days, each its own", "2024-03-01 1~^" + hours("1~", 23) + "\n2024-03-02 2~^" + hours("2~", 23),
			"measured 24 kWh ±0.004898979 kWh\nmeasured 48 kWh ±0.004898979 kWh\n2 slots; 0–1440 24 kWh short 0; 0–1440 48 kWh short 0",
		},
		{
			"a day without readings", "2024-03-01" + hours("1", 24) + "\n2024-03-02 .\n2024-03-03" + hours("1", 24),
			"measured 24 kWh ±0.004898979 kWh\nmissing 0 kWh ±0 kWh\nmeasured 24 kWh ±0.004898979 kWh\n48 slots",
		},
	} {
		if got := told(t, c.text); got != c.want {
			t.Errorf("%s:\n%s\nwant\n%s", c.name, got, c.want)
		}
	}
}
