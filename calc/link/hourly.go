package link

import (
	"splittally/calc/energy"
	"splittally/calc/link/coder"
	"splittally/calc/record"
)

// hourly writes or reads the hours of a channel, in whole units of energy.
type hourly struct {
	*walk
	unit    energy.Energy
	kinds   [8]coder.Chance
	turned  coder.Size
	covered [3][2]coder.Chance // by the hour before: not at all, whole, in part
	before  int
	parts   coder.Size
	marked  coder.Chance
	marks   [8]coder.Chance
	day     coder.Signed // of totals of days
	hour    coder.Signed
	totals  guesser
	means   [25]int64 // of the hours of late, by the clock; the last is the hour before
}

// The kinds of days.
const (
	noDay    = iota
	evenDay  // a total whose course is not known
	hoursDay // hour by hour
)

// dayOf writes or reads a day.
func (h *hourly) dayOf(d *record.Day) {
	kind := hoursDay
	switch {
	case d.Covered() == 0:
		kind = noDay
	case isEven(d):
		kind = evenDay
	}
	switch kind = h.tree3(&h.kinds, kind); kind {
	case noDay:
		h.Spend(100)
		*d = record.Day{}
	case evenDay:
		h.Spend(200)
		total, _ := d.Energy()
		near := h.totals.next(0, false) / int64(h.unit)
		total = energy.Energy(near+h.Signed(&h.day, int64(total/h.unit)-near)) * h.unit
		if total < -mostDay || total > mostDay {
			h.Broken = true
			return
		}
		h.totals.saw(int64(total), 0, false)
		even(d, total)
	case hoursDay:
		h.Spend(200)
		h.hours(d)
	default:
		h.Broken = true
	}
}

// mostDay is more than a home can use in a day.
const mostDay = 1_000_000 * energy.KilowattHour

// even makes a day a total whose course is not known: shared among its hours.
func even(d *record.Day, total energy.Energy) {
	*d = record.Day{}
	for i, part := range total.Share(len(d.Hours)) {
		d.Hours[i] = record.Hour{Energy: part, Covered: record.Whole, Marks: record.Spread}
	}
	d.Hours[0].Marks |= record.Begins
}

func isEven(d *record.Day) bool {
	total, err := d.Energy()
	if err != nil || d.Turn != 0 {
		return false
	}
	var made record.Day
	even(&made, total)
	return made == *d
}

// hours writes or reads the hours of a day.
func (h *hourly) hours(d *record.Day) {
	turn := h.upTo(&h.turned, turnOf(d), 2*24+1)
	d.Turn, d.TurnAt = 0, 0
	if turn > 0 {
		d.Turn, d.TurnAt = int8(2*(turn%2)-1), uint8((turn-1)/2%24)
	}
	for i := range d.Hours {
		if d.Turn < 0 && i == int(d.TurnAt) {
			d.Hours[i] = record.Hour{}
			continue
		}
		h.one(i, &d.Hours[i])
		if d.Turn > 0 && i == int(d.TurnAt) {
			h.one(i, &d.Again)
		}
	}
	if h.Reading && d.Covered() == 0 {
		h.Broken = true
	}
}

// turnOf is a change of clocks as a number, 0 for none.
func turnOf(d *record.Day) int {
	switch d.Turn {
	case 0:
		return 0
	case 1:
		return 2*int(d.TurnAt) + 1
	}
	return 2*int(d.TurnAt) + 2
}

// one writes or reads an hour.
func (h *hourly) one(at int, hour *record.Hour) {
	state := 2
	switch hour.Covered {
	case 0:
		state = 0
	case record.Whole:
		state = 1
	}
	c := &h.covered[h.before]
	state = h.Bit(&c[0], one(state > 0)) * (1 + h.Bit(&c[1], one(state > 1)))
	h.before = state
	switch state {
	case 0:
		*hour = record.Hour{}
		return
	case 1:
		hour.Covered = record.Whole
	default:
		hour.Covered = int32(h.upTo(&h.parts, int(hour.Covered), record.Whole))
	}
	marks := 0
	if h.Bit(&h.marked, one(hour.Marks != 0)) == 1 {
		marks = h.tree3(&h.marks, int(hour.Marks)&7)
	}
	hour.Marks = record.Marks(marks)
	near := (h.means[at] + h.means[24]) / 2 / int64(h.unit)
	e := energy.Energy(near+h.Signed(&h.hour, int64(hour.Energy/h.unit)-near)) * h.unit
	if e < -mostDay || e > mostDay {
		h.Broken = true
		return
	}
	hour.Energy = e
	h.means[at] += (int64(e) - h.means[at]) / 4
	h.means[24] = int64(e)
}
