package tariff

import (
	"testing"

	"splittally/calc/remark/remarktest"
)

// Rows that can be read and yet hardly say what was meant.
func TestDoubts(t *testing.T) {
	energy := func(from, to, since, until string) Row {
		return Row{Kind: "energy", Name: "E" + from + since, Price: "$0.10", From: from, To: to, Since: since, Until: until}
	}
	for name, c := range map[string]struct {
		rows []Row
		said []string
	}{
		"a minimum first": {
			[]Row{{Kind: "minimum", Price: "10"}, energy("", "", "", "")},
			[]string{"notice counts-nothing tariff.rows.0.on"},
		},
		"a day in two seasons": {
			[]Row{energy("1 Jun", "1 Oct", "", ""), energy("1 Oct", "31 May", "", "")},
			[]string{"notice both-hold tariff.rows.1"},
		},
		"a day with two prices": {
			[]Row{energy("", "", "", "2024-04-01"), energy("", "", "2024-04-01", "")},
			[]string{"notice both-hold tariff.rows.1"},
		},
		"side by side": {[]Row{energy("1 Jun", "30 Sep", "", ""), energy("1 Oct", "31 May", "", "")}, nil},
	} {
		t.Run(name, func(t *testing.T) {
			remarktest.Want(t, saidOf(Build(Schedule{Rows: c.rows}, Options{})), c.said...)
		})
	}
}

func TestUnpricedDays(t *testing.T) {
	summer := Row{Kind: "energy", Name: "Summer", Price: "$0.20", From: "1 Jun", To: "30 Sep"}
	winter := Row{Kind: "energy", Name: "Winter", Price: "$0.10", From: "2 Oct", To: "31 May"}
	u := daysOf(t, "2024-09-29", 10, 10, 10, 10)
	for name, c := range map[string]struct {
		rows []Row
		want string
	}{
		"none":     {[]Row{summer, winter, {Kind: "energy", Price: "$0.01"}}, ""},
		"one day":  {[]Row{summer, winter}, "No row has a price for the energy of 1 Oct 2024."},
		"two days": {[]Row{summer}, "No row has a price for the energy of 2 days, the first of them 1 Oct 2024."},
	} {
		t.Run(name, func(t *testing.T) {
			var got string
			for _, n := range build(t, Schedule{Rows: c.rows}).Price(u).Notices {
				got += n.Text
			}
			if got != c.want {
				t.Errorf("told %q, want %q", got, c.want)
			}
		})
	}
	for i := range u.Import {
		u.Import[i].Energy = 0
	}
	if n := build(t, Schedule{Rows: []Row{summer}}).Price(u).Notices; len(n) > 0 {
		t.Errorf("nothing was drawn, but %v", n)
	}
}

// A row that can't be read is not in the bill, and the tariff says which.
func TestLeftOut(t *testing.T) {
	b := Build(Schedule{Rows: []Row{{Kind: "energy", Price: "0.10"}, {}, {Kind: "tax", Name: "City tax", Price: "5 %", On: "Wind"}, {Kind: "fixed"}}}, Options{})
	if got := b.Tariff.LeftOut; len(got) != 2 || got[0] != "City tax" || got[1] != "Fixed charge" {
		t.Errorf("left out %q", got)
	}
}

// A unit price and a daily charge, both typed in pence.
func TestBareDaily(t *testing.T) {
	s := Schedule{Currency: "GBP", Rows: []Row{{Kind: "energy", Price: "24.50"}, {Kind: "fixed", Price: "60.99", Per: "day"}, {Kind: "fixed", Price: "60.99"}}}
	for answer, want := range map[string][3]string{"": {"0.245", "0.6099", "60.99"}, "units": {"24.5", "60.99", "60.99"}} {
		b := Build(s, Options{Answers: map[string]string{"tariff.price-unit": answer}})
		if len(b.Questions) != 1 || b.Questions[0].Choices[0].Gives != "0.245 per kWh and 0.6099 per day" {
			t.Fatalf("%q: %v", answer, b.Questions)
		}
		for i, r := range b.Tariff.rows {
			equal(t, answer+" "+s.Rows[i].Price, r.price, want[i])
		}
	}
}

// Yen have no decimals, so a charge of 1,248 is over a thousand of them; a price
// per kWh may have any.
func TestThousandsOfYen(t *testing.T) {
	b := Build(Schedule{Currency: "JPY", Rows: []Row{{Kind: "fixed", Price: "1,248"}, {Kind: "energy", Price: "29,812"}}}, Options{})
	remarktest.Want(t, saidOf(b), "question tariff.rows.0.price = 1248", "question tariff.rows.1.price = 29.812")
}
