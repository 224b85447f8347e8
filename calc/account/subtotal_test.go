package account

import (
	"strings"
	"testing"

	"splittally/calc/tariff"
)

// Sums that a bill prints among its lines are neither lines nor added again.
func TestSubtotals(t *testing.T) {
	s := tariff.Schedule{Rows: []tariff.Row{
		{Kind: "tiers", Name: "Energy", Steps: []tariff.Step{{UpTo: "600", Price: "0.10"}, {Price: "0.20"}}},
		{Kind: "fixed", Name: "Service", Price: "9.00"},
		{Kind: "tax", Name: "Tax", Price: "10 %"},
	}}
	u := whole(t, "2024-03-01", "2024-03-31", "700")
	for name, c := range map[string]struct{ printed, sums, lone string }{
		"of a row":          {"Step 1 = 60\nStep 2 = 20\nAll energy = 80\nService = 9\nTax = 8.90", "All energy", ""},
		"of all":            {"Step 1 = 60\nStep 2 = 20\nService = 9\nSubtotal = 89\nTax = 8.90\nAmount due = 97.90", "Subtotal, Amount due", ""},
		"twice":             {"Step 1 = 60\nStep 2 = 20\nSubtotal = 80\nService = 9\nTax = 8.90\nSubtotal = 17.90\nDue = 97.90", "Subtotal, Subtotal, Due", ""},
		"a line by chance":  {"Step 1 = 60\nService = 9\nTax = 8.90\nStep 2 = 20", "", ""},
		"something else":    {"Step 1 = 60\nStep 2 = 20\nService = 9\nTax = 8.90\nGift = 5", "", "Gift"},
		"none of one alone": {"Step 1 = 60\nGift = 60\nStep 2 = 20\nService = 9\nTax = 8.90", "", "Gift"},
	} {
		a := rebuilt(t, s, u, c.printed, "", "")
		var sums, lone []string
		for _, p := range a.Pairs {
			switch {
			case strings.HasPrefix(p.Reason, "It is the sum of lines above"):
				sums = append(sums, p.Name)
			case p.Line < 0:
				lone = append(lone, p.Name)
			case !p.IsEqual:
				t.Errorf("%s: %s is apart", name, p.Name)
			}
		}
		if got := strings.Join(sums, ", "); got != c.sums {
			t.Errorf("%s: sums %q, want %q", name, got, c.sums)
		}
		if got := strings.Join(lone, ", "); got != c.lone {
			t.Errorf("%s: not in the tariff %q, want %q", name, got, c.lone)
		}
		if c.lone == "" && (!a.HasTotal || !a.Off.IsZero()) {
			t.Errorf("%s: total %s, off %s", name, a.Total, a.Off)
		}
	}
}

// What the tariff needs and nobody gave is said.
func TestLacks(t *testing.T) {
	s := tariff.Schedule{Rows: []tariff.Row{{Kind: "energy", Price: "0.10", Basis: "adjusted"}, {Kind: "export", Price: "0.05"}}}
	u := whole(t, "2024-03-01", "2024-03-31", "700")
	got := strings.Join(rebuilt(t, s, u, "", "", "").Words, "\n")
	if want := noExport + "\nNo loss factor is given, so that losses are taken as none."; got != want {
		t.Errorf("%q", got)
	}
	u.LossFactor, u.Export = dec("1.03"), u.Import
	if got := rebuilt(t, s, u, "", "", "").Words; len(got) > 0 {
		t.Errorf("all is given: %q", got)
	}
}

// The highest hour has 3 kWh, its highest quarter 1 kWh: 3 kW or 4 kW.
func TestWindows(t *testing.T) {
	s := tariff.Schedule{Rows: []tariff.Row{{Kind: "demand", Name: "Power", Price: "5.00", Per: "60"}}}
	u := even(t, "2024-03-01", "2024-03-01", "0")
	d := u.Span.First
	u.Import = nil
	for k, kWh := range []string{"1", "0.5", "0.7", "0.8"} {
		u.Import = append(u.Import, tariff.Slot{First: d, Last: d, From: k * 15, To: k*15 + 15, Energy: energyOf(t, kWh)})
	}
	if p := reasonOf(t, rebuilt(t, s, u, "Power = 20.00", "", ""), "Power"); p.Reason != "20.00 comes out, as printed, if the power is the mean of 15 minutes." {
		t.Errorf("%q", p.Reason)
	}
}
