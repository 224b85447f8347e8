package ledger

import (
	"fmt"
	"math"

	"splittally/calc/calendar"
	"splittally/calc/energy"
)

// Sum adds, day by day, ledgers that are the legs of one home. It has a day
// wherever one of them has, and never a sum that looks whole while a leg is
// absent:
//
//   - Measured, if every leg is.
//   - Spread over a total's span, if over all of that span every leg is either
//     Measured on each day or Spread over this very span. The days add up to the
//     total; where a leg was measured they need not be alike.
//   - Partial, if a leg is, and every leg has slots: the sum has those stretches
//     that every leg has, as far as all of them cover each.
//   - Partial, if every leg is, by the same number of hours, and one has no slots:
//     Energy is what Hours hours of every leg brought, whichever these were.
//   - Missing in all other cases. A leg measured for a part of a day beside one
//     measured for all of it is the energy of no stretch of time.
//
// The roundings of the legs are independent: Rounding is √Σr². Line is that of
// the first leg that has one. A day that is not Missing has slots if every leg
// has the same stretches on it, with the sums of their energies; else it has
// none. The error wraps energy.ErrRange.
func Sum(ledgers []Ledger, name string) (Ledger, error) {
	s := legs{all: ledgers, whole: map[calendar.Span]bool{}}
	sum := Ledger{Name: name}
	span := s.span()
	for d := span.First; d < span.End; d++ {
		e, err := s.day(d)
		if err != nil {
			return Ledger{}, fmt.Errorf("ledger: sum of the legs on %s: %w", d, err)
		}
		if s.inPart(d) {
			if e, sum.Slots, err = s.addPart(sum.Slots, d, e); err != nil {
				return Ledger{}, fmt.Errorf("ledger: sum of the legs by the hour on %s: %w", d, err)
			}
			sum.Put(d, e)
			continue
		}
		sum.Put(d, e)
		if e.State == Missing {
			continue
		}
		if sum.Slots, err = s.addSlots(sum.Slots, d); err != nil {
			return Ledger{}, fmt.Errorf("ledger: sum of the legs by the hour on %s: %w", d, err)
		}
	}
	return sum, nil
}

// legs are the ledgers of one home's legs.
type legs struct {
	all   []Ledger
	whole map[calendar.Span]bool // what spread has found of a span
}

// span gives the days from the first to the last that any leg has.
func (s legs) span() calendar.Span {
	var all calendar.Span
	for _, l := range s.all {
		switch own := l.Span(); {
		case own.Days() == 0:
		case all.Days() == 0:
			all = own
		default:
			all = calendar.Span{First: min(all.First, own.First), End: max(all.End, own.End)}
		}
	}
	return all
}

// day gives the entry of the sum on a day that is in the span of the legs.
func (s legs) day(d calendar.Day) (Entry, error) {
	var sum Entry
	squares := 0.0
	var err error
	for _, l := range s.all {
		e := l.At(d)
		if sum.Energy, err = sum.Energy.Add(e.Energy); err != nil {
			return Entry{}, err
		}
		squares += float64(e.Rounding) * float64(e.Rounding)
		if sum.Line == 0 {
			sum.Line = e.Line
		}
	}
	sum.Rounding = energy.Energy(math.Round(math.Sqrt(squares)))
	sum.State, sum.Total, sum.Hours = s.state(d)
	if sum.State == Missing {
		return Entry{Line: sum.Line}, nil
	}
	return sum, nil
}

// state says how the sum is known on a day, with the span of its total if it is
// Spread and its hours if it is Partial.
func (s legs) state(d calendar.Day) (is State, total calendar.Span, hours float64) {
	count := [Partial + 1]int{}
	for _, l := range s.all {
		e := l.At(d)
		count[e.State]++
		switch e.State {
		case Spread:
			total = e.Total
		case Partial:
			if hours = e.Hours; hours != s.all[0].At(d).Hours {
				return Missing, calendar.Span{}, 0
			}
		}
	}
	switch {
	case count[Measured] == len(s.all):
		return Measured, calendar.Span{}, 0
	case count[Partial] == len(s.all):
		return Partial, calendar.Span{}, hours
	case count[Spread] > 0 && s.spread(total):
		return Spread, total, 0
	}
	return Missing, calendar.Span{}, 0
}

// spread says whether every leg's energy over the span of a total is known: as
// that total, or day by day.
func (s legs) spread(total calendar.Span) bool {
	known, found := s.whole[total]
	if found {
		return known
	}
	known = true
	for _, l := range s.all {
		measured := l.Count(total, Measured) == total.Days()
		for d := total.First; d < total.End && !measured; d++ {
			e := l.At(d)
			known = known && e.State == Spread && e.Total == total
		}
	}
	s.whole[total] = known
	return known
}

// Shares gives each leg's part of the energy, as a fraction, over those days of
// the span on which all legs are Measured. The parts add up to 1. That of a leg
// whose clamp is turned round is negative, and that of another then above 1.
//
// It is nil if there is no such day, or if the energy of all legs together is
// not above zero or does not fit into an Energy.
func Shares(ledgers []Ledger, days calendar.Span) []float64 {
	sums := make([]energy.Energy, len(ledgers))
	for d := days.First; d < days.End; d++ {
		if !allMeasured(ledgers, d) {
			continue
		}
		for i, l := range ledgers {
			var err error
			if sums[i], err = sums[i].Add(l.At(d).Energy); err != nil {
				return nil
			}
		}
	}
	var total energy.Energy
	for _, e := range sums {
		var err error
		if total, err = total.Add(e); err != nil {
			return nil
		}
	}
	if total <= 0 {
		return nil
	}
	shares := make([]float64, len(sums))
	for i, e := range sums {
		shares[i] = float64(e) / float64(total)
	}
	return shares
}

func allMeasured(ledgers []Ledger, d calendar.Day) bool {
	for _, l := range ledgers {
		if l.At(d).State != Measured {
			return false
		}
	}
	return true
}
