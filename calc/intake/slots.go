package intake

import (
	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/ledger"
)

// longestSlot is the longest stretch that is kept as a slot, in minutes: prices
// change by the hour, and a longer one tells little of where its energy fell.
const longestSlot = 120

// sumDay enters one day. It is measured if its intervals fill it, and partial
// otherwise. Mean powers become energies, cut to the microwatt-hour so that they
// add up to the day's, which is cut once.
func (a *attempt) sumDay(l *ledger.Ledger, day calendar.Day, parts []interval, power bool) {
	e := ledger.Entry{State: ledger.Measured, Line: parts[0].line}
	if power {
		energies(parts)
	}
	covered := 0
	for i := range parts {
		e.Energy = plus(e.Energy, parts[i].energy)
		covered += parts[i].length
	}
	e.Rounding = rootTimes(parts[0].rounding, len(parts))
	if power {
		e.Rounding = e.Rounding * energy.Energy(parts[0].length) / 60
	}
	short := covered < lengthOf(parts)
	if short && covered == dayLength-60 && sprung(day, parts) {
		short = false
		a.notice("clocks-forward", day.Long()+" lacks an hour of the early morning and was taken as a whole day of 23 hours.")
	}
	if short {
		e.State, e.Hours = ledger.Partial, float64(covered)/60
		a.partial = append(a.partial, day)
	}
	if day >= calendar.Day(0) && len(l.Days) < ledger.MaxDays {
		l.Put(day, e)
	}
}

// energies turns the mean powers of a day's intervals into energies.
func energies(parts []interval) {
	sum, before := energy.Energy(0), energy.Energy(0) // watt-minutes, so to say, and energy
	for i := range parts {
		sum = plus(sum, parts[i].energy*energy.Energy(parts[i].length))
		parts[i].energy, before = sum/60-before, sum/60
	}
}

// keepSlots keeps the intervals of a day that has been entered as its slots,
// where no interval is longer than longestSlot or reaches into the next day, and
// no two overlap. One that is not so leaves a measured day without slots, since
// the others would not add up to it; from a part of a day only itself is left
// out.
func keepSlots(l *ledger.Ledger, parts []interval, at stamps) {
	day := calendar.Day(parts[0].at / dayLength)
	state := l.At(day).State
	n := len(l.Slots)
	for n > 0 && l.Slots[n-1].Day >= day { // the offsets are such that a day came before
		n--
	}
	l.Slots = l.Slots[:n]
	if state == ledger.Missing {
		return
	}
	leaps, latest := overSkipped(day, parts), 0
	for k := range parts {
		p := &parts[k]
		from := p.at%dayLength + seam(parts, k, at.ends)
		to := from + p.length
		if k == leaps {
			to -= 60
		}
		s := ledger.Slot{Day: day, From: onStep(from, at.step), To: onStep(to, at.step), Energy: p.energy}
		s.Again = s.From < latest && p.zone < parts[0].zone
		switch {
		case s.From < latest && !s.Again, s.From < 0, s.To <= s.From, s.To > min(dayLength, s.From+longestSlot):
			if state == ledger.Measured {
				l.Slots = l.Slots[:n]
				return
			}
		default:
			l.Slots = append(l.Slots, s)
			latest = max(latest, s.To)
		}
	}
}

// onStep moves a time to the even step that is next to it, up to two minutes
// away: clocks are a minute late at times.
func onStep(minute, step int) int {
	if step < 15 || dayLength%step != 0 {
		return minute
	}
	if off := (minute+2)%step - 2; off <= 2 {
		return minute - off
	}
	return minute
}

// overSkipped gives the place of the interval that, as written, reaches over the
// hour that a clock put forward skips: the others fill all but an hour of the
// day, and it is an hour longer than they are. It is −1 if there is none.
func overSkipped(day calendar.Day, parts []interval) int {
	at, covered := -1, 0
	if !changeOfClocks(day) {
		return at
	}
	for k := range parts {
		covered += parts[k].length
		if k > 0 && parts[k].length == parts[0].length+60 && parts[k].at%dayLength <= 4*60 {
			at = k
		}
	}
	if covered != dayLength {
		return -1
	}
	return at
}

// seam gives the minutes that lie between where an interval that is known by its
// end seems to begin, by the clock that shows the end, and where it begins by
// the clock before it was changed: 03:00 may be the end of the hour from 01:00.
// Without an offset, times may also have been numbered on as if no clock were
// changed.
func seam(parts []interval, k int, ends bool) int {
	if !ends || k == 0 {
		return 0
	}
	before, p := &parts[k-1], &parts[k]
	from := p.at % dayLength
	gap := (p.at - p.zone) - (before.at - before.zone) - before.length
	back := before.zone - p.zone
	switch {
	case p.zoned && gap == 0:
		return back
	case p.zoned:
	case back == 60 && byClock(p, from):
		return 60
	case gap == 60 && byClock(p, from-60) && sprung(calendar.Day(p.at/dayLength), parts):
		return -60
	}
	return 0
}

// byClock says whether the first interval that a changed clock ends is written
// with the time that the clock showed. Its end then is where the new hour
// begins, so that it seems to begin within an hour, or, of hours, at the one
// before: clocks are changed at 02:00 or 03:00, in November at 02:00 (common
// practice, no source). Hours that can be read both ways are taken so.
func byClock(p *interval, from int) bool {
	_, month, _ := calendar.Day(p.at / dayLength).Date()
	return from%60 != 0 || p.length == 60 && (from == 0 || from == 60 && month != 11)
}
