package tariff

import (
	"math/big"
	"slices"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"splittally/calc/calendar"
	"splittally/calc/energy"
)

// drawRow is a row of a kind whose price is per kWh, or a charge per day.
func drawRow(t *rapid.T) Row {
	price := func() string { return "$" + decimal.New(rapid.Int64Range(1, 9999).Draw(t, "price"), -4).String() }
	r := Row{Price: price(), Kind: rapid.SampledFrom([]string{"energy", "times", "fixed", "tiers"}).Draw(t, "kind")}
	r.Basis = rapid.SampledFrom([]string{"", "adjusted", "losses"}).Draw(t, "basis")
	switch r.Kind {
	case "fixed":
		r.Basis, r.Per = "", rapid.SampledFrom([]string{"day", "month"}).Draw(t, "per")
	case "times":
		r.Bands = []Band{
			{"Peak", price(), "workdays", rapid.SampledFrom([]string{"7-11, 17-19", "22:30-6", "9:07-9:08"}).Draw(t, "hours")},
			{"Holiday", price(), "holidays", "12-24"},
			{"Rest", price(), "", ""},
		}
	case "tiers":
		r.Per = rapid.SampledFrom([]string{"day", "month"}).Draw(t, "per")
		r.Steps = []Step{{"7.5", price()}, {"30", price()}, {"", price()}}
	}
	if rapid.Bool().Draw(t, "season") {
		r.From, r.To = "15 Nov", "3 Mar"
	}
	return r
}

func drawSchedule(t *rapid.T) Schedule {
	s := Schedule{Region: "US", Dates: "24 Dec", Round: "total"}
	for range rapid.IntRange(1, 4).Draw(t, "rows") {
		s.Rows = append(s.Rows, drawRow(t))
	}
	return s
}

// flat is the same energy in every hour of some days.
func flat(first calendar.Day, days int, each energy.Energy) Usage {
	u := Usage{Span: calendar.Span{First: first, End: first + calendar.Day(days)}, LossFactor: decimal.New(104, -2)}
	for d := first; d < u.Span.End; d++ {
		for h := range 24 {
			u.Import = append(u.Import, Slot{First: d, Last: d, From: h * 60, To: h*60 + 60, Energy: each})
		}
	}
	return u
}

func exactly(t Tariff, u Usage) *big.Rat { return t.gather(u).write(way{unrounded: true}).sum }

// With the same energy every hour a period can be split at any day: before
// rounding the two bills come to the one. Of tiers those per day alone: a day's
// part of a threshold per month depends on the month.
func TestPeriodsAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSchedule(t)
		for i := range s.Rows {
			if s.Rows[i].Kind == "tiers" {
				s.Rows[i].Per = "day"
			}
		}
		tariff := Build(s, Options{}).Tariff
		first := calendar.Day(rapid.IntRange(18000, 22000).Draw(t, "first"))
		days, each := rapid.IntRange(2, 40).Draw(t, "days"), energy.Energy(rapid.Int64Range(0, 5e9).Draw(t, "energy"))
		at := rapid.IntRange(1, days-1).Draw(t, "at")
		one := exactly(tariff, flat(first, days, each))
		two := new(big.Rat).Add(exactly(tariff, flat(first, at, each)), exactly(tariff, flat(first+calendar.Day(at), days-at, each)))
		if one.Cmp(two) != 0 {
			t.Fatalf("%s in one, %s in two", one.FloatString(12), two.FloatString(12))
		}
	})
}

// The order of rows that do not name others makes no difference to the total.
func TestOrderOfRows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSchedule(t)
		u := flat(19700, rapid.IntRange(1, 30).Draw(t, "days"), energy.Energy(rapid.Int64Range(0, 5e9).Draw(t, "energy")))
		s.Round = rapid.SampledFrom([]string{"line", "total"}).Draw(t, "round")
		before := Build(s, Options{}).Tariff.Price(u)
		s.Rows = rapid.Permutation(slices.Clone(s.Rows)).Draw(t, "order")
		if after := Build(s, Options{}).Tariff.Price(u); !after.Total.Equal(before.Total) {
			t.Fatalf("%s, in another order %s", before.Total, after.Total)
		}
	})
}

// Prices twice as high make a bill twice as high, before rounding; no energy
// costs what the charges are.
func TestPricesScale(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSchedule(t)
		n := rapid.Int64Range(0, 1000).Draw(t, "times")
		u := flat(19700, rapid.IntRange(1, 30).Draw(t, "days"), energy.Energy(rapid.Int64Range(0, 5e9).Draw(t, "energy")))
		tariff, times := Build(s, Options{}).Tariff, decimal.NewFromInt(n)
		before := exactly(tariff, u)
		for _, r := range tariff.rows {
			r.price = r.price.Mul(times)
			for i := range r.steps {
				r.steps[i].price = r.steps[i].price.Mul(times)
			}
			for i := range r.bands {
				r.bands[i].price = r.bands[i].price.Mul(times)
			}
		}
		if after := exactly(tariff, u); after.Cmp(before.Mul(before, new(big.Rat).SetInt64(n))) != 0 {
			t.Fatalf("%s, not %s", after.FloatString(12), before.FloatString(12))
		}
		none := tariff.Price(Usage{Span: u.Span})
		for _, l := range none.Lines {
			if l.Unit == "kWh" && !l.Amount.IsZero() {
				t.Fatalf("no energy costs %s", l.Amount)
			}
		}
	})
}

// Every line's energy comes from somewhere: the uses of a row for all days add
// up to what it prices, however the slots lie.
func TestUsesAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSchedule(t)
		for i := range s.Rows {
			s.Rows[i].From, s.Rows[i].To, s.Rows[i].Basis = "", "", ""
		}
		u := Usage{Span: calendar.Span{First: 19700, End: 19740}}
		all := energy.Energy(0)
		for range rapid.IntRange(1, 20).Draw(t, "slots") {
			first := calendar.Day(rapid.IntRange(19700, 19739).Draw(t, "first"))
			slot := Slot{First: first, Last: min(19739, first+calendar.Day(rapid.IntRange(0, 3).Draw(t, "more")))}
			slot.From = rapid.IntRange(0, 1439).Draw(t, "from")
			slot.To = rapid.IntRange(0, 1440).Draw(t, "to")
			slot.Energy = energy.Energy(rapid.Int64Range(-1e10, 1e10).Draw(t, "energy"))
			u.Import, all = append(u.Import, slot), all+slot.Energy
		}
		tariff := Build(s, Options{}).Tariff
		p := tariff.Price(u)
		sums := map[int]decimal.Decimal{}
		for _, use := range p.Uses {
			sums[use.Row] = sums[use.Row].Add(use.KWh)
		}
		for row, sum := range sums {
			if !sum.Round(15).Equal(all.Decimal()) {
				t.Fatalf("row %d prices %s, drawn %s", row, sum, all.Decimal())
			}
		}
		if p.Least.GreaterThan(p.Most) && all >= 0 && !slices.ContainsFunc(u.Import, func(s Slot) bool { return s.Energy < 0 }) {
			t.Fatalf("from %s to %s", p.Least, p.Most)
		}
	})
}

// Marginal is the difference of two bills of which the second has a
// kilowatt-hour more in the same proportions. Sixteen hours a day, so that each
// grows by whole microwatt-hours.
func TestMarginalIsADifference(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tariff := Build(drawSchedule(t), Options{}).Tariff
		days := rapid.SampledFrom([]int{1, 2, 5, 10, 25}).Draw(t, "days")
		u := flat(19700, days, energy.Energy(rapid.Int64Range(1, 5e9).Draw(t, "energy")))
		u.Import = slices.DeleteFunc(u.Import, func(s Slot) bool { return s.From >= 16*60 })
		more := u
		more.Import = slices.Clone(u.Import)
		for i := range more.Import {
			more.Import[i].Energy += energy.KilowattHour / energy.Energy(len(more.Import))
		}
		want := exactly(tariff, more)
		want.Sub(want, exactly(tariff, u))
		if got := tariff.Marginal(u); !got.Equal(decimalOf(want).Round(12)) {
			t.Fatalf("marginal %s, want %s", got, want.FloatString(12))
		}
	})
}
