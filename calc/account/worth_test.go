package account

import (
	"math"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"splittally/calc/calendar"
	"splittally/calc/compare"
	"splittally/calc/tariff"
	"splittally/calc/uncertainty"
)

func near6(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.Abs(got-want) > 1e-6 {
		t.Errorf("%s is %v, want %v", what, got, want)
	}
}

// compared is a comparison with one cause in the indicated energy, in percent.
func compared(t *testing.T, indicated, reference, percent, source string) compare.Comparison {
	w := compare.Amount{Energy: energyOf(t, indicated)}
	w.AddOfReading(uncertainty.Part{Name: source, Source: source, HalfWidth: dec(percent).InexactFloat64(), Distribution: uncertainty.Normal})
	return compare.Judge(w, compare.Amount{Energy: energyOf(t, reference)}, 0.95)
}

// 620 kWh by the meter and 630 by the monitor: both in the second tier, so each
// kWh is 0.12 + 0.0123 and 5.5 % of tax.
func TestValueOf(t *testing.T) {
	c := compared(t, "630", "620", "1", "accuracy")
	w := ValueOf(build(t, household()), Meter(build(t, household()), whole(t, "2024-03-01", "2024-03-31", "620")), whole(t, "2024-03-01", "2024-03-31", "630"), c)
	equal(t, "marginal", w.Marginal, "0.1395765")
	equal(t, "energy", w.Energy, "10")
	equal(t, "difference", w.Difference, "1.39") // 91.00 less 89.61, as printed
	near6(t, "value", w.Value, 1.395765)
	near6(t, "expanded", w.Expanded, c.Expanded/100*620*0.1395765)
	near6(t, "a year", w.PerYear, 1.395765*365.25/31)
	if w.IsAcross {
		t.Error("no edge lies between")
	}
}

// From 480 to 520 kWh a tier ends at 500: 20 kWh at the one price and 20 at the
// other, before tax and fuel.
func TestValueAcross(t *testing.T) {
	c := compared(t, "520", "480", "1", "accuracy")
	meter, monitor := whole(t, "2024-03-01", "2024-03-31", "480"), whole(t, "2024-03-01", "2024-03-31", "520")
	s := household()
	s.Round = "total"
	w := ValueOf(build(t, s), Meter(build(t, s), meter), monitor, c)
	if !w.IsAcross {
		t.Error("an edge lies between")
	}
	near6(t, "value", w.Value, (20*0.10+20*0.12+40*0.0123)*1.055)
	near6(t, "expanded at the dearer price", w.Expanded, c.Expanded/100*480*(0.12+0.0123)*1.055)
	back := ValueOf(build(t, s), Meter(build(t, s), monitor), meter, compared(t, "480", "520", "1", "accuracy"))
	near6(t, "the other way", back.Value, -w.Value)
}

// The loss factor makes a row on adjusted energy dearer.
func TestValueLosses(t *testing.T) {
	s := tariff.Schedule{Rows: []tariff.Row{{Kind: "energy", Name: "Energy", Price: "0.10", Basis: "adjusted"}}}
	meter, monitor := whole(t, "2024-03-01", "2024-03-31", "700"), whole(t, "2024-03-01", "2024-03-31", "710")
	meter.LossFactor, monitor.LossFactor = dec("1.0376"), dec("1.0376")
	w := ValueOf(build(t, s), Meter(build(t, s), meter), monitor, compared(t, "710", "700", "1", "a"))
	equal(t, "marginal", w.Marginal, "0.10376")
	equal(t, "difference", w.Difference, "1.04")
}

// The monitor's accuracy is one cause in all periods: it does not shrink by
// adding. Causes of each period alone do.
func TestPooled(t *testing.T) {
	t1 := build(t, tariff.Schedule{Rows: []tariff.Row{energyRow("0.10")}})
	pool := func(sources ...string) Worth {
		var list []PeriodWorth
		for i, source := range sources {
			c := compared(t, "630", "600", "1", source)
			span := calendar.Span{First: calendar.Day(19000 + 30*i), End: calendar.Day(19030 + 30*i)}
			meter, monitor := whole(t, "2024-03-01", "2024-03-30", "600"), whole(t, "2024-03-01", "2024-03-30", "630")
			list = append(list, PeriodWorth{Span: span, Worth: ValueOf(t1, Meter(t1, meter), monitor, c), Compared: c})
		}
		list = append(list, PeriodWorth{}) // one that could not be compared
		return Pooled(list)
	}
	one, common, apart := pool("a"), pool("a", "a", "a", "a"), pool("a", "b", "c", "d")
	near6(t, "value", common.Value, 12)
	near6(t, "a year", common.PerYear, 12*365.25/120)
	equal(t, "energy", common.Energy, "120")
	equal(t, "difference", common.Difference, "12")
	equal(t, "marginal", common.Marginal, "0.1")
	near6(t, "common doubt", common.Expanded, 4*one.Expanded)
	near6(t, "common doubt a year", common.YearDoubt, one.YearDoubt)
	near6(t, "doubt apart", apart.Expanded, 2*one.Expanded)
	if got := Pooled(nil); got.Value != 0 || got.Expanded != 0 {
		t.Errorf("of nothing: %+v", got)
	}
}

// Whatever the tiers and minimums, the value is the difference of the bills
// before rounding, and the other way round it is the same with the other sign.
func TestValueHolds(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		amount := func(most int64, places int32) string {
			return decimal.New(rapid.Int64Range(1, most).Draw(rt, "amount"), -places).StringFixed(4)
		}
		s := tariff.Schedule{Round: "total", Rows: []tariff.Row{
			{Kind: "tiers", Name: "Energy", Steps: []tariff.Step{{UpTo: "300", Price: amount(4000, 4)}, {UpTo: "305", Price: amount(4000, 4)}, {Price: amount(4000, 4)}}},
			{Kind: "minimum", Price: "$" + amount(9000, 2)},
			{Kind: "tax", Price: "5.5 %"},
		}}
		one, other := amount(60000, 2), amount(60000, 2)
		if rapid.Bool().Draw(rt, "near the edge") {
			one, other = amount(900, 2), amount(900, 2)
			one, other = dec(one).Add(dec("297")).String(), dec(other).Add(dec("297")).String()
		}
		a, b := whole(t, "2024-03-01", "2024-03-31", one), whole(t, "2024-03-01", "2024-03-31", other)
		tariffs := build(t, s)
		w := ValueOf(tariffs, Meter(tariffs, a), b, compare.Comparison{})
		want := exact(tariffs.Price(b)).Sub(exact(tariffs.Price(a))).InexactFloat64()
		if math.Abs(w.Value-want) > 1e-7*(1+math.Abs(want)) {
			rt.Fatalf("%s to %s kWh: %v, want %v (across %v)", one, other, w.Value, want, w.IsAcross)
		}
		if back := ValueOf(tariffs, Meter(tariffs, b), a, compare.Comparison{}); math.Abs(back.Value+w.Value) > 1e-7*(1+math.Abs(want)) {
			rt.Fatalf("back: %v, forth: %v", back.Value, w.Value)
		}
	})
}
