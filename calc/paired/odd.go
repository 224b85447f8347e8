package paired

import (
	"math"

	"splittally/calc/calendar"
	"splittally/calc/ledger"
)

// Kind is what a day that disagrees looks like. Its text is stable.
type Kind string

// The kinds.
const (
	Nothing   Kind = "nothing"    // the instrument counted next to nothing
	Swapped   Kind = "swapped"    // it has the figure of another day, and that day has this one's
	Shifted   Kind = "shifted"    // it has the figure of a day next to it, as others in a row do
	Moved     Kind = "moved"      // what it has too little the day next to it has too much
	Doubled   Kind = "doubled"    // twice what is usual
	CatchUp   Kind = "catch-up"   // with the day before, which is missing or low
	LacksPart Kind = "lacks-part" // the instrument lacks a part of the day
	MeterPart Kind = "meter-part" // the meter's record lacks a part of the day
	Above     Kind = "above"      // more than usual, and nothing tells why
)

// Odd is a day that disagrees.
type Odd struct {
	Day
	Kind Kind
	With calendar.Day // the other day of Swapped, Moved, Shifted and CatchUp
	// Hours are those in which one of the two has next to nothing while the other
	// counts, if both have hours: of LacksPart and MeterPart.
	Hours []int
}

// Parts of what is usual below which a day or an hour is next to nothing.
const (
	nothingPart = 0.02
	hourPart    = 0.1
)

// near is how many days away a swapped day is looked for.
const near = 7

func (s *sheet) odd(days []Day) (out []Odd) {
	at := map[calendar.Day]int{}
	for i, d := range days {
		at[d.Day] = i
	}
	find := func(d calendar.Day) (Day, bool) {
		i, ok := at[d]
		if !ok {
			return Day{}, false
		}
		return days[i], true
	}
	for _, d := range days {
		if d.Disagrees {
			o := Odd{Day: d}
			s.look(&o, find)
			out = append(out, o)
		}
	}
	return out
}

// has says that a day's figure is what is usual of another.
func has(a, b Day) bool {
	return math.Abs(a.Monitor.KilowattHours()-b.Expected) <= b.Limit
}

// look says what a day looks like.
func (s *sheet) look(o *Odd, find func(calendar.Day) (Day, bool)) {
	d, off := o.Day, o.Off()
	shows := d.Monitor.KilowattHours()
	switch {
	case shows <= nothingPart*d.Expected && d.Expected > 0:
		o.Kind = Nothing
		return
	case s.shifted(o, find), s.swapped(o, find), s.moved(o, find), off > 0 && s.caughtUp(o):
		return
	case math.Abs(off-d.Expected) <= d.Limit && d.Expected > 0:
		o.Kind = Doubled
		return
	}
	if off < 0 {
		o.Kind, o.Hours = LacksPart, silent(s.monitor, s.meter, d.Day)
		return
	}
	o.Kind = Above
	if o.Hours = silent(s.meter, s.monitor, d.Day); len(o.Hours) > 0 {
		o.Kind = MeterPart
	}
}

func (s *sheet) swapped(o *Odd, find func(calendar.Day) (Day, bool)) bool {
	for k := calendar.Day(1); k <= near; k++ {
		for _, d := range []calendar.Day{o.Day.Day - k, o.Day.Day + k} {
			if other, ok := find(d); ok && other.Disagrees && has(o.Day, other) && has(other, o.Day) {
				o.Kind, o.With = Swapped, d
				return true
			}
		}
	}
	return false
}

// shifted wants two days in a row, or more, that have the figure of the day
// before, or of the day after.
func (s *sheet) shifted(o *Odd, find func(calendar.Day) (Day, bool)) bool {
	for _, by := range []calendar.Day{1, -1} {
		source, ok := find(o.Day.Day + by)
		if !ok || !has(o.Day, source) {
			continue
		}
		for _, side := range []calendar.Day{1, -1} {
			beside, isBeside := find(o.Day.Day + side)
			of, isOf := find(o.Day.Day + side + by)
			if isBeside && isOf && beside.Disagrees && has(beside, of) {
				o.Kind, o.With = Shifted, source.Day
				return true
			}
		}
	}
	return false
}

func (s *sheet) moved(o *Odd, find func(calendar.Day) (Day, bool)) bool {
	for _, d := range []calendar.Day{o.Day.Day - 1, o.Day.Day + 1} {
		other, ok := find(d)
		if ok && other.Disagrees && math.Abs(o.Off()+other.Off()) <= max(o.Limit, other.Limit) {
			o.Kind, o.With = Moved, d
			return true
		}
	}
	return false
}

// caughtUp says that the day holds that of the day before as well, which the
// instrument lacks or has low.
func (s *sheet) caughtUp(o *Odd) bool {
	before := o.Day.Day - 1
	usual := s.meter.At(before)
	if usual.State != ledger.Measured {
		return false
	}
	r := row{x: usual.Energy.KilowattHours(), day: before}
	lacks := r.x + s.line.at(r)
	if e := s.monitor.At(before); e.State != ledger.Missing {
		lacks -= e.Energy.KilowattHours()
	}
	if lacks > o.Limit && math.Abs(o.Off()-lacks) <= o.Limit {
		o.Kind, o.With = CatchUp, before
		return true
	}
	return false
}

// silent gives the hours of a day in which one ledger has next to nothing of what
// the other has, if both have all its hours; none if most of the difference lies
// elsewhere.
func silent(one, other ledger.Ledger, d calendar.Day) (hours []int) {
	var a, b [24]float64
	var hasA, hasB [24]bool
	fillHours(one, d, a[:], hasA[:])
	fillHours(other, d, b[:], hasB[:])
	all, lost := 0.0, 0.0
	for h := range 24 {
		if !hasB[h] {
			continue
		}
		all += b[h]
		if hasA[h] {
			all -= a[h]
		}
		if b[h] > 0 && (!hasA[h] || a[h] < hourPart*b[h]) {
			hours, lost = append(hours, h), lost+b[h]
			if hasA[h] {
				lost -= a[h]
			}
		}
	}
	if lost < 0.7*all || len(one.On(d)) == 0 {
		return nil
	}
	return hours
}
