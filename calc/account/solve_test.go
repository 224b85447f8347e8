package account

import (
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"splittally/calc/tariff"
)

func TestSolve(t *testing.T) {
	march := whole(t, "2024-03-01", "2024-03-31", "620")
	s := household()
	band := tariff.Schedule{Rows: []tariff.Row{{Kind: "times", Name: "Use", Bands: []tariff.Band{
		{Name: "Day", Price: "0.20", Hours: "6-18"}, {Name: "Night", Price: "0.10"},
	}}, {Kind: "discount", Name: "Rebate", Price: "10 %"}, {Kind: "discount", Name: "Gift", Price: "$5"}, {Kind: "export", Price: "0.05"}}}
	for name, c := range map[string]struct {
		s                            tariff.Schedule
		printed, total, solve, value string
		words                        string
	}{
		"charge":               {s, "Customer charge = 10.25", "", "row.2", "10.25", "With 10.25 as the price of “Customer charge”, the printed 10.25 USD comes out, as with all from 10.245 to 10.2549."},
		"charge a day":         {s, "Meter rent = 3.72", "", "row.3", "0.12", "0.12 as the price of “Meter rent”"},
		"tax":                  {s, "State tax = 5.10", "", "row.4", "6", "With 6 % as the percentage of “State tax”"},
		"second tier":          {s, "Energy, over 500 kWh = 16.20", "", "row.0.1", "0.135", "0.135 per kWh as the price of part 2 of “Energy”"},
		"first of one line":    {s, "Energy = 74.40", "", "row.0.0", "0.12", ""},
		"two prices":           {s, "Energy = 74.40", "", "row.0", "", "“Energy” has 2 prices. Choose which of them is to be found."},
		"from the total":       {s, "", "94.53", "row.2", "14.16", ""},
		"total, near nothing":  {s, "", "79.61", "row.2", "0.02", ""},
		"time of use":          {band, "Day = 77.50", "", "row.0.0", "0.25", ""},
		"rebate":               {band, "Rebate = -11.16", "", "row.1", "12", "With 12 % as the percentage"},
		"amount off":           {band, "Gift = -6.50", "", "row.2", "6.5", ""},
		"nothing printed":      {s, "", "", "row.2", "", "No printed amount depends on the price of “Customer charge”."},
		"nothing depends":      {s, "", "88.81", "loss-factor", "", "No printed amount depends on the loss factor."},
		"no such row":          {s, "Energy = 1", "", "row.7", "", "The tariff has no such row."},
		"no such part":         {s, "Energy = 1", "", "row.0.7", "", "“Energy” has no such part."},
		"out of reach":         {s, "State tax = 500.00", "", "row.4", "", "it would have to be outside 0 to 100"},
		"export without usage": {band, "Energy sent out = -1.00", "", "row.3", "", "No printed amount depends"},
	} {
		t.Run(name, func(t *testing.T) {
			got := rebuilt(t, c.s, march, c.printed, c.total, c.solve).Solved
			words := strings.ReplaceAll(got.Words, "\u202f", " ")
			if !got.Asked || got.Found != (c.value != "") || !strings.Contains(words, c.words) {
				t.Fatalf("%+v", got)
			}
			if got.Found {
				equal(t, "value", got.Value, c.value)
			}
		})
	}
	a := rebuilt(t, s, march, "Energy = 1", "", "the moon")
	if a.Solved.Found || len(a.Problems) != 1 || a.Problems[0].Path != "periods.0.solve" {
		t.Errorf("%+v %v", a.Solved, a.Problems)
	}
}

// A price of the row's own unit of days survives being looked for.
func TestSolvePerDay(t *testing.T) {
	s := tariff.Schedule{Rows: []tariff.Row{energyRow("0.10"), {Kind: "fixed", Name: "Standing charge", Price: "50p a day"}}}
	a := rebuilt(t, s, whole(t, "2024-03-01", "2024-03-31", "620"), "Standing charge = 18.60", "", "row.1")
	equal(t, "price", a.Solved.Value, "0.6")
}

// Lines that contradict each other have no loss factor.
func TestSolveContradiction(t *testing.T) {
	s := tariff.Schedule{Rows: []tariff.Row{{Kind: "energy", Name: "Transmission", Price: "0.1", Basis: "adjusted"}, {Kind: "energy", Name: "Losses", Price: "0.1", Basis: "losses"}}}
	a := rebuilt(t, s, whole(t, "2024-03-01", "2024-03-31", "700"), "Transmission = 73.00\nLosses = 2.00", "", "loss-factor")
	if a.Solved.Found || !strings.Contains(a.Solved.Words, "No one value") {
		t.Errorf("%+v", a.Solved)
	}
}

// A bill printed with some price is solved for a range that holds that price;
// both ends of it, and the value, give what is printed, and one step beyond does
// not.
func TestSolveHolds(t *testing.T) {
	u := whole(t, "2024-03-01", "2024-03-31", "620")
	rapid.Check(t, func(rt *rapid.T) {
		s := household()
		row := rapid.IntRange(1, 4).Draw(rt, "row")
		places := rapid.Int32Range(2, 5).Draw(rt, "places")
		truth := decimal.New(rapid.Int64Range(1, 99999).Draw(rt, "digits"), -places)
		at := func(x decimal.Decimal) decimal.Decimal {
			v := household()
			v.Rows[row].Price = price(x)
			if row == 4 {
				v.Rows[row].Price = plain(x) + " %"
			}
			for _, l := range tariff.Build(v, tariff.Options{}).Tariff.Price(u).Lines {
				if l.Row == row {
					return l.Amount
				}
			}
			rt.Fatal("no line")
			return decimal.Decimal{}
		}
		if row == 4 {
			truth = decimal.Min(truth, dec("99"))
		}
		printed := at(truth)
		a := Rebuild(tariff.Build(s, tariff.Options{}).Tariff, Bill{
			Path: "periods.0", Usage: u, Schedule: s, Solve: "row." + string(rune('0'+row)), Printed: lines(s.Rows[row].Name + "=" + printed.String()),
		})
		got := a.Solved
		if !got.Found || got.Low.GreaterThan(truth) || got.High.LessThan(truth) || got.Value.LessThan(got.Low) || got.Value.GreaterThan(got.High) {
			rt.Fatalf("row %d, %s: %+v", row, truth, got)
		}
		step := onGrid(1)
		for _, x := range []decimal.Decimal{got.Low, got.High, got.Value} {
			if !at(x).Equal(printed) {
				rt.Fatalf("%s gives %s, not %s", x, at(x), printed)
			}
		}
		if got.Low.Sign() > 0 && at(got.Low.Sub(step)).Equal(printed) || at(got.High.Add(step)).Equal(printed) && got.High.LessThan(dec("100")) {
			rt.Fatalf("the range %s to %s is not the whole", got.Low, got.High)
		}
		if len(got.Value.String()) > len(truth.String()) && truth.Exponent() >= -places && -got.Value.Exponent() > places {
			rt.Fatalf("%s is longer than %s", got.Value, truth)
		}
	})
}

func TestShortest(t *testing.T) {
	for _, c := range []struct{ low, high, want string }{
		{"0.1033889696", "0.1034034833", "0.1034"},
		{"1.0375776398", "1.0377018633", "1.0376"},
		{"9.995", "10.0049", "10"},
		{"0.5", "0.5", "0.5"},
		{"-0.31", "-0.29", "-0.3"},
		{"0.11", "0.99", "0.5"}, // the nearest to the middle
		{"123.4", "987.6", "555"},
		{"0.0000000001", "0.0000000003", "0.0000000002"},
	} {
		equal(t, c.low+" to "+c.high, shortest(steps(dec(c.low)), steps(dec(c.high))), c.want)
	}
}

// 7 % of the printed 60.00 + 17.00 + 12.00, though the tariff has 85.50.
func TestSolvePercentOfPrinted(t *testing.T) {
	s := tariff.Schedule{Rows: []tariff.Row{
		{Kind: "tiers", Name: "Energy", Per: "day", Steps: []tariff.Step{{UpTo: "20", Price: "0.10"}, {Price: "0.15"}}},
		{Kind: "fixed", Name: "Service", Price: "0.35", Per: "day"},
		{Kind: "tax", Name: "Tax", Price: "6.25 %"},
	}}
	a := rebuilt(t, s, whole(t, "2024-03-05", "2024-04-03", "700"), "Tier 1 = 60\nTier 2 = 17\nService = 12\nTax = 6.23", "", "row.2")
	if want := "With 7\u202f% as the percentage of “Tax” on the printed amounts of the lines it counts, the printed 6.23 comes out."; a.Solved.Words != want {
		t.Errorf("%q", a.Solved.Words)
	}
}
