package metered

import (
	"testing"

	"pgregory.net/rapid"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/ledger"
)

// Whatever record and bills there are, each dated bill is judged once, sums are
// exact, and a finding names bills that are there.
func TestAnyBills(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		kWh := rapid.Custom(func(t *rapid.T) energy.Energy {
			return energy.Energy(rapid.Int64Range(-5, 60).Draw(t, "kWh")) * energy.KilowattHour
		})
		var l ledger.Ledger
		states := []ledger.State{ledger.Measured, ledger.Measured, ledger.Measured, ledger.Missing, ledger.Partial}
		if rapid.Bool().Draw(t, "whole") {
			states = states[:1]
		}
		days := rapid.IntRange(0, 60).Draw(t, "days")
		for d := range calendar.Day(days) {
			e := ledger.Entry{State: rapid.SampledFrom(states).Draw(t, "state"), Energy: kWh.Draw(t, "day")}
			l.Put(19000+d, e)
			if rapid.Bool().Draw(t, "slots") {
				l.Slots = append(l.Slots, ledger.Slot{Day: 19000 + d, To: 720, Energy: e.Energy / 2}, ledger.Slot{Day: 19000 + d, From: 720, To: 1440, Energy: e.Energy - e.Energy/2})
			}
		}
		var bills []Bill
		at := calendar.Day(19000 + rapid.IntRange(-3, 3).Draw(t, "from"))
		for i := range rapid.IntRange(0, 6).Draw(t, "bills") {
			next := at + calendar.Day(rapid.IntRange(1, 20).Draw(t, "long"))
			bills = append(bills, Bill{
				Index: i, Span: calendar.Span{First: at, End: next}, Given: rapid.Bool().Draw(t, "given"),
				Billed: 10 * kWh.Draw(t, "billed"), Step: energy.Energy(rapid.IntRange(0, 2).Draw(t, "step")) * energy.KilowattHour,
			})
			at = next + calendar.Day(rapid.IntRange(0, 1).Draw(t, "gap"))
		}
		r, done := Judge(l, bills)
		if !done {
			return
		}
		if len(r.Bills) != len(bills) || r.Words == "" {
			t.Fatalf("%d of %d bills, %q", len(r.Bills), len(bills), r.Words)
		}
		named := map[int]int{}
		for _, f := range r.Found {
			if f.Words == "" || len(f.Bills) == 0 {
				t.Errorf("%+v", f)
			}
			for _, b := range f.Bills {
				named[b]++
			}
		}
		for _, b := range r.Bills {
			sum := energy.Energy(0)
			for d := b.Span.First; d < b.Span.End; d++ {
				if e := l.At(d); e.State == ledger.Measured {
					sum += e.Energy
				}
			}
			explained := b.Kind != Agrees && b.Kind != Waits
			if b.Kind == "" || sum != b.Metered || named[b.Index] > 1 || explained != (named[b.Index] == 1) {
				t.Errorf("%+v, sum %s, named %d times", b, sum, named[b.Index])
			}
		}
	})
}
