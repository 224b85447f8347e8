package intake

import (
	"slices"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/ledger"
	"splittally/calc/remark"
)

const dayLength = 24 * 60 // minutes

// mostInterval is more than a home uses in the part of a day that an interval is
// (common practice, no source).
const mostInterval = 25 * energy.KilowattHour

// severalADay says whether the rows are intervals shorter than a day: most have
// a time, and there are more rows than days.
func (a *attempt) severalADay() bool {
	if !a.p.timed {
		return false
	}
	timed, ranged := 0, 0
	type key struct {
		date [3]int
		ab   [3]int
	}
	days := map[key]bool{}
	for ri := range a.p.rows {
		r := &a.p.rows[ri]
		if r.from >= 0 {
			timed++
			if r.till >= 0 && (r.till-r.from)%dayLength != 0 {
				ranged++
			}
		}
		days[key{[3]int{r.first.Year, r.first.Month, r.first.Day}, [3]int{r.first.A, r.first.B, r.first.C}}] = true
	}
	return 2*timed > len(a.p.rows) && (2*len(days) <= len(a.p.rows) || 2*ranged > len(a.p.rows))
}

// interval is one figure of a part of a day.
type interval struct {
	figure
	at     int // minutes since day 0, wall time as written, of its start
	length int // minutes
	zone   int // minutes ahead of UTC; without an offset what the clock was put back by, below zero
	zoned  bool
}

// fromIntervals sums the figures of each day, and keeps them as its slots unless
// they are sums of a tariff's parts, which have hours of their own.
func (a *attempt) fromIntervals(l *ledger.Ledger, c int, figures []figure) {
	parts, s := a.intervals(figures)
	if len(parts) == 0 {
		return
	}
	a.putBack(parts)
	if k := climbOf(justFigures(parts)); k.strong && k.towers && (k.least > mostInterval || a.p.register) && !a.units[c].unit.IsPower() {
		parts, s = a.differences(parts, s)
	}
	if !a.units[c].unit.IsPower() && a.beginsDaily(parts) {
		parts, s.ends = a.sinceMidnight(parts), false
	}
	parts = a.onceEach(parts)
	a.enter(l, parts, s, a.units[c].unit.IsPower())
	if a.merged != "" || len(l.Slots) == 0 {
		l.Slots = nil
	}
	if c == 0 && s.step > 0 && s.step < dayLength {
		a.notice("rows-summed", "Several rows a day, "+minutes(s.step)+" each, were summed to days.")
	}
}

// enter enters the days of intervals.
func (a *attempt) enter(l *ledger.Ledger, parts []interval, s stamps, power bool) {
	if s.step <= longestSlot {
		l.Slots = make([]ledger.Slot, 0, len(parts))
	}
	for i := 0; i < len(parts); {
		day := calendar.Day(parts[i].at / dayLength)
		n := i
		for n < len(parts) && calendar.Day(parts[n].at/dayLength) == day {
			n++
		}
		a.sumDay(l, day, parts[i:n], power)
		if s.step <= longestSlot {
			keepSlots(l, parts[i:n], s)
		}
		i = n
	}
}

// tellPartial tells of the days of which only a part was measured, and of times
// that are not local ones.
func (a *attempt) tellPartial() {
	arrange(a.partial, func(d *calendar.Day) int { return int(*d) })
	if days := slices.Compact(a.partial); len(days) > 0 {
		a.notice("days-partial", "Only a part was measured of "+list(days)+".")
	}
	zoned, utc := 0, 0
	for ri := range a.p.rows {
		r := &a.p.rows[ri]
		if r.zoned {
			zoned++
			if r.zone == 0 {
				utc++
			}
		}
	}
	if zoned > 0 && utc == zoned && a.severalADay() {
		a.notice("utc-days", "All times are written as UTC, so the days were cut at midnight UTC, which may not be midnight where the meter is.")
	}
}

func minutes(n int) string {
	if n%60 == 0 {
		return plural(n/60, "hour")
	}
	return plural(n, "minute")
}

func justFigures(parts []interval) []figure {
	out := make([]figure, len(parts))
	for i, p := range parts {
		out[i] = p.figure
	}
	return out
}

// stamps says what the times on the lines of intervals are.
type stamps struct {
	step int  // the usual length of an interval in minutes, 0 if not known
	ends bool // they are the ends of intervals, not the starts
}

// intervals gives the known figures in order of time with starts and lengths.
func (a *attempt) intervals(figures []figure) (parts []interval, s stamps) {
	parts = make([]interval, 0, len(figures))
	for fi := range figures {
		f := &figures[fi]
		r := &a.p.rows[f.row]
		if r.from < 0 {
			if f.known {
				a.wrong(r.line, -1, "a time of day, as on the other lines, such as 2024-01-15 00:30")
			}
			continue
		}
		p := interval{figure: *f, at: int(f.span.First)*dayLength + r.from, zone: r.zone, zoned: r.zoned}
		if r.till >= 0 {
			p.length = r.till - r.from
			if r.dates == 2 {
				p.length += (f.span.Days() - 1) * dayLength
				if r.till == 0 {
					p.length += dayLength
				}
			}
			switch {
			case p.length <= 0 && p.length > -60 && changeOfClocks(f.span.First):
				p.length += 60 // 02:30 to 02:00 of a clock put back
			case p.length <= 0:
				p.length += dayLength
			}
			if p.length%5 != 0 && (p.length+1)%5 == 0 {
				p.length++ // 00:00 to 00:14 is a quarter of an hour
			}
		}
		parts = append(parts, p)
	}
	arrange(parts, func(p *interval) int { return p.at - p.zone })
	s.step = usualStep(parts)
	s.ends = a.endsIntervals(parts, s.step)
	known := parts[:0]
	for _, p := range parts {
		if p.length == 0 {
			p.length = s.step
			if s.ends {
				p.at -= s.step
			}
		}
		if p.known {
			known = append(known, p)
		}
	}
	return known, s
}

// usualStep gives the commonest step between starts, in minutes.
func usualStep(parts []interval) int {
	count := map[int]int{}
	best := 0
	for i := 1; i < len(parts); i++ {
		d := (parts[i].at - parts[i].zone) - (parts[i-1].at - parts[i-1].zone)
		if d <= 0 || d > dayLength {
			continue
		}
		count[d]++
		if count[d] > count[best] || count[d] == count[best] && d < best {
			best = d
		}
	}
	if best == 0 && len(parts) > 0 {
		best = parts[0].length
	}
	for _, d := range [4]int{best - 1, best + 1, best - 2, best + 2} { // clocks that are a minute late at times
		if best > 5 && dayLength%best != 0 && d%5 == 0 && dayLength%d == 0 && count[d] > 0 {
			return d
		}
	}
	return best
}

// endsIntervals says whether the times are the ends of their intervals: the
// heading says so, there is a 24:00, or the text begins one step after midnight
// and ends at midnight.
func (a *attempt) endsIntervals(parts []interval, length int) bool {
	if len(parts) == 0 || length == 0 || parts[0].length > 0 {
		return false
	}
	if a.p.starting {
		return false
	}
	for _, p := range parts {
		if a.p.rows[p.row].from == dayLength {
			return true
		}
	}
	if a.p.ending {
		return true
	}
	first, last := parts[0].at%dayLength, parts[len(parts)-1].at%dayLength
	if first == length && last == 0 {
		return true
	}
	if first != 0 {
		a.notice("interval-start-assumed", "The times were taken as the starts of their intervals.")
	}
	return false
}

// differences makes intervals of register reads: the energy from each read to
// the next. A read is of its moment, so none of them stands at its end; a text
// that is no register after all is left as it is.
func (a *attempt) differences(parts []interval, s stamps) ([]interval, stamps) {
	taken := a.ask("register", "Are these running totals of a register, or the energy of each interval?",
		"The figures rise from line to line.", "start",
		remark.Choice{ID: "start", Label: "A register: the energy of an interval is the next read less its own"},
		remark.Choice{ID: "daily", Label: "The energy of each interval"})
	if taken == "daily" {
		return parts, s
	}
	if s.ends {
		for i := range parts {
			parts[i].at += s.step
		}
	}
	out := make([]interval, 0, len(parts))
	for i := 1; i < len(parts); i++ {
		p := parts[i-1]
		p.energy = parts[i].energy - p.energy
		p.length = (parts[i].at - parts[i].zone) - (p.at - p.zone)
		p.rounding = rootSum(p.rounding, parts[i].rounding)
		if p.energy >= 0 && p.length > 0 && p.at%dayLength+p.length <= dayLength {
			out = append(out, p)
		}
	}
	return out, stamps{step: s.step}
}
