package fill

import (
	"math"
	"slices"
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
	byHours := rapid.Bool().Draw(t, label+" by hours")
	for range rapid.IntRange(1, 90).Draw(t, label+" days") {
		e := ledger.Entry{State: ledger.State(rapid.SampledFrom([]int{1, 1, 1, 1, 0, 2, 3}).Draw(t, "state"))}
		if e.State != ledger.Missing {
			e.Energy = energy.Energy(rapid.Int64Range(-5e9, 80e9).Draw(t, "energy"))
		}
		if e.State == ledger.Partial {
			e.Hours = float64(rapid.IntRange(0, 24).Draw(t, "hours"))
		}
		if byHours && (e.State == ledger.Partial || e.State == ledger.Measured) {
			anyHours(t, &e, &l)
		}
		l.Days = append(l.Days, e)
	}
	return l
}

// anyHours draws the hours of a day that is put next: all of them if it was
// measured, else some, each covered in part or as a whole.
func anyHours(t *rapid.T, e *ledger.Entry, l *ledger.Ledger) {
	e.Energy, e.Hours = 0, 0
	base := rapid.Int64Range(-2e8, 3e9).Draw(t, "base")
	kept := rapid.Uint32().Draw(t, "kept")
	lost := rapid.SampledFrom([]int32{0, 1, 60_000, 1_800_000, 3_599_999}).Draw(t, "lost")
	for h := range 24 {
		s := ledger.Slot{Day: l.First + calendar.Day(len(l.Days)), From: 60 * h, To: 60*h + 60, Energy: energy.Energy(base + int64(kept>>(h%8))%1000*1e6)}
		if e.State == ledger.Partial {
			if kept>>h&1 == 0 {
				continue
			}
			s.Short = lost
		}
		l.Slots = append(l.Slots, s)
		e.Energy += s.Energy
		if e.State == ledger.Partial {
			e.Hours += 1 - float64(s.Short)/3.6e6
		}
	}
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
			inSlots := energy.Energy(0)
			for k, s := range d.Slots {
				inSlots += s.Energy
				if s.Day != d.Day || k > 0 && s.From < d.Slots[k-1].To && !s.Again {
					t.Fatalf("slot %d of %+v", k, d)
				}
			}
			if len(d.Slots) > 0 && (inSlots != d.Energy || !d.Filled) {
				t.Fatalf("slots of %s are %s, not %s", d.Day, inSlots, d.Energy)
			}
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
			if e.State == ledger.Partial && d.Energy < e.Energy && !belowZero(r.Ledger) {
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

func belowZero(l ledger.Ledger) bool {
	return slices.ContainsFunc(l.Slots, func(s ledger.Slot) bool { return s.Energy < 0 })
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
	s := ledger.Ledger{First: l.First, Days: append([]ledger.Entry(nil), l.Days...), Slots: append([]ledger.Slot(nil), l.Slots...)}
	for i := range s.Days {
		s.Days[i].Energy *= by
	}
	for i := range s.Slots {
		s.Slots[i].Energy *= by
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
		turned.Ledger.Slots = r.Ledger.Slots
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
