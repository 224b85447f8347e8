package espi

import (
	"splittally/calc/calendar"
	"splittally/calc/record"
)

// local turns the hours of UTC of a series into those of a local clock.
type local struct {
	clock  *clock
	shift  int64 // seconds by which the series' times are ahead
	uneven bool  // a clock's hours do not begin where the series' do

	from, to, known int64 // the offset that is known for true times from, up to to
}

// offset gives the offset of the local clock from the series' hours at a time of
// the series, rounded to whole hours, in seconds.
func (l *local) offset(at int64) int64 {
	at += l.clock.late - l.shift
	if at < l.from || at >= l.to {
		var offset int
		offset, l.from, l.to = l.clock.rules.At(at)
		l.known = l.whole(int64(offset))
	}
	return l.known
}

// whole rounds what times of the series are late by to whole hours.
func (l *local) whole(offset int64) int64 {
	offset += l.clock.late - l.shift
	hours, rest := calendar.Floor(offset+hourSeconds/2, hourSeconds)
	l.uneven = l.uneven || rest != hourSeconds/2
	return hours * hourSeconds
}

// days gives the days by the local clock.
func (l *local) days(first calendar.Day, days []record.Day) (calendar.Day, []record.Day) {
	if len(days) == 0 {
		return first, nil
	}
	begin, end := int64(first)*daySeconds, (int64(first)+int64(len(days)))*daySeconds
	from, to := dayOf(begin+l.offset(begin)), dayOf(end-1+l.offset(end-1))
	out := make([]record.Day, to-from+1)
	for _, t := range l.turns(begin, end) {
		if d := dayOf(t.wall); d >= from && d <= to {
			_, rest := calendar.Floor(t.wall, daySeconds)
			out[d-from].Turn, out[d-from].TurnAt = t.turn, uint8(rest/hourSeconds)
		}
	}
	for i := range days {
		for h := range days[i].Hours {
			hour := &days[i].Hours[h]
			if hour.Covered == 0 && hour.Energy == 0 {
				continue
			}
			at := begin + int64(i)*daySeconds + int64(h)*hourSeconds
			put(out, from, at+l.offset(at), l.isAgain(at), hour)
		}
	}
	for len(out) > 0 && out[0].Covered() == 0 {
		out, from = out[1:], from+1
	}
	for n := len(out); n > 0 && out[n-1].Covered() == 0; n-- {
		out = out[:n-1]
	}
	return from, out
}

// put adds an hour to the days from first on, at a local time in seconds.
func put(days []record.Day, first calendar.Day, wall int64, again bool, hour *record.Hour) {
	day, rest := calendar.Floor(wall, daySeconds)
	d := int(day) - int(first)
	if d < 0 || d >= len(days) {
		return
	}
	to := &days[d].Hours[rest/hourSeconds]
	if again && days[d].Turn > 0 {
		to = &days[d].Again
	}
	to.Energy += hour.Energy
	to.Covered = min(to.Covered+hour.Covered, record.Whole)
	to.Marks |= hour.Marks
}

// isAgain says whether the hour of the series at a time is the second run of its
// hour by the local clock.
func (l *local) isAgain(at int64) bool {
	return l.offset(at-hourSeconds)-l.offset(at) == hourSeconds
}

// turn is a change of the local clock by an hour.
type turn struct {
	wall int64 // the hour that comes twice, or never, in seconds
	turn int8
}

// turns gives the changes between two times of the series.
func (l *local) turns(from, to int64) (list []turn) {
	before := l.whole(int64(l.clock.rules.Before))
	for _, c := range l.clock.rules.Changes {
		at, after := c.At-l.clock.late+l.shift, l.whole(int64(c.Offset))
		if at >= from && at <= to {
			switch after - before {
			case hourSeconds:
				list = append(list, turn{at + before, -1})
			case -hourSeconds:
				list = append(list, turn{at + after, +1})
			}
		}
		before = after
	}
	return list
}

// gaps gives gaps by the local clock.
func (l *local) gaps(gaps []record.Gap) []record.Gap {
	for i := range gaps {
		gaps[i].From = l.time(gaps[i].From)
		gaps[i].To = l.time(gaps[i].To)
	}
	return gaps
}

// time gives the local time for one of the series, both in milliseconds.
func (l *local) time(ms int64) int64 {
	seconds, rest := calendar.Floor(ms, 1000)
	return l.clock.wall(seconds-l.shift)*1000 + rest
}
