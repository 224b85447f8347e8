package account

import (
	"strings"
	"testing"

	"splittally/calc/tariff"
)

// reasonCase is a bill printed by another rule than the schedule has. The
// printed amounts are reckoned by hand.
type reasonCase struct {
	s       tariff.Schedule
	u       tariff.Usage
	printed string
	on      string // the pair with a reason
	wants   string // what the reason holds
	open    bool   // nothing explains it
}

func energyRow(price string) tariff.Row {
	return tariff.Row{Kind: "energy", Name: "Energy", Price: price}
}

func TestReasons(t *testing.T) {
	march := func(kWh string) tariff.Usage { return whole(t, "2024-03-01", "2024-03-31", kWh) }
	lossy := march("700")
	lossy.LossFactor = dec("1.0376")
	uneven := even(t, "2024-04-01", "2024-04-30", "10")
	for i := range uneven.Import[15:] {
		uneven.Import[15+i].Energy *= 3
	}
	tiers := func(per string) tariff.Schedule {
		return tariff.Schedule{Rows: []tariff.Row{{Kind: "tiers", Name: "Energy", Per: per, Steps: []tariff.Step{{UpTo: "20", Price: "0.10"}, {Price: "0.20"}}}}}
	}
	taxed := func(on string) tariff.Schedule {
		return tariff.Schedule{Rows: []tariff.Row{
			energyRow("0.10"), {Kind: "fixed", Name: "Service", Price: "10.20"}, {Kind: "fixed", Name: "Levy", Price: "2.00"}, {Kind: "tax", Name: "Tax", Price: "5 %", On: on},
		}}
	}
	for name, c := range map[string]reasonCase{
		// 12.345 is printed 12.34: to even, or cut.
		"half even or cut": {tariff.Schedule{Rows: []tariff.Row{energyRow("0.12345")}}, march("100"), "Energy = 12.34", "Energy", "if halves are rounded to even, or if further digits are cut off; nothing here tells which", false},
		// 12.347 is printed 12.34.
		"cut": {tariff.Schedule{Rows: []tariff.Row{energyRow("0.12347")}}, march("100"), "Energy = 12.34", "Energy", "12.34 comes out, as printed, if further digits are cut off.", false},
		"whole units": {
			tariff.Schedule{Rows: []tariff.Row{energyRow("0.12347")}}, march("100"), "Energy = 12.00", "Energy", "if amounts are rounded to whole units", false,
		},
		// 10.046 twice: 20.10 as rounded lines, 20.092 exact.
		"total alone": {
			tariff.Schedule{Rows: []tariff.Row{
				{Kind: "energy", Name: "One", Price: "0.10046"}, {Kind: "energy", Name: "Two", Price: "0.10046"}, {Kind: "tax", Name: "Tax", Price: "100 %"},
			}},
			march("100"), "One = 10.05\nTwo = 10.05\nTax = 20.09", "Tax", "20.09 comes out, as printed, if the total alone is rounded.", false,
		},
		// Losses of 26.32 kWh, shown as 26 on a bill that prices what it shows.
		"shown kWh": {
			tariff.Schedule{Rows: []tariff.Row{{Kind: "energy", Name: "Losses", Price: "0.115", Basis: "losses"}}},
			lossy, "Losses = 2.99", "Losses",
			"if 26 kWh are priced, not 26.32", false,
		},
		"on metered": {
			tariff.Schedule{Rows: []tariff.Row{{Kind: "energy", Name: "Transmission", Price: "0.016", Basis: "adjusted"}}},
			lossy, "Transmission = 11.20", "Transmission",
			"if it is on the metered energy (loss factor 1.0376)", false,
		},
		"with losses": {
			tariff.Schedule{Rows: []tariff.Row{{Kind: "energy", Name: "Transmission", Price: "0.016"}}},
			lossy, "Transmission = 11.62", "Transmission",
			"11.62 comes out, as printed, if it is on the energy with losses (loss factor 1.0376).", false,
		},
		// 31 days of 20 kWh are 620; 33 days are 660: 66.00 + 8.00.
		"tiers of two more days": {tiers("day"), march("700"), "Energy, up to 620 kWh = 66.00\nEnergy, over 620 kWh = 8.00", "Energy, over 620 kWh", "if the tiers end at 660 kWh (for 33 days, not 31)", false},
		"tiers as one line":      {tiers("day"), march("700"), "Energy = 74.00", "Energy", "for 33 days, not 31", false},
		// 300 a month for 33 days in months of 30: 330 kWh.
		"months of 30": {
			tariff.Schedule{Rows: []tariff.Row{{Kind: "tiers", Name: "Energy", Per: "month", Steps: []tariff.Step{{UpTo: "300", Price: "0.10"}, {Price: "0.20"}}}}},
			whole(t, "2024-03-01", "2024-04-02", "400"), "Energy = 47.00", "Energy", "if the tiers end at 330 kWh (for 33 days in months of 30)", false,
		},
		"whole month": {
			tariff.Schedule{Rows: []tariff.Row{{Kind: "tiers", Name: "Energy", Per: "month", Steps: []tariff.Step{{UpTo: "300", Price: "0.10"}, {Price: "0.20"}}}}},
			whole(t, "2024-03-01", "2024-03-29", "400"), "Energy = 50.00", "Energy", "if the tiers end at 300 kWh (whole, whatever the days)", false,
		},
		"per day, typed per period": {tiers("period"), march("700"), "Energy = 78.00", "Energy", "if the tiers end at 620 kWh (for each of 31 days)", false},
		"a day more": {
			tariff.Schedule{Rows: []tariff.Row{energyRow("0.10"), {Kind: "fixed", Name: "Standing charge", Price: "0.50", Per: "day"}}},
			march("700"), "Energy = 70\nStanding charge = 16.00", "Standing charge",
			"if it is for 32 days, not 31", false,
		},
		// Ten days of 20 at 0.10, then 21 at 0.15; the change a day earlier moves 10.
		"date of the change": {
			tariff.Schedule{Rows: []tariff.Row{
				{Kind: "energy", Name: "Old price", Price: "0.10", Until: "10 Mar 2024"}, {Kind: "energy", Name: "New price", Price: "0.15", Since: "11 Mar 2024"},
			}},
			even(t, "2024-03-01", "2024-03-31", "20"), "Old price = 18.00\nNew price = 66.00", "Old price",
			"if prices change on 10 Mar, not on 11 Mar", false,
		},
		// 10 kWh a day, then 30: the bill prices half the 600 kWh at each.
		"split by days": {
			tariff.Schedule{Rows: []tariff.Row{
				{Kind: "energy", Name: "To 15 April", Price: "0.10", Until: "2024-04-15"}, {Kind: "energy", Name: "From 16 April", Price: "0.20", Since: "2024-04-16"},
			}},
			uneven, "To 15 April = 30.00\nFrom 16 April = 60.00", "From 16 April", "60.00 comes out, as printed, if the 600 kWh are split evenly over the days, not as they were used.", false,
		},
		"loss factor not given": {
			tariff.Schedule{Rows: []tariff.Row{{Kind: "energy", Name: "Transmission", Price: "0.1", Basis: "adjusted"}}},
			march("700"), "Transmission = 72.63", "Transmission",
			"72.63 would come out, as printed, with a loss factor of 1.0376; none is given.", true,
		},
		"loss factor of two lines": {
			tariff.Schedule{Rows: []tariff.Row{{Kind: "energy", Name: "Transmission", Price: "0.1", Basis: "adjusted"}, {Kind: "energy", Name: "Losses", Price: "0.1", Basis: "losses"}}},
			march("700"), "Transmission = 72.63\nLosses = 2.63", "Losses", "2.63 comes out, as printed, with a loss factor of 1.0376; none is given. So do the other lines with losses.", false,
		},
		"season": {
			tariff.Schedule{Rows: []tariff.Row{
				{Kind: "energy", Name: "Winter", Price: "0.10", From: "1 Nov", To: "30 Apr"}, {Kind: "energy", Name: "Summer", Price: "0.15", From: "1 May", To: "31 Oct"},
			}},
			even(t, "2024-04-21", "2024-05-20", "20"), "Winter = 20.00\nSummer = 60.00", "Winter", "", true, // right as it is
		},
		"untaxed": {taxed(""), march("700"), "Energy = 70\nService = 10.20\nLevy = 2\nTax = 4.01", "Tax", "4.01 comes out, as printed, if “Levy” is not taxed.", false},
		"taxed":   {taxed("Energy, Service"), march("700"), "Energy = 70\nService = 10.20\nLevy = 2\nTax = 4.11", "Tax", "4.11 comes out, as printed, if “Levy” is taxed as well.", false},
		// “Supply” is a part of the name “Peak supply”, but not taxed.
		"a name in a name": {
			tariff.Schedule{Rows: []tariff.Row{
				{Kind: "energy", Name: "Supply", Price: "0.10"}, {Kind: "energy", Name: "Peak supply", Price: "0.02"}, {Kind: "tax", Name: "Tax", Price: "5 %", On: "Peak supply"},
			}},
			march("700"), "Supply = 70\nPeak supply = 14\nTax = 4.20", "Tax", "4.20 comes out, as printed, if “Supply” is taxed as well.", false,
		},
		"tiers at a thousand": {
			tariff.Schedule{Rows: []tariff.Row{{Kind: "tiers", Name: "Energy", Per: "month", Steps: []tariff.Step{{UpTo: "1,000", Price: "0.10"}, {Price: "0.20"}}}}},
			whole(t, "2024-03-01", "2024-03-29", "1400"), "Energy = 180.00", "Energy", "if the tiers end at 1000 kWh (whole, whatever the days)", false,
		},
		// 37.525 and 12.475 cut: the first alone could be a half to even as well.
		"one cause of two": {
			tariff.Schedule{Rows: []tariff.Row{{Kind: "energy", Name: "Supply", Price: "0.1501"}, {Kind: "energy", Name: "Delivery", Price: "0.0499"}}},
			march("250"), "Supply = 37.52\nDelivery = 12.47", "Supply", "37.52 comes out, as printed, if further digits are cut off.", false,
		},
		// 550 · 0.10 is whole by chance, as 52.50 shows.
		"whole by chance": {
			tariff.Schedule{Rows: []tariff.Row{{Kind: "tiers", Name: "Energy", Per: "month", Steps: []tariff.Step{{UpTo: "500", Price: "0.10"}, {Price: "0.15"}}}}},
			whole(t, "2024-01-12", "2024-02-13", "900"), "First 500 = 55.00\nOver 500 = 52.50", "First 500",
			"55.00 comes out, as printed, if the tiers end at 550 kWh (for 33 days in months of 30).", false,
		},
		"follows":   {taxed("Energy, Service"), march("700"), "Energy = 70\nService = 12\nLevy = 2\nTax = 4.10", "Tax", "It follows from other lines: 5 % of 82.00, their printed amounts, is 4.10.", false},
		"wrong kWh": {tariff.Schedule{Rows: []tariff.Row{energyRow("0.1034"), {Kind: "energy", Name: "Fuel", Price: "0.0123"}}}, march("700"), "Energy = 72.90\nFuel = 8.67", "Fuel", "with 705 kWh in place of 700, and so do the other lines of energy", false},
		// 21 kWh more are 3 %, as the tax is; that has its own line.
		"wrong kWh, like a tax": {
			tariff.Schedule{Rows: []tariff.Row{energyRow("0.10"), {Kind: "energy", Name: "Fuel", Price: "0.05"}, {Kind: "tax", Name: "Tax", Price: "3 %"}}},
			march("700"), "Energy = 72.10\nFuel = 36.05\nTax = 3.24", "Fuel", "with 721 kWh in place of 700, and so do the other lines of energy", false,
		},
		// 724 kWh are priced; Fuel alone, 2.90, could be for 726.32, with losses.
		"wrong kWh, like losses": {
			tariff.Schedule{Rows: []tariff.Row{energyRow("0.10"), {Kind: "energy", Name: "Fuel", Price: "0.0040"}}},
			lossy, "Energy = 72.40\nFuel = 2.90", "Fuel", "with 724 kWh in place of 700, and so do the other lines of energy", false,
		},
		"one end said once": {
			tariff.Schedule{Rows: []tariff.Row{{Kind: "tiers", Name: "Energy", Per: "month", Steps: []tariff.Step{{UpTo: "500", Price: "0.1001"}, {Price: "0.15"}}}}},
			whole(t, "2024-03-01", "2024-03-30", "900"), "Energy = 110.05", "Energy", "110.05 comes out, as printed, if the tiers end at 500 kWh (whole, whatever the days).", false,
		},
		// 10.20 for 32 of 31 days would be 10.53, but the other charge shows 31.
		"days that are right": {
			tariff.Schedule{Rows: []tariff.Row{{Kind: "fixed", Name: "Levy", Price: "10.20"}, {Kind: "fixed", Name: "Service", Price: "0.50", Per: "day"}}},
			march("700"), "Levy = 10.53\nService = 15.50", "Levy", "nothing tried here explains it", true,
		},
		"days that may be wrong": {
			tariff.Schedule{Rows: []tariff.Row{{Kind: "fixed", Name: "Levy", Price: "10.20"}}},
			march("700"), "Levy = 10.53", "Levy", "if it is for 32 days, not 31", false,
		},
		"one kWh":    {tariff.Schedule{Rows: []tariff.Row{energyRow("0.1034")}}, march("700"), "Energy = 72.90", "Energy", "would come out, as printed, with 705 kWh in place of 700; nothing else", true},
		"no reason":  {tariff.Schedule{Rows: []tariff.Row{energyRow("0.10"), {Kind: "fixed", Name: "Service", Price: "10.00"}}}, march("700"), "Energy = 70.00\nService = 11.37", "Service", "1.37 more is printed than the 10.00 that come out; nothing tried here explains it.", true},
		"not at all": {tariff.Schedule{Rows: []tariff.Row{energyRow("0.10")}}, march("700"), "Energy = 70.00", "Energy", "", true},
	} {
		t.Run(name, func(t *testing.T) {
			p := reasonOf(t, rebuilt(t, c.s, c.u, c.printed, "", ""), c.on)
			got := strings.ReplaceAll(p.Reason, "\u202f", " ")
			if p.IsExplained == c.open || c.wants == "" != (got == "" || strings.Contains(got, "nothing tried")) && !strings.Contains(got, c.wants) || !strings.Contains(got, c.wants) {
				t.Errorf("explained %v: %s", p.IsExplained, got)
			}
		})
	}
}

// An estimated read explains what a single line of energy leaves open.
func TestReasonEstimated(t *testing.T) {
	s := tariff.Schedule{Rows: []tariff.Row{energyRow("0.1034")}}
	b := Bill{Path: "periods.0", Usage: whole(t, "2024-03-01", "2024-03-31", "700"), Schedule: s, Printed: lines("Energy = 72.90"), Estimated: true}
	p := Rebuild(build(t, s), b).Pairs[0]
	if !p.IsExplained || p.Reason != "72.90 comes out, as printed, with 705 kWh in place of 700; an end of the period rests on an estimated read." {
		t.Errorf("%v %s", p.IsExplained, p.Reason)
	}
}

// A rule that would make a right line wrong is no reason: 0.125 twice, once
// printed up and once to even.
func TestReasonMustNotBreak(t *testing.T) {
	s := tariff.Schedule{Rows: []tariff.Row{{Kind: "energy", Name: "Energy", Price: "0.00125"}, {Kind: "energy", Name: "Fuel", Price: "0.00325"}}}
	a := rebuilt(t, s, whole(t, "2024-03-01", "2024-03-31", "100"), "Energy = 0.13\nFuel = 0.32", "", "")
	if p := reasonOf(t, a, "Fuel"); p.IsExplained {
		t.Errorf("explained: %s", p.Reason)
	}
}

// Words about the total.
func TestTotalWords(t *testing.T) {
	s := tariff.Schedule{Rows: []tariff.Row{{Kind: "energy", Name: "One", Price: "0.10004"}, {Kind: "energy", Name: "Two", Price: "0.10004"}}}
	u := whole(t, "2024-03-01", "2024-03-31", "100") // 10.004 twice
	for _, c := range []struct{ printed, total, want string }{
		{"One = 10.00\nTwo = 10.00", "20.00", "The bill comes out exactly: 20.00."},
		{"One = 10.00\nTwo = 10.00", "20.01", "20.01 comes out, as printed, if the total alone is rounded."},
		{"One = 10.00\nTwo = 10.00", "21.00", "The printed lines add up to 20.00; the printed total is 1.00 more."},
		{"", "21.00", "21.00 is printed, 1.00 more than the 20.00 that come out."},
		{"One = 10.00\nTwo = 10.00\nGift = 1.00", "", "1 printed line is not in the tariff."},
		{"One = 10.00\nTwo = 11.00", "", "1 line differs from what is printed."},
		{"One = 10.00", "", "1 line of the tariff is not printed."},
	} {
		if got := strings.Join(rebuilt(t, s, u, c.printed, c.total, "").Words, "\n"); !strings.Contains(got, c.want) {
			t.Errorf("%q, total %q:\n%s", c.printed, c.total, got)
		}
	}
	if a := rebuilt(t, s, u, "", "", ""); a.HasTotal || len(a.Words) > 0 {
		t.Errorf("nothing printed: %v", a.Words)
	}
}

// Without the schedule what needs none is tried still.
func TestWithoutSchedule(t *testing.T) {
	s := tariff.Schedule{Rows: []tariff.Row{{Kind: "fixed", Name: "Standing charge", Price: "0.50", Per: "day"}}}
	b := Bill{Path: "periods.0", Usage: whole(t, "2024-03-01", "2024-03-31", "700"), Printed: lines("Standing charge = 16.00"), Solve: "row.0"}
	a := Rebuild(build(t, s), b)
	if !a.Pairs[0].IsExplained || a.Solved.Found {
		t.Errorf("%+v %+v", a.Pairs[0], a.Solved)
	}
}
