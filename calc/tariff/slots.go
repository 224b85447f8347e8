package tariff

import (
	"splittally/calc/calendar"
	"splittally/calc/energy"
)

// piece is the part of a slot on one day of the period.
type piece struct{ day, from, to int } // day counts from the period's first

// cut is a slot taken apart by the days of the period. Its pieces may hold fewer
// minutes than total, if it reaches beyond the period.
type cut struct {
	pieces []piece
	total  int64 // minutes of the clock of the whole slot; 0 of a moment
}

// cutter takes slots apart. It keeps its room between slots.
type cutter struct {
	span calendar.Span
	room []piece
}

// cut takes a slot apart. A slot without minutes is a piece without minutes on
// the day on which it begins.
func (c *cutter) cut(s Slot) cut {
	first, last := s.First, max(s.First, s.Last)
	from, to := min(max(s.From, 0), minutesOfDay), min(max(s.To, 0), minutesOfDay)
	total := (int64(last)-int64(first))*minutesOfDay + int64(to-from)
	c.room = c.room[:0]
	if total <= 0 {
		if c.span.Has(first) {
			from = min(from, minutesOfDay-1)
			c.room = append(c.room, piece{int(first - c.span.First), from, from})
		}
		return cut{c.room, 0}
	}
	for d := max(first, c.span.First); d <= last && d < c.span.End; d++ {
		p := piece{int(d - c.span.First), 0, minutesOfDay}
		if d == first {
			p.from = from
		}
		if d == last {
			p.to = to
		}
		if p.from < p.to {
			c.room = append(c.room, p)
		}
	}
	return cut{c.room, total}
}

// share gives the minutes of a piece of the slot's, as num/den for sum.add.
func (c cut) share(p piece) (num, den int64) {
	if c.total == 0 {
		return 1, 1
	}
	return int64(p.to - p.from), c.total
}

// isLong says whether the slot is too long to tell hours apart.
func (c cut) isLong() bool { return c.total >= minutesOfDay }

// short is a slot within one day of the period and shorter than it, as nearly
// all are. Every row goes through them, so they are cut once.
type short struct {
	day      int32 // from the period's first
	from, to int16
	again    bool
	energy   energy.Energy
}

// sort parts slots into short ones and the rest; what is not in the period is
// left out.
func (c *cutter) sort(slots []Slot) (shorts []short, rest []Slot) {
	shorts = make([]short, 0, len(slots))
	for _, s := range slots {
		switch {
		case s.First != s.Last || s.From < 0 || s.To > minutesOfDay || s.From >= s.To || s.To-s.From == minutesOfDay:
			rest = append(rest, s)
		case c.span.Has(s.First):
			shorts = append(shorts, short{int32(s.First - c.span.First), int16(s.From), int16(s.To), s.Again, s.Energy})
		}
	}
	return shorts, rest
}
