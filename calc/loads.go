package calc

import (
	"slices"

	"github.com/shopspring/decimal"

	"splittally/calc/energy"
	"splittally/calc/ledger"
	"splittally/calc/load"
)

// shapes says what the hours of each instrument show, and what a steady load
// costs under the household's tariff.
func (w *work) shapes() {
	for i := range w.f.Instruments {
		inst := &w.f.Instruments[i]
		if len(inst.Ledger.Slots) == 0 {
			continue
		}
		inst.Load, inst.IsLoad = w.loadOf(inst.Ledger), true
		if inst.Load.Base.IsKnown {
			inst.BasePrice, inst.IsBasePriced = w.steadyPrice(inst.Load.Base.Watts)
		}
	}
	if len(w.f.Meter.Slots) > 0 {
		w.f.MeterLoad, w.f.IsMeterLoad = w.loadOf(w.f.Meter), true
	}
}

func (w *work) loadOf(l ledger.Ledger) load.Load {
	same := func(a, b shaping) bool { return a.confidence == b.confidence && sameLedger(a.ledger, b.ledger) }
	return w.memory.loads.get(shaping{l, w.f.Confidence}, same, func(s shaping) load.Load { return load.Of(s.ledger, s.confidence) })
}

// shaping is all that load.Of is given.
type shaping struct {
	ledger     ledger.Ledger
	confidence float64
}

// steadyPrice gives what a kilowatt-hour of a load costs that never stops: the
// bills once with one more such load, less the bills as they are.
func (w *work) steadyPrice(watts float64) (decimal.Decimal, bool) {
	more, kWh := decimal.Zero, decimal.Zero
	for p, bill := range w.f.Periods {
		if p >= len(w.f.Accounts) || !bill.Given {
			continue
		}
		e, err := energy.FromKilowattHours(watts / 1000 * 24 * float64(bill.Span.Days()))
		if err != nil || e <= 0 {
			continue
		}
		with := w.used[p]
		with.Import = append(slices.Clone(with.Import), whole(bill.Span, e)...)
		more = more.Add(w.tariff.Price(with).Total).Sub(w.f.Accounts[p].Priced.Total)
		kWh = kWh.Add(e.Decimal())
	}
	if !kWh.IsPositive() || !more.IsPositive() {
		return decimal.Zero, false
	}
	return more.DivRound(kWh, 6), true
}
