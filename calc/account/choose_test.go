package account

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/tariff"
)

// plans gives schedules built, of which nothing may be wrong.
func plans(t testing.TB, list ...tariff.Schedule) (out []tariff.Tariff) {
	t.Helper()
	for _, s := range list {
		out = append(out, build(t, s))
	}
	return out
}

// flat is a price per kWh and a charge per day.
func flat(name, perKWh, perDay string) tariff.Schedule {
	return tariff.Schedule{Name: name, Currency: "USD", Rows: []tariff.Row{energyRow(perKWh), {Kind: "fixed", Name: "Service", Price: perDay, Per: "day"}}}
}

// year is four years of months, each day with so many kWh.
func year(t testing.TB, each string) (list []tariff.Usage) {
	first := day(t, "2021-01-01")
	for first < day(t, "2025-01-01") {
		y, m, _ := first.Date()
		next, ok := calendar.Date(y, m+1, 1)
		if !ok {
			next, _ = calendar.Date(y+1, 1, 1)
		}
		list = append(list, even(t, first.String(), (next-1).String(), each))
		first = next
	}
	return list
}

// 1461 days of 10 kWh are 3,652.50 kWh a year.
func TestChoose(t *testing.T) {
	list := Choose(plans(t, flat("Dear", "0.10", "0.40"), flat("Cheap", "0.12", "0"), flat("Middle", "0.10", "0.30")), year(t, "10"))
	var got []string
	for _, c := range list {
		got = append(got, c.Name+" "+c.PerYear.StringFixed(2)+" more "+c.More.StringFixed(2))
	}
	// 3652.5·0.12 = 438.30; 3652.5·0.10 + 365.25·0.30 = 474.825; with 0.40: 511.35
	want := []string{"Cheap 438.30 more 0.00", "Middle 474.83 more 36.53", "Dear 511.35 more 73.05"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	// Middle meets at 15 kWh a day, 5,479 a year; Dear at 20, twice the use.
	for i, words := range [][]string{nil, {"At about 5479 kWh a year it costs as much as “Cheap”, above that less, if all use changes alike; the periods have 3653 kWh a year."}, {"At about 7305 kWh a year it costs as much as “Cheap”, above that less, if all use changes alike; the periods have 3653 kWh a year."}} {
		if diff := cmp.Diff(words, list[i].Words); diff != "" {
			t.Errorf("%s: %s", list[i].Name, diff)
		}
	}
	if list[0].Plan != 1 || list[1].Plan != 2 || list[2].Plan != 0 {
		t.Errorf("plans %+v", list)
	}
}

// Below the use, too, and across the edge of a tier.
func TestBreakEvenBelow(t *testing.T) {
	tiered := tariff.Schedule{Name: "Tiers", Rows: []tariff.Row{{Kind: "tiers", Name: "Energy", Per: "day", Steps: []tariff.Step{{UpTo: "6", Price: "0.05"}, {Price: "0.25"}}}}}
	list := Choose(plans(t, tiered, tariff.Schedule{Name: "Even", Rows: []tariff.Row{energyRow("0.10")}}), year(t, "10"))
	// 0.30 + 0.25·(x − 6) = 0.10·x at x = 8 a day, 2,922 a year.
	if list[1].Name != "Tiers" || len(list[1].Words) != 1 || !strings.HasPrefix(list[1].Words[0], "At about 2922 kWh a year it costs as much as “Even”, below that less") {
		t.Errorf("%+v", list)
	}
}

// Day at 0.20 and night at 0.05, 12 hours each and 12 kWh: 1.50 a day against
// 1.20. Moving a share x of all use to the night saves 0.15·6·x of it: x = 1/3.
func TestBreakEvenShare(t *testing.T) {
	clock := tariff.Schedule{Name: "Clock", Rows: []tariff.Row{{Kind: "times", Name: "Use", Bands: []tariff.Band{{Name: "Day", Price: "0.20", Hours: "7-19"}, {Name: "Night", Price: "0.05"}}}}}
	u := tariff.Usage{Span: june(t)}
	for d := u.Span.First; d < u.Span.End; d++ {
		for h := range 24 {
			u.Import = append(u.Import, hour(d, h, energy.KilowattHour/2))
		}
	}
	list := Choose(plans(t, clock, tariff.Schedule{Name: "Even", Rows: []tariff.Row{energyRow("0.10")}}), []tariff.Usage{u})
	text := strings.ReplaceAll(strings.Join(list[1].Words, "\n"), "\u202f", " ")
	if list[1].Name != "Clock" || list[1].IsAssumed || !strings.Contains(text, "With about 33 % of all use moved to the hours that are cheapest by it, it costs as much as “Even”.") ||
		!strings.Contains(text, "A year is reckoned from 30 days, whatever their season.") {
		t.Errorf("%+v", list)
	}
	// Whole days leave the share open: the words say so.
	list = Choose(plans(t, clock), []tariff.Usage{even(t, "2024-06-01", "2024-06-30", "12")})
	if !list[0].IsAssumed || !strings.Contains(strings.Join(list[0].Words, "\n"), "assumed: a year may come to between 219.15 and 876.60") {
		t.Errorf("%+v", list[0])
	}
}

// What can't be priced is said: power, energy sent out, another currency, and a
// tariff without a price is left out.
func TestChooseAssumptions(t *testing.T) {
	power := flat("Power", "0.10", "0")
	power.Rows = append(power.Rows, tariff.Row{Kind: "demand", Name: "Peak power", Price: "5", Per: "15"})
	solar := flat("Solar", "0.11", "0")
	solar.Rows = append(solar.Rows, tariff.Row{Kind: "export", Price: "0.04"})
	euro := flat("Euro", "0.01", "0")
	euro.Currency = "EUR"
	euro.Rows = append(euro.Rows, tariff.Row{Kind: "tax", Name: "City tax"})
	list := Choose(plans(t, power, solar, euro, tariff.Schedule{Name: "Empty"}), year(t, "10"))
	if got := strings.Join(list[2].Words, "\n"); !strings.Contains(got, "“City tax” is left out, as something of it is missing or can’t be read.") {
		t.Errorf("%q", got)
	}
	if len(list) != 3 || list[2].Name != "Euro" || !list[2].IsApart || !list[2].More.IsZero() {
		t.Fatalf("%+v", list)
	}
	for i, want := range []string{"Energy sent out is not given, so there is no credit for it.", "“Peak power” is not in the bill: it needs readings of 15 minutes or less.", "It is in another currency, so it is not ranked."} {
		if !strings.Contains(strings.Join(list[i].Words, "\n"), want) {
			t.Errorf("%s: %q", list[i].Name, list[i].Words)
		}
	}
	if Choose(plans(t, power), nil) != nil {
		t.Error("no periods")
	}
}

// What one month sends out is netted in the next, whatever the order given.
func TestChooseCarries(t *testing.T) {
	net := tariff.Schedule{Rows: []tariff.Row{energyRow("0.10"), {Kind: "netting"}}}
	sunny, dark := even(t, "2024-06-01", "2024-06-30", "1"), even(t, "2024-07-01", "2024-07-31", "10")
	sunny.Export = []tariff.Slot{{First: sunny.Span.First, Last: sunny.Span.Last(), To: dayMinutes, Energy: energyOf(t, "130")}}
	equal(t, "total", Choose(plans(t, net), []tariff.Usage{dark, sunny})[0].Total, "21") // 310 less the 100 left over
}

// The order given changes nothing; each total is the sum of the bills; the
// cheapest is first.
func TestChooseHolds(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		var list []tariff.Schedule
		for range rapid.IntRange(1, 4).Draw(rt, "plans") {
			price := func() string { return decimal.New(rapid.Int64Range(1, 4000).Draw(rt, "price"), -4).StringFixed(4) }
			list = append(list, tariff.Schedule{Rows: []tariff.Row{
				{Kind: "tiers", Name: "Energy", Steps: []tariff.Step{{UpTo: "300", Price: price()}, {Price: price()}}}, {Kind: "fixed", Price: price(), Per: "day"},
			}})
		}
		all := plans(t, list...)
		periods := []tariff.Usage{even(t, "2024-01-01", "2024-01-31", "11"), even(t, "2024-02-01", "2024-02-29", "7.5")}
		got := Choose(all, periods)
		for i, c := range got {
			var sum decimal.Decimal
			for _, u := range periods {
				sum = sum.Add(all[c.Plan].Price(u).Total)
			}
			if !sum.Equal(c.Total) || c.More.IsNegative() || i > 0 && c.Total.LessThan(got[i-1].Total) {
				rt.Fatalf("%+v", got)
			}
		}
		periods[0], periods[1] = periods[1], periods[0]
		if diff := cmp.Diff(got, Choose(all, periods), cmp.Comparer(decimal.Decimal.Equal)); diff != "" {
			rt.Fatal(diff)
		}
	})
}

// A tariff that lacks a row may be cheap for that alone.
func TestPartialTariffsStandBehind(t *testing.T) {
	complete := tariff.Schedule{Name: "Whole", Rows: []tariff.Row{{Kind: "energy", Name: "Energy", Price: "0.20"}}}
	lacking := tariff.Schedule{Name: "Lacking", Rows: []tariff.Row{{Kind: "energy", Name: "Energy", Price: "0.10"}, {Kind: "demand", Name: "Peak", Price: "9", Per: "15"}}}
	choices := Choose([]tariff.Tariff{build(t, lacking), build(t, complete)}, []tariff.Usage{whole(t, "2024-03-01", "2024-03-31", "600")})
	if len(choices) != 2 || choices[0].Name != "Whole" || !choices[1].IsPartial || choices[0].IsPartial {
		t.Errorf("%+v", choices)
	}
}
