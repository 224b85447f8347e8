package calc

import (
	"fmt"
	"math/bits"

	"splittally/calc/account"
	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/ledger"
	"splittally/calc/tariff"
)

// metered is the usage of a bill as the meter counted it. When in the period it
// was used is known from the kWh that the bill prints for each time of use;
// else it is taken to be as the meter's own days say, or an instrument's.
func (w *work) metered(p int) tariff.Usage {
	bill := w.f.Periods[p]
	u := w.usageOf(p, w.shape(p), bill.Reference)
	if u.Shares = w.uses[p].Shares; u.Shares != nil {
		u.Import, u.IsPrinted = whole(bill.Span, inAll(u.Import)), true
	}
	return u
}

// indicated is the usage of a bill as an instrument counted it.
func (w *work) indicated(i, p int) tariff.Usage {
	r := w.f.Instruments[i].Results[p]
	u := w.usageOf(p, w.slotsOf(i, p), r.Compared.Indicated.Energy)
	if u.Shares = w.uses[p].Shares; u.Shares != nil && len(u.Import) <= u.Span.Days() {
		// Days tell a time of use in part only; the printed parts are of all of them.
		u.Import = whole(u.Span, inAll(u.Import))
	}
	return u
}

// usageOf spreads an energy over slots in their proportion.
func (w *work) usageOf(p int, slots []tariff.Slot, e energy.Energy) tariff.Usage {
	bill := w.f.Periods[p]
	u := tariff.Usage{Span: bill.Span, LossFactor: bill.LossFactor}
	if w.isSimple && bill.LossIncluded { // the simple price is for what the bill charges
		if charged, _, err := energy.FromDecimal(e.Decimal().Mul(bill.LossFactor), energy.KilowattHour); err == nil {
			e = charged
		}
	}
	u.Import = whole(bill.Span, e)
	if scaled, ok := scaleSlots(slots, e); ok {
		u.Import = scaled
	}
	if bill.Exported.Given {
		u.Export = whole(bill.Span, bill.Exported.Energy)
	}
	return u
}

// inAll adds slots up.
func inAll(slots []tariff.Slot) (sum energy.Energy) {
	for _, s := range slots {
		sum += s.Energy
	}
	return sum
}

func whole(span calendar.Span, e energy.Energy) []tariff.Slot {
	return []tariff.Slot{{First: span.First, Last: span.Last(), To: 1440, Energy: e}}
}

// shape gives slots that say when in a period energy was used: those of the
// meter, if its own figures cover all days, else of the instrument that knows
// most hours.
func (w *work) shape(p int) []tariff.Slot {
	span := w.f.Periods[p].Span
	if w.f.Meter.Count(span, ledger.Measured) == span.Days() {
		var out []tariff.Slot
		for d := span.First; d < span.End; d++ {
			out = append(out, daySlots(w.f.Meter, d, w.f.Meter.At(d).Energy)...)
		}
		return out
	}
	var best []tariff.Slot
	for i := range w.f.Instruments {
		if slots := w.slotsOf(i, p); len(slots) > len(best) {
			best = slots
		}
	}
	return best
}

// slotsOf gives the slots of an instrument over a period: its hours where the
// readings hold them, those of filled days as estimated, else whole days.
func (w *work) slotsOf(i, p int) []tariff.Slot {
	inst := &w.f.Instruments[i]
	var out []tariff.Slot
	for _, d := range inst.Results[p].Filled.Days {
		if d.Filled && len(d.Slots) > 0 {
			out = appendUsage(out, d.Slots)
		} else {
			out = append(out, daySlots(inst.Ledger, d.Day, d.Energy)...)
		}
	}
	return out
}

func appendUsage(to []tariff.Slot, slots []ledger.Slot) []tariff.Slot {
	for _, s := range slots {
		to = append(to, tariff.Slot{First: s.Day, Last: s.Day, From: s.From, To: s.To, Energy: s.Energy, Again: s.Again})
	}
	return to
}

func daySlots(l ledger.Ledger, d calendar.Day, e energy.Energy) []tariff.Slot {
	if l.At(d).State != ledger.Measured {
		return whole(calendar.Span{First: d, End: d + 1}, e)
	}
	slots := l.On(d)
	if len(slots) == 0 {
		return whole(calendar.Span{First: d, End: d + 1}, e)
	}
	return appendUsage(nil, slots)
}

// scaleSlots multiplies slots so that they add up to e, to the microwatt-hour:
// each gets what its end has of the whole, less what its start has. ok is false
// if they add up to nothing, or one is below zero.
func scaleSlots(slots []tariff.Slot, e energy.Energy) (out []tariff.Slot, ok bool) {
	var total uint64
	for _, s := range slots {
		if s.Energy < 0 {
			return nil, false
		}
		total += uint64(s.Energy)
	}
	if total == 0 || total > 1<<62 || e < 0 {
		return nil, false
	}
	out = make([]tariff.Slot, len(slots))
	var run, before uint64
	for k, s := range slots {
		run += uint64(s.Energy)
		hi, lo := bits.Mul64(run, uint64(e))
		now, _ := bits.Div64(hi, lo, total) // run <= total, so that it fits
		if run == total {
			now = uint64(e)
		}
		out[k] = s
		out[k].Energy = energy.Energy(now - before)
		before = now
	}
	return out, true
}

// readUses reads the kWh that each bill prints for its times of use.
func (w *work) readUses() {
	periods := w.tariff.Periods()
	for _, other := range w.f.Plans {
		if len(periods) == 0 { // another tariff has prices by the hour
			periods = other.Tariff.Periods()
		}
	}
	w.uses = make([]account.Uses, len(w.f.Periods))
	for p, bill := range w.f.Periods {
		if !bill.Given {
			continue
		}
		u := account.ReadUses(fmt.Sprintf("periods.%d", p), w.c.Periods[p].Uses, periods, bill.Billed.Decimal())
		w.f.Problems, w.f.Notices = append(w.f.Problems, u.Problems...), append(w.f.Notices, u.Notices...)
		w.uses[p] = u
	}
}
