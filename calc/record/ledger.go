package record

import (
	"math"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/ledger"
)

// Ledger gives a channel day by day, with a slot for each hour.
//
//   - A day that readings cover whole is Measured. Nothing less is: a minute
//     that is lost is left for filling.
//   - One that they cover in part is Partial; its slots say which hours, and how
//     much each is Short.
//   - Where a total whose course is not known runs over midnight, all days that
//     it touches are Spread over it, or Missing if other hours of them are. Near
//     midnight it is a rounding of both days; within a day it is one long slot.
//
// step is the usual spacing in seconds, 0 if there is none. The error is
// energy.ErrRange.
func (c *Channel) Ledger(step int) (ledger.Ledger, error) {
	l := ledger.Ledger{Name: c.Name}
	for i := range c.Days {
		d, day := &c.Days[i], c.First+calendar.Day(i)
		covered := d.Covered()
		if covered == 0 {
			continue
		}
		e := ledger.Entry{State: ledger.Measured, Rounding: c.rounding(covered, step), Turn: d.Turn, TurnAt: d.TurnAt}
		var err error
		if e.Energy, err = d.Energy(); err != nil {
			return ledger.Ledger{}, err
		}
		if covered < d.Length() {
			e.State, e.Hours = ledger.Partial, float64(covered)/Whole
		}
		l.Put(day, e)
		l.Slots = appendSlots(l.Slots, day, d)
	}
	c.spread(&l)
	return l, nil
}

// rounding is that of the sum of the readings that cover a stretch, as
// ledger.Entry has it: of many readings alike, or of the two reads of a register.
func (c *Channel) rounding(covered int64, step int) energy.Energy {
	n := 2.0
	if c.Sums {
		if step <= 0 {
			step = unevenStep
		}
		n = max(1, float64(covered)/1000/float64(step))
	}
	return energy.Energy(math.Round(float64(c.Rounding) * math.Sqrt(n)))
}

// unevenStep stands for the spacing of readings without one, in seconds.
const unevenStep = 600

// appendSlots appends the hours of a day that readings cover, in the order of
// time. Hours in a row of one spread total are one slot.
func appendSlots(to []ledger.Slot, day calendar.Day, d *Day) []ledger.Slot {
	joins := false // the slot before ends in a spread total
	add := func(hour int, h Hour, again bool) {
		if h.Covered == 0 {
			joins = false
			return
		}
		s := ledger.Slot{Day: day, From: 60 * hour, To: 60 * (hour + 1), Energy: h.Energy, Short: Whole - h.Covered, Again: again}
		isSpread := h.Marks&Spread != 0
		if n := len(to); joins && isSpread && h.Marks&Begins == 0 && to[n-1].To == s.From && !again {
			to[n-1].To, to[n-1].Energy, to[n-1].Short = s.To, to[n-1].Energy+s.Energy, to[n-1].Short+s.Short
			return
		}
		to, joins = append(to, s), isSpread
	}
	for h := range d.Hours {
		add(h, d.Hours[h], false)
		if d.Turn > 0 && h == int(d.TurnAt) {
			add(h, d.Again, true)
		}
	}
	return to
}

// nearMidnight is how many hours on either side of midnight a spread total may
// touch for its days to stay measured, with what it may have shifted between
// them as a rounding.
const nearMidnight = 2

// spread marks the days between which the course of a total is not known. Their
// slots would claim to know it, so they have none.
func (c *Channel) spread(l *ledger.Ledger) {
	var totals []calendar.Span
	for i := 1; i < len(c.Days); i++ {
		before, after := c.lastSpread(i-1), c.firstSpread(i)
		if len(before) == 0 || len(after) == 0 {
			continue
		}
		day := c.First + calendar.Day(i)
		if len(before) <= nearMidnight && len(after) <= nearMidnight {
			shift := max(inAll(before).Abs(), inAll(after).Abs())
			for _, d := range []calendar.Day{day - 1, day} {
				e := l.At(d)
				e.Rounding = energy.Energy(math.Round(math.Hypot(float64(e.Rounding), float64(shift))))
				l.Put(d, e)
			}
			continue
		}
		if n := len(totals); n > 0 && totals[n-1].End == day {
			totals[n-1].End++
		} else {
			totals = append(totals, calendar.Span{First: day - 1, End: day + 1})
		}
	}
	if len(totals) == 0 {
		return
	}
	for _, total := range totals {
		c.share(l, total)
	}
	kept := l.Slots[:0:0]
	for _, s := range l.Slots {
		if l.At(s.Day).State == ledger.Measured || l.At(s.Day).State == ledger.Partial {
			kept = append(kept, s)
		}
	}
	l.Slots = kept
}

// share makes the days of a total Spread, if all of them are whole.
func (c *Channel) share(l *ledger.Ledger, total calendar.Span) {
	state := ledger.Spread
	if l.Count(total, ledger.Measured) < total.Days() {
		state = ledger.Missing // the rest of it tells of no single day
	}
	for d := total.First; d < total.End; d++ {
		e := l.At(d)
		e.State, e.Total = state, total
		if state == ledger.Missing {
			e = ledger.Entry{}
		}
		l.Put(d, e)
	}
}

// lastSpread gives the hours at the end of a day that are one with the day after.
func (c *Channel) lastSpread(day int) []Hour {
	hours := c.Days[day].Hours[:]
	from := len(hours)
	for from > 0 && hours[from-1].Marks&Spread != 0 {
		from--
	}
	return hours[from:]
}

// firstSpread gives those at the start of a day.
func (c *Channel) firstSpread(day int) []Hour {
	hours := c.Days[day].Hours[:]
	if hours[0].Marks&Begins != 0 {
		return nil
	}
	to := 0
	for to < len(hours) && hours[to].Marks&Spread != 0 {
		to++
	}
	return hours[:to]
}

func inAll(hours []Hour) (sum energy.Energy) {
	for _, h := range hours {
		sum += h.Energy
	}
	return sum
}
