package account

import (
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/tariff"
)

// usual gives days from first to last: 20 kWh on weekdays, 30 at weekends.
func usual(t testing.TB, first, last string) (list []DayUse) {
	for d := day(t, first); d <= day(t, last); d++ {
		list = append(list, DayUse{d, (20 + 10*energy.Energy(kindOfDay(d))) * energy.KilowattHour, true})
	}
	return list
}

func june(t testing.TB) calendar.Span {
	return calendar.Span{First: day(t, "2024-06-01"), End: day(t, "2024-07-01")}
}

// June 2024 begins on a Saturday and has ten days of weekends: 20·20 + 10·30.
func TestRunTo(t *testing.T) {
	s := tariff.Schedule{Rows: []tariff.Row{
		{Kind: "tiers", Name: "Energy", Steps: []tariff.Step{{UpTo: "500", Price: "0.10"}, {Price: "0.20"}}},
		{Kind: "fixed", Name: "Service", Price: "0.30", Per: "day"},
	}}
	r := RunTo(build(t, s), RunningInput{Period: 3, Span: june(t), Days: usual(t, "2024-05-01", "2024-06-10")})
	if r.Period != 3 || r.Through != day(t, "2024-06-10") || r.Left != 20 || r.Like != 28 {
		t.Errorf("%+v", r)
	}
	equal(t, "so far", r.EnergySoFar, "240") // 6·20 + 4·30
	equal(t, "bill to date", r.ToDate.Total, "27.00")
	equal(t, "energy", r.Energy, "700")
	equal(t, "projected", r.Projected.Total, "99.00") // 50 + 40 + 9
	// 240 kWh by the 10th, 480 by the 21st (9·20 + 2·30 more), and the 22nd, a Saturday, goes over 500.
	if !r.Next.Known || r.Next.Name != "Energy, over 500 kWh" || r.Next.Day != day(t, "2024-06-22") {
		t.Errorf("next %+v %s", r.Next, r.Next.Day)
	}
	if !r.Low.LessThan(r.Projected.Total) || !r.High.GreaterThan(r.Projected.Total) || r.EnergyDoubt <= 0 {
		t.Errorf("%s to %s, ± %v", r.Low, r.High, r.EnergyDoubt)
	}
	// The interval of the money is that of the energy at the second tier's price.
	near6(t, "high", r.High.Sub(r.Projected.Total).InexactFloat64(), dec("0.20").Mul(decimal.NewFromFloat(r.EnergyDoubt)).Round(2).InexactFloat64())
	if text := strings.Join(r.Words, "\n"); !strings.Contains(text, "The 20 days to come are taken as the mean of like days, weekdays and weekends apart, among the last 28 measured days.") ||
		!strings.Contains(text, "At this pace “Energy, over 500 kWh” is reached on 22 Jun 2024.") {
		t.Errorf("%s", text)
	}
}

// With days alike the doubt is the drift between months alone: 0.22·x̄·n·√((m+n)/60)
// at 1.96, and none of it is left at the end.
func TestRunToDoubt(t *testing.T) {
	flat := build(t, tariff.Schedule{Rows: []tariff.Row{energyRow("0.10")}})
	var days []DayUse
	for d := day(t, "2024-05-14"); d <= day(t, "2024-06-10"); d++ {
		days = append(days, DayUse{d, 10 * energy.KilowattHour, true})
	}
	r := RunTo(flat, RunningInput{Span: june(t), Days: days, Confidence: 0.95})
	if r.EnergyDoubt < 1.96*0.22*10*20*0.894427 || r.EnergyDoubt > 2.2*0.22*10*20*0.894428 {
		t.Errorf("± %v", r.EnergyDoubt)
	}
	for d := day(t, "2024-06-11"); d <= day(t, "2024-06-30"); d++ {
		days = append(days, DayUse{d, 10 * energy.KilowattHour, true})
	}
	r = RunTo(flat, RunningInput{Span: june(t), Days: days})
	if r.Left != 0 || r.EnergyDoubt != 0 || !r.Low.Equal(dec("30")) || !r.High.Equal(dec("30")) || !r.Projected.Total.Equal(r.ToDate.Total) || r.Next.Known {
		t.Errorf("at the end: %+v", r)
	}
	r = RunTo(flat, RunningInput{Span: june(t), Days: days, Factor: dec("1.02"), FactorDoubt: 0.0051})
	equal(t, "corrected", r.Energy, "306")
	near6(t, "doubt of the factor", r.EnergyDoubt, 1.959963984540054*0.0051*300)
	equal(t, "low", r.Low, "30.30")
	equal(t, "high", r.High, "30.90")
}

func TestRunToFewDays(t *testing.T) {
	flat := build(t, tariff.Schedule{Rows: []tariff.Row{energyRow("0.10")}})
	r := RunTo(flat, RunningInput{Span: june(t), Days: usual(t, "2024-06-01", "2024-06-03")})
	if len(r.Projected.Lines) != 0 || !r.ToDate.Total.Equal(dec("8")) || len(r.Words) != 1 || r.Words[0] != "There are 3 measured days; from 5 on the rest of the period is projected." {
		t.Errorf("%+v", r)
	}
	if r = RunTo(flat, RunningInput{Span: june(t)}); r.Through != day(t, "2024-05-31") || len(r.ToDate.Lines) != 0 {
		t.Errorf("no reading: %+v", r)
	}
	// Filled days are not what the mean rests on.
	filled := usual(t, "2024-06-01", "2024-06-10")
	for i := range 8 {
		filled[i].Measured = false
	}
	if r = RunTo(flat, RunningInput{Span: june(t), Days: filled}); r.Like != 2 || r.Left != 20 {
		t.Errorf("filled: %+v", r)
	}
}

// A gap without any figure is taken like the days to come.
func TestRunToGap(t *testing.T) {
	days := usual(t, "2024-05-01", "2024-06-10")
	days = append(days[:len(days)-3], days[len(days)-1])
	r := RunTo(build(t, tariff.Schedule{Rows: []tariff.Row{energyRow("0.10")}}), RunningInput{Span: june(t), Days: days})
	equal(t, "energy", r.Energy, "700")
	if r.Left != 20 || !strings.Contains(strings.Join(r.Words, "\n"), "2 days so far without a figure are taken likewise.") {
		t.Errorf("%d left, %q", r.Left, r.Words)
	}
}

// Hours so far shape the days to come, so that nothing has to be assumed.
func TestRunToHours(t *testing.T) {
	s := tariff.Schedule{Rows: []tariff.Row{
		{Kind: "times", Name: "Use", Bands: []tariff.Band{{Name: "Peak", Price: "0.30", Hours: "18-19"}, {Name: "Rest", Price: "0.10"}}},
		{Kind: "demand", Name: "Peak power", Price: "2.00", Per: "30"},
	}}
	in := RunningInput{Span: june(t), Days: usual(t, "2024-06-01", "2024-06-10")}
	for _, d := range in.Days {
		for half := range 48 { // a quarter of the day's energy from 18 to 19
			e := d.Energy * 3 / 4 / 46
			if half == 36 || half == 37 {
				e = d.Energy / 8
			}
			in.Usage.Import = append(in.Usage.Import, tariff.Slot{First: d.Day, Last: d.Day, From: half * 30, To: half*30 + 30, Energy: e})
		}
	}
	r := RunTo(build(t, s), in)
	if r.Projected.IsAssumed || len(r.Projected.Skipped) > 0 {
		t.Errorf("assumed %v, skipped %v", r.Projected.IsAssumed, r.Projected.Skipped)
	}
	if peak := r.Projected.Uses[0].KWh; peak.Sub(dec("175")).Abs().GreaterThan(dec("0.001")) {
		t.Errorf("peak %s kWh", peak)
	}
	equal(t, "power", r.Projected.Lines[2].Quantity, "7.5") // 3.75 kWh in half an hour
}

// Whatever the days, the interval holds the projection, more confidence is a
// wider one, and the bill so far is not above the projected one.
func TestRunToHolds(t *testing.T) {
	tariffs := build(t, household())
	span := june(t)
	rapid.Check(t, func(rt *rapid.T) {
		var days []DayUse
		for d := span.First - 20; d < span.First+calendar.Day(rapid.IntRange(1, 30).Draw(rt, "through")); d++ {
			if rapid.IntRange(0, 9).Draw(rt, "gone") > 0 {
				days = append(days, DayUse{d, energy.Energy(rapid.Int64Range(0, 60_000).Draw(rt, "Wh")) * energy.WattHour, rapid.Bool().Draw(rt, "measured")})
			}
		}
		in := RunningInput{Span: span, Days: days, Factor: decimal.New(rapid.Int64Range(950, 1050).Draw(rt, "factor"), -3)}
		r := RunTo(tariffs, in)
		if r.Like < leastLike {
			return
		}
		p := r.Projected.Total
		if r.Low.GreaterThan(p) || r.High.LessThan(p) || r.ToDate.Total.GreaterThan(p) || r.EnergySoFar.GreaterThan(r.Energy) {
			rt.Fatalf("so far %s, %s in %s to %s", r.ToDate.Total, p, r.Low, r.High)
		}
		in.Confidence = 0.99
		if wide := RunTo(tariffs, in); wide.EnergyDoubt < r.EnergyDoubt || wide.Low.GreaterThan(r.Low) || wide.High.LessThan(r.High) {
			rt.Fatalf("99 %%: %v, 95 %%: %v", wide.EnergyDoubt, r.EnergyDoubt)
		}
		if n := r.Next; n.Known && (!span.Has(n.Day) || n.Name == "") {
			rt.Fatalf("next %+v", n)
		}
	})
}
