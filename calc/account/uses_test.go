package account

import (
	"testing"

	"splittally/calc/remark/remarktest"
)

func TestReadUses(t *testing.T) {
	periods := []string{"On-peak", "Off-peak"}
	for name, c := range map[string]struct {
		typed, billed, on, off string
		said                   []string
	}{
		"plain":         {"On-peak = 25\nOff-peak = 75", "100", "0.25", "0.75", nil},
		"as a bill has": {"ON PEAK = 25 kWh\noff peak = 75 kWh", "100", "0.25", "0.75", nil},
		"thousands":     {"On-peak = 400\nOff-peak = 1,600", "2000", "0.2", "0.8", nil},
		"decimals":      {"On-peak = 1,500\nOff-peak = 4,500", "6", "0.25", "0.75", nil},
		"one of two":    {"On-peak = 25", "100", "0.25", "", nil},
		"another sum":   {"On-peak = 20\nOff-peak = 60", "100", "0.25", "0.75", []string{"notice uses-differ periods.0.uses"}},
		"rounded":       {"On-peak = 25\nOff-peak = 75", "101", "0.25", "0.75", nil},
		"no number":     {"On-peak = some\nOff-peak = 75", "100", "", "", []string{"problem periods.0.uses.0.amount"}},
		"no such":       {"Peak = 25\nOff-peak = 75", "100", "", "", []string{"problem periods.0.uses.0.name"}},
		"not typed yet": {"On-peak =\nOff-peak =", "100", "", "", nil},
	} {
		t.Run(name, func(t *testing.T) {
			u := ReadUses("periods.0", lines(c.typed), periods, dec(c.billed))
			remarktest.Want(t, remarktest.Said(u.Problems, nil, u.Notices), c.said...)
			for period, want := range map[string]string{"On-peak": c.on, "Off-peak": c.off} {
				got, ok := u.Shares[period]
				if ok != (want != "") || ok && !got.Equal(dec(want)) {
					t.Errorf("%s: %v %s, want %q", period, ok, got, want)
				}
			}
		})
	}
}
