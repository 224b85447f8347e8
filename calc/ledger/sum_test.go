package ledger

import (
	"errors"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"splittally/calc/calendar"
	"splittally/calc/energy"
)

const kWh = energy.KilowattHour

// from makes a ledger whose first day is 100.
func from(entries ...Entry) Ledger { return Ledger{First: 100, Days: entries} }

func measured(e energy.Energy, line int) Entry {
	return Entry{State: Measured, Energy: e, Rounding: 30_000, Line: line}
}

func TestSum(t *testing.T) {
	two := calendar.Span{First: 100, End: 102}
	spread := func(e energy.Energy) Entry { return Entry{State: Spread, Energy: e, Total: two, Line: 9} }
	partial := func(e energy.Energy, hours float64) Entry {
		return Entry{State: Partial, Energy: e, Hours: hours, Line: 5}
	}
	m := measured(4*kWh, 3)
	for _, c := range []struct {
		what string
		legs []Ledger
		want []Entry
	}{
		{
			"both measured, one reversed",
			[]Ledger{from(m), from(Entry{State: Measured, Energy: -6 * kWh, Rounding: 40_000, Line: 8})},
			[]Entry{{State: Measured, Energy: -2 * kWh, Rounding: 50_000, Line: 3}},
		},
		{
			"a leg absent",
			[]Ledger{from(m, m), from(m)},
			[]Entry{{State: Measured, Energy: 8 * kWh, Rounding: 42_426, Line: 3}, {Line: 3}},
		},
		{
			"both spread alike",
			[]Ledger{from(spread(2*kWh), spread(2*kWh)), from(spread(3*kWh), spread(3*kWh))},
			[]Entry{{State: Spread, Energy: 5 * kWh, Total: two, Line: 9}, {State: Spread, Energy: 5 * kWh, Total: two, Line: 9}},
		},
		{
			"one spread, one measured on all its days",
			[]Ledger{from(spread(2*kWh), spread(2*kWh)), from(m, measured(5*kWh, 4))},
			[]Entry{
				{State: Spread, Energy: 6 * kWh, Rounding: 30_000, Total: two, Line: 9},
				{State: Spread, Energy: 7 * kWh, Rounding: 30_000, Total: two, Line: 9},
			},
		},
		{
			"one spread, one measured on one of its days",
			[]Ledger{from(spread(2*kWh), spread(2*kWh)), from(m)},
			[]Entry{{Line: 9}, {Line: 9}},
		},
		{
			"spread over other days",
			[]Ledger{from(spread(2*kWh), spread(2*kWh)), from(Entry{State: Spread, Energy: kWh, Total: calendar.Span{First: 100, End: 103}}, m)},
			[]Entry{{Line: 9}, {Line: 9}},
		},
		{
			"parts of as many hours",
			[]Ledger{from(partial(2*kWh, 12)), from(partial(3*kWh, 12))},
			[]Entry{{State: Partial, Energy: 5 * kWh, Hours: 12, Line: 5}},
		},
		{"parts of other hours", []Ledger{from(partial(2*kWh, 12)), from(partial(3*kWh, 11.5))}, []Entry{{Line: 5}}},
		{"a part beside a whole", []Ledger{from(partial(2*kWh, 12)), from(m)}, []Entry{{Line: 5}}},
		{"a part beside a share", []Ledger{from(partial(2*kWh, 12), m), from(spread(kWh), spread(kWh))}, []Entry{{Line: 5}, {Line: 3}}},
	} {
		got, err := Sum(c.legs, "Home")
		if err != nil {
			t.Errorf("%s: %v", c.what, err)
		}
		if diff := cmp.Diff(Ledger{Name: "Home", First: 100, Days: c.want}, got); diff != "" {
			t.Errorf("%s (-want +got):\n%s", c.what, diff)
		}
	}
}

func TestSumOfNothing(t *testing.T) {
	for _, legs := range [][]Ledger{nil, {{}, {}}} {
		if got, err := Sum(legs, "x"); err != nil || len(got.Days) != 0 || got.Name != "x" {
			t.Errorf("Sum(%v) = %v, %v", legs, got, err)
		}
	}
}

func TestSumOutOfRange(t *testing.T) {
	big := from(measured(math.MaxInt64-5, 1))
	if _, err := Sum([]Ledger{big, from(measured(6, 1))}, ""); !errors.Is(err, energy.ErrRange) {
		t.Errorf("error %v, want ErrRange", err)
	}
	if got := Shares([]Ledger{big, from(measured(6, 1))}, big.Span()); got != nil {
		t.Errorf("shares %v of a sum out of range", got)
	}
}

func TestShares(t *testing.T) {
	m := func(e energy.Energy) Entry { return measured(e*kWh, 1) }
	for _, c := range []struct {
		what string
		legs []Ledger
		days int
		want []float64
	}{
		{"plain", []Ledger{from(m(3), m(3)), from(m(1), m(1))}, 2, []float64{0.75, 0.25}},
		{"days with one leg alone are left out", []Ledger{from(m(3), m(30)), from(m(1), Entry{})}, 2, []float64{0.75, 0.25}},
		{"only the days asked for", []Ledger{from(m(3), m(0)), from(m(1), m(9))}, 1, []float64{0.75, 0.25}},
		{"a reversed clamp shows", []Ledger{from(m(5)), from(m(-1))}, 1, []float64{1.25, -0.25}},
		{"no day with all", []Ledger{from(m(5)), from(Entry{})}, 1, nil},
		{"nothing used", []Ledger{from(m(0)), from(m(0))}, 1, nil},
		{"both reversed", []Ledger{from(m(-2)), from(m(-2))}, 1, nil},
		{"no legs", nil, 1, nil},
	} {
		got := Shares(c.legs, calendar.Span{First: 100, End: 100 + calendar.Day(c.days)})
		if diff := cmp.Diff(c.want, got); diff != "" {
			t.Errorf("%s (-want +got):\n%s", c.what, diff)
		}
	}
}

// drawLegs gives up to four ledgers with days of every state.
func drawLegs(t *rapid.T) []Ledger {
	one := rapid.Custom(func(t *rapid.T) Ledger {
		l := Ledger{First: calendar.Day(rapid.IntRange(98, 103).Draw(t, "first"))}
		for range rapid.IntRange(0, 6).Draw(t, "days") {
			is := State(rapid.SampledFrom([]int{0, 1, 1, 1, 2, 2, 3}).Draw(t, "state"))
			e := Entry{State: is}
			if is != Missing {
				e.Energy = energy.Energy(rapid.Int64Range(-50, 500).Draw(t, "kWh")) * kWh
				e.Rounding = energy.Energy(rapid.Int64Range(0, 1000).Draw(t, "rounding")) * energy.WattHour
			}
			if is == Spread {
				e.Total = calendar.Span{First: 100, End: calendar.Day(rapid.IntRange(101, 103).Draw(t, "end"))}
				if !e.Total.Has(l.Span().End) {
					e = Entry{} // a share lies within its total
				}
			}
			if is == Partial {
				e.Hours = float64(rapid.IntRange(11, 12).Draw(t, "hours"))
			}
			l.Days = append(l.Days, e)
		}
		return l
	})
	return rapid.SliceOfN(one, 1, 4).Draw(t, "legs")
}

func TestSumIsNeverWholeWithoutALeg(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		legs := drawLegs(t)
		sum, err := Sum(legs, "")
		if err != nil {
			t.Fatal(err)
		}
		for d := calendar.Day(97); d < 112; d++ {
			var total, largest energy.Energy
			lowest, states := Partial, map[State]int{}
			for _, l := range legs {
				e := l.At(d)
				total += e.Energy
				largest = max(largest, e.Rounding)
				lowest = min(lowest, e.State)
				states[e.State]++
			}
			got := sum.At(d)
			if lowest == Missing && got.State != Missing {
				t.Fatalf("day %d is %v though a leg is missing", d, got)
			}
			if (got.State == Measured) != (states[Measured] == len(legs)) {
				t.Fatalf("day %d is %v of %v", d, got, states)
			}
			if got.State == Missing {
				if got.Energy != 0 || got.Rounding != 0 {
					t.Fatalf("a missing day with figures: %+v", got)
				}
				continue
			}
			if got.Energy != total || got.Rounding < largest {
				t.Fatalf("day %d is %+v, want %s and at least the largest rounding", d, got, total)
			}
			for k := got.Total.First; k < got.Total.End; k++ {
				if s := sum.At(k); s.State != Spread || s.Total != got.Total {
					t.Fatalf("day %d is spread over days of which %d is not: %+v", d, k, s)
				}
			}
		}
	})
}

func TestSharesAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		legs := drawLegs(t)
		shares := Shares(legs, calendar.Span{First: 97, End: 112})
		if shares == nil {
			return
		}
		sum := 0.0
		for i, s := range shares {
			sum += s
			doubled := append([]Ledger{}, legs...)
			doubled[i] = Ledger{First: legs[i].First, Days: append([]Entry{}, legs[i].Days...)}
			for k := range doubled[i].Days {
				doubled[i].Days[k].Energy *= 2
			}
			if again := Shares(doubled, calendar.Span{First: 97, End: 112}); again != nil && s > 0 && s < 1 && again[i] <= s {
				t.Fatalf("leg %d with twice the energy has %g of it, before %g", i, again[i], s)
			}
		}
		if math.Abs(sum-1) > 1e-9 {
			t.Fatalf("%v add up to %g", shares, sum)
		}
	})
}
