package account

import (
	"testing"

	"splittally/calc/tariff"
)

// 121 kWh at 0.41 and 592 at 0.21 are printed; by the clock it would be else.
func TestAssumedHours(t *testing.T) {
	s := tariff.Schedule{Rows: []tariff.Row{{Kind: "times", Name: "Energy", Bands: []tariff.Band{{Name: "On-peak", Price: "0.41", Hours: "16-21"}, {Name: "Off-peak", Price: "0.21"}}}}}
	u := whole(t, "2024-05-01", "2024-05-31", "713")
	a := rebuilt(t, s, u, "On-peak = 49.61\nOff-peak = 124.32", "", "")
	for name, want := range map[string]string{
		"On-peak":  "What falls into this period is assumed. 49.61 comes out, as printed, with 121 kWh in place of 148.54.",
		"Off-peak": "What falls into this period is assumed. 124.32 comes out, as printed, with 592 kWh in place of 564.46.",
	} {
		if p := reasonOf(t, a, name); p.Reason != want || !p.IsExplained {
			t.Errorf("%s: %q", name, p.Reason)
		}
	}
	if p := reasonOf(t, rebuilt(t, s, u, "On-peak = -3.00\nOff-peak = 124.32", "", ""), "On-peak"); p.IsExplained {
		t.Errorf("below zero: %q", p.Reason)
	}
	all := even(t, "2024-05-01", "2024-05-31", "24")
	all.Import = all.Import[:1]
	all.Import[0].From, all.Import[0].To = 1020, 1080 // an hour at the peak
	if p := reasonOf(t, rebuilt(t, s, all, "On-peak = 5.00", "", ""), "On-peak"); p.IsExplained {
		t.Errorf("known: %q", p.Reason)
	}
}
