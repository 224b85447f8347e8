package fill

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/ledger"
)

// anyLedger draws a record of up to 90 days in every state.
func anyLedger(t *rapid.T, label string) ledger.Ledger {
	l := ledger.Ledger{First: calendar.Day(rapid.IntRange(0, 20).Draw(t, label+" first"))}
	for range rapid.IntRange(1, 90).Draw(t, label+" days") {
		e := ledger.Entry{State: ledger.State(rapid.SampledFrom([]int{1, 1, 1, 1, 0, 2, 3}).Draw(t, "state"))}
		if e.State != ledger.Missing {
			e.Energy = energy.Energy(rapid.Int64Range(-5e9, 80e9).Draw(t, "energy"))
		}
		if e.State == ledger.Partial {
			e.Hours = float64(rapid.IntRange(0, 24).Draw(t, "hours"))
		}
		l.Days = append(l.Days, e)
	}
	return l
}

func anyRequest(t *rapid.T) Request {
	first := calendar.Day(rapid.IntRange(0, 60).Draw(t, "span"))
	r := Request{
		Ledger: anyLedger(t, "own"),
		Span:   calendar.Span{First: first, End: first + calendar.Day(rapid.IntRange(1, 45).Draw(t, "length"))},
		Method: rapid.SampledFrom(append(Methods(), Choose)).Draw(t, "method"),
	}
	for range rapid.IntRange(0, 2).Draw(t, "others") {
		r.Others = append(r.Others, anyLedger(t, "other"))
	}
	return r
}

func TestProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := anyRequest(t)
		res, err := Fill(r)
		if err == ErrNothingMeasured {
			return
		}
		if err != nil {
			t.Fatal(err)
		}
		var total energy.Energy
		filled := 0
		for i, d := range res.Days {
			e := r.Ledger.At(d.Day)
			total += d.Energy
			if d.Day != r.Span.First+calendar.Day(i) || d.State != e.State {
				t.Fatalf("day %d is %+v", i, d)
			}
			if d.Filled {
				filled++
			}
			if known(e.State) && (d.Energy != e.Energy || d.Filled || d.Method != "") {
				t.Fatalf("a known day changed: %+v", d)
			}
			if !known(e.State) && (!d.Filled || d.Method == "") {
				t.Fatalf("a day was not filled: %+v", d)
			}
			if e.State == ledger.Partial && d.Energy < e.Energy {
				t.Fatalf("less than was measured: %+v, %s", d, e.Energy)
			}
		}
		if total != res.Total || filled != res.Filled || len(res.Days) != r.Span.Days() {
			t.Fatalf("parts %s of %d, total %s of %d", total, filled, res.Total, res.Filled)
		}
		if res.Standard < 0 || res.Standard > 0 && filled == 0 || (res.DoF >= 1) != (filled > 0) || math.IsNaN(res.Standard) || math.IsInf(res.Standard, 0) {
			t.Fatalf("%d filled, standard %g, degrees of freedom %g", filled, res.Standard, res.DoF)
		}
	})
}

// Four times the energy everywhere is four times the total, but for rounding,
// and four times the doubt.
func TestScaling(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := anyRequest(t)
		res, err := Fill(r)
		if err != nil {
			return
		}
		big := r
		big.Ledger = scaled(r.Ledger, 4)
		big.Others = nil
		for _, l := range r.Others {
			big.Others = append(big.Others, scaled(l, 4))
		}
		got, err := Fill(big)
		if err != nil {
			t.Fatal(err)
		}
		if off := (got.Total - 4*res.Total).Abs(); off > energy.Energy(2501*len(res.Days)) || got.Method != res.Method {
			t.Fatalf("total %s by %s, want four times %s by %s", got.Total, got.Method, res.Total, res.Method)
		}
		if math.Abs(got.Standard-4*res.Standard) > 1e-9*(1+got.Standard) || math.Abs(got.DoF-res.DoF) > 1e-9*got.DoF {
			t.Fatalf("standard %g, want four times %g; degrees of freedom %g and %g", got.Standard, res.Standard, got.DoF, res.DoF)
		}
	})
}

func scaled(l ledger.Ledger, by energy.Energy) ledger.Ledger {
	s := ledger.Ledger{First: l.First, Days: append([]ledger.Entry(nil), l.Days...)}
	for i := range s.Days {
		s.Days[i].Energy *= by
	}
	return s
}

// The order in which days were put and instruments were named does not matter,
// nor do missing days at the ends; and filling changes nothing that it reads.
func TestOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := anyRequest(t)
		before := scaled(r.Ledger, 1)
		res, err := Fill(r)
		if err != nil {
			return
		}
		if d := cmp.Diff(before.Days, r.Ledger.Days); d != "" {
			t.Fatalf("the ledger changed: %s", d)
		}
		turned := Request{Span: r.Span, Method: r.Method}
		turned.Ledger.Put(r.Ledger.First-3, ledger.Entry{})
		turned.Ledger.Put(r.Ledger.Span().End+5, ledger.Entry{})
		for _, i := range rapid.Permutation(indices(len(r.Ledger.Days))).Draw(t, "order") {
			turned.Ledger.Put(r.Ledger.First+calendar.Day(i), r.Ledger.Days[i])
		}
		for i := len(r.Others) - 1; i >= 0; i-- {
			turned.Others = append(turned.Others, r.Others[i])
		}
		got, err := Fill(turned)
		if err != nil {
			t.Fatal(err)
		}
		got.Other, res.Other = 0, 0
		if d := cmp.Diff(res, got); d != "" {
			t.Fatalf("the order mattered: %s", d)
		}
	})
}

func indices(n int) []int {
	all := make([]int, n)
	for i := range all {
		all[i] = i
	}
	return all
}
