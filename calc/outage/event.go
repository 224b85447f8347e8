package outage

import (
	"cmp"
	"math"
	"slices"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/fill"
	"splittally/calc/ledger"
	"splittally/calc/record"
)

// Lengths in milliseconds.
const (
	minute = 60_000
	hour   = 60 * minute
	day    = 24 * hour
)

// event is one or more gaps that belong together, and what is known of them.
type event struct {
	gaps   []record.Gap
	length int64

	hasUsual        bool    // what follows is known
	usual, standard float64 // what is usual for the gaps, kWh
	late            bool
}

// mostBetween is how long readings between two gaps of one event may last.
const mostBetween = 10 * minute

// group joins gaps that belong together.
func group(gaps []record.Gap, step int64) []event {
	var all []event
	for i := range gaps {
		g := &gaps[i]
		if g.To <= g.From {
			continue
		}
		length := max(0, g.Length)
		if n := len(all); n > 0 {
			e := &all[n-1]
			last := &e.gaps[len(e.gaps)-1]
			between := g.From - last.To
			if between <= mostBetween || between <= step && between < min(last.Length, length) {
				e.gaps, e.length = append(e.gaps, *g), e.length+length
				continue
			}
		}
		all = append(all, event{gaps: gaps[i : i+1 : i+1], length: length})
	}
	return all
}

// longest keeps the longest events, in the order of time, and counts the rest.
func longest(all []event, found *Found) []event {
	if len(all) <= Most {
		return all
	}
	byLength := slices.Clone(all)
	slices.SortStableFunc(byLength, func(a, b event) int { return cmp.Compare(b.length, a.length) })
	for _, e := range byLength[Most:] {
		found.More++
		found.MoreLength += e.length
	}
	kept := byLength[:Most]
	slices.SortFunc(kept, func(a, b event) int { return cmp.Compare(a.from(), b.from()) })
	return kept
}

func (e *event) from() int64 { return e.gaps[0].From }
func (e *event) to() int64   { return e.gaps[len(e.gaps)-1].To }

// last is the length of the last gap.
func (e *event) last() int64 { return e.gaps[len(e.gaps)-1].Length }

func (e *event) outage() Outage {
	return Outage{From: e.from(), To: e.to(), Length: e.length, Gaps: len(e.gaps)}
}

// expect finds out what is usual for the gaps, and whether the reading after
// them holds it.
func (e *event) expect(u *fill.Usual, l ledger.Ledger) {
	variance := 0.0
	for _, g := range e.gaps {
		expect := u.Between
		if g.Known { // the ledger has it as covered
			expect = u.Expect
		}
		kWh, standard := expect(g.From, g.To)
		e.usual += kWh
		variance += standard * standard
	}
	e.standard, e.hasUsual = math.Sqrt(variance), true
	e.late = e.cameLate(u, l)
}

// A late reading shows if the gap's usual energy stands out by so many standard
// deviations from what the hour after it brings, and if the surplus is the
// gap's energy to within so much.
const (
	standsOut  = 4
	lateWithin = 0.5
)

// cameLate says whether the hour into which the event ends brought, beyond its
// usual, about what is usual for the gaps.
func (e *event) cameLate(u *fill.Usual, l ledger.Ledger) bool {
	d, _ := calendar.At(e.to())
	end := int(e.to()-int64(d)*day) / minute
	for _, s := range l.On(d) {
		if s.From > end || s.To <= end || s.Again || s.To-s.From > 60 {
			continue
		}
		covered := int64(s.To-s.From)*minute - int64(s.Short)
		kWh, standard := u.Expect(int64(d)*day+int64(s.From)*minute, int64(d)*day+int64(s.From)*minute+covered)
		surplus := s.Energy.KilowattHours() - kWh
		return e.usual > standsOut*standard && math.Abs(surplus-e.usual) <= lateWithin*e.usual
	}
	return false
}

// estimate sets the energy: of a register where it is known, else what is usual.
func (e *event) estimate(o *Outage) {
	if sum, known := e.register(); known {
		o.Energy, o.Known = sum, true
		return
	}
	if !e.hasUsual {
		return
	}
	if sum, err := energy.FromKilowattHours(math.Round(e.usual*1e6) / 1e6); err == nil {
		o.Energy, o.Standard, o.Estimated = sum, e.standard, true
	}
}

// register gives what a register advanced over all gaps.
func (e *event) register() (sum energy.Energy, known bool) {
	for _, g := range e.gaps {
		if !g.Known {
			return 0, false
		}
		var err error
		if sum, err = sum.Add(g.Energy); err != nil {
			return 0, false
		}
	}
	return sum, true
}
