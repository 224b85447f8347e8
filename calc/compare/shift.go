package compare

import (
	"github.com/shopspring/decimal"

	"splittally/calc/energy"
)

// DayEnergy is the indicated energy of one day, if it is known.
type DayEnergy struct {
	Energy energy.Energy
	Known  bool
}

// Ends holds the indicated days around both ends of a period. First and Last
// belong to it; Before is the day before First, After the day after Last.
type Ends struct{ Before, First, Last, After DayEnergy }

// Shift is a period with its ends moved by whole days, -1 for a day earlier
// and +1 for a day later. The reference stays as billed.
type Shift struct {
	Start, End int
	Indicated  energy.Energy
	Percent    decimal.Decimal // the error of the shifted period, to Places decimals
	// Vanishes says that the error would be no larger than the instruments
	// promise. A period may have several such shifts.
	Vanishes bool
}

// Shifts gives the error of the same reference against a period whose start,
// end, or both together are a day earlier or later: six shifts, in that order,
// less those whose days are not known. Best is the index of the one with the
// smallest error if that is smaller than the error as it stands, else -1.
// There are none if c has nothing to compare.
//
// That a shift makes the error vanish is a hint, no proof: in a month of even
// use a day either way is a 30th part of the total, so that an error of 3 % of
// another cause looks like a day.
func (c Comparison) Shifts(ends Ends) (shifts []Shift, best int) {
	best = -1
	if c.Verdict == Nothing {
		return nil, best
	}
	smallest := c.Percent.Abs()
	for _, by := range [][2]int{{-1, 0}, {1, 0}, {0, -1}, {0, 1}, {-1, -1}, {1, 1}} {
		s, ok := c.shift(ends, by[0], by[1])
		if !ok {
			continue
		}
		if size := s.Percent.Abs(); size.LessThan(smallest) {
			best, smallest = len(shifts), size
		}
		shifts = append(shifts, s)
	}
	return shifts, best
}

// shift moves the ends. A start that is a day earlier takes in the day before
// the first, one that is a day later leaves out the first; so with the end.
func (c Comparison) shift(ends Ends, start, end int) (Shift, bool) {
	total := c.Indicated.Energy
	add := func(d DayEnergy, sign energy.Energy) bool {
		sum, err := total.Add(sign * d.Energy)
		total = sum
		return d.Known && err == nil
	}
	ok := true
	switch start {
	case -1:
		ok = add(ends.Before, 1)
	case 1:
		ok = add(ends.First, -1)
	}
	switch end {
	case -1:
		ok = add(ends.Last, -1) && ok
	case 1:
		ok = add(ends.After, 1) && ok
	}
	percent, err := PercentError(total, c.Reference.Energy, Places)
	return Shift{
		Start: start, End: end, Indicated: total, Percent: percent,
		Vanishes: percent.Abs().InexactFloat64() <= c.Promise,
	}, ok && err == nil
}
