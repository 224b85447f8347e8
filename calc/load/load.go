// Package load says what the hours of an instrument show: when power is used,
// how much of it never stops, and which hours were the largest.
//
// The step before is a ledger with slots, from a file of interval readings or
// from pasted text; the step after is wasm/view, which draws it.
//
// Sums are exact. A power is the energy of an hour over the time that readings
// cover of it, taken to the milliwatt; floats begin with the quantiles. An hour
// of which less than half is covered says too little of its power, and counts
// in sums alone.
package load

import (
	"splittally/calc/calendar"
	"splittally/calc/ledger"
)

// Load is what a ledger shows. Without slots it has Months and the days, and
// Counted is 0.
type Load struct {
	// Days are those that have hours, in order.
	Days []Day
	// Counted is how many hours count towards powers, Below how many of them are
	// below zero: energy that was sent out.
	Counted, Below int
	// Powers are those of the hours that count, in watts, ascending.
	Powers []float64
	// Typical is an average day, of weekdays and of weekends.
	Typical [2]Typical
	Base    Base
	Largest []Peak // the largest hours by energy, the largest first; at most ten
	// LargestDay and LeastDay are among the whole days, if IsDaily.
	LargestDay, LeastDay DayTotal
	IsDaily              bool
	Months               []Month
}

// Typical is how power goes through an average day.
type Typical struct {
	Days  int // how many days gave an hour
	Hours [24]Band
}

// The two kinds of days in Load.Typical. Holidays count as the weekday that
// they are.
const (
	Weekdays = iota // Monday to Friday
	Weekends
)

// Band holds the quartiles of an hour's power over many days, in watts.
type Band struct {
	Count             int // hours; 0 if none counts, and the rest is 0 then
	Low, Median, High float64
}

// Of works out the load of a ledger. It takes memory for each slot and sorts
// once: a year of hours takes about a millisecond.
//
// confidence is that of the interval of the base load, such as 0.95.
func Of(l ledger.Ledger, confidence float64) Load {
	var out Load
	out.Days = hours(l)
	out.LargestDay, out.LeastDay, out.IsDaily = extremes(l)
	out.Months = months(l)
	out.Largest = largest(out.Days)
	s := sorted(out.Days)
	if len(s) == 0 {
		return out
	}
	out.Counted, out.Powers = len(s), make([]float64, len(s))
	for i, h := range s {
		out.Powers[i] = h.watts()
		if out.Powers[i] < 0 {
			out.Below++
		}
	}
	out.Typical = typical(out.Days, s)
	out.Base = base(out, s, confidence)
	return out
}

// At gives the power that is exceeded for a share of the counted hours: 0.01
// gives that of the top hundredth, 0.5 the median. Counted must not be 0.
func (l Load) At(share float64) float64 { return Quantile(l.Powers, 1-share) }

// Span gives the days from the first to the last that has hours.
func (l Load) Span() calendar.Span {
	if len(l.Days) == 0 {
		return calendar.Span{}
	}
	return calendar.Span{First: l.Days[0].Day, End: l.Days[len(l.Days)-1].Day + 1}
}
