package series

import (
	"slices"

	"splittally/calc/calendar"
	"splittally/calc/record"
)

// dayLength is the length of a day by the clock, in milliseconds.
const dayLength = 24 * record.Whole

// turn is a change of the clock at a true time, which is not turned by dir.
type turn struct {
	at            int64
	before, after int64 // offsets in milliseconds
}

// maxTurns bounds the changes of clocks: two a year, and more than enough for a
// file whose offsets make no sense.
const maxTurns = 1000

// segment gives the offset at a true time, the times from and to which it
// holds, and whether an hour of it comes for the second time at its beginning.
func (s *Series) segment(u int64) (off, from, to int64, twice bool) {
	off, from, to = s.base, -ever, ever
	for i := range s.turns {
		t := &s.turns[i]
		if u < t.at {
			return off, from, t.at, twice
		}
		off, from, twice = t.after, t.at, t.before-t.after == record.Whole
	}
	return off, from, to, twice
}

// offAt gives the offset for a time by the clock, that of the first run in an
// hour that comes twice.
func (s *Series) offAt(wall int64) int64 {
	off := s.base
	for i := range s.turns {
		t := &s.turns[i]
		if wall < t.at+max(t.before, t.after) {
			break
		}
		off = t.after
	}
	return off
}

// addZoned adds a row whose offset is written.
func (s *Series) addZoned(r *Row) {
	off := int64(r.Offset) * 1000
	if !s.begun {
		s.base, s.off = off, off
	}
	u := r.Wall - off
	switch at, _, to, _ := s.segment(u); {
	case at == off:
	case off == s.off: // between two changes that were not seen, or a stamp of another zone
	case s.dir*u > s.tau:
		s.turnBetween(r.Wall, off)
	default: // from before what is known: the clock changes by the time that was
		if to < ever || len(s.turns) == 0 {
			s.addTurn(turn{min(to, s.dir*s.firstTau()), off, at})
		}
	}
	s.take(r, off)
}

// firstTau is where the readings of the first track begin, in order of the file.
func (s *Series) firstTau() int64 { return s.tracks[0].gaps[0].to }

// turnBetween enters the change of the clock that lies between the row before
// and one with another offset, at the full hour that fits.
func (s *Series) turnBetween(wall, off int64) {
	e, l := s.wall, wall // earlier and later
	before, after := s.off, off
	if s.dir < 0 {
		e, l, before, after = l, e, after, before
	}
	shift := after - before
	at, ok := s.fullHour(e, l-shift, shift < 0)
	if !ok {
		at = l - shift
	}
	s.toldTurn(at, shift, s.last)
	s.learn(turn{at - before, before, after})
}

// fullHour gives the full hour, by the clock before it is changed, at which it
// is: within the time from one stamp to the next. Clocks are put forward at two
// o'clock or one, and back at three, two or one, in November at two (common
// practice, no source).
func (s *Series) fullHour(from, to int64, back bool) (at int64, ok bool) {
	if s.starts && s.step > 0 && s.step <= record.Whole {
		from += s.step - s.near // the reading before covers a step
	}
	if to-from > 40*dayLength {
		return 0, false
	}
	best := 100
	for h := from + (record.Whole-from%record.Whole)%record.Whole; h <= to; h += record.Whole {
		if rank := hourRank(h, back); rank <= best {
			best, at, ok = rank, h, true
		}
	}
	return at, ok
}

// hourRank says how likely clocks are changed at a time, 0 the most.
func hourRank(at int64, back bool) int {
	d, rest := floor(at, dayLength)
	rank := 10
	if calendar.Day(d).Weekday() == 0 {
		rank = 0
	}
	_, month, _ := calendar.Day(d).Date()
	order := [4]int{3, 1, 0, 2}
	switch {
	case back && month == 11:
		order = [4]int{4, 2, 0, 1}
	case back:
		order = [4]int{4, 2, 1, 0}
	}
	h := rest / record.Whole
	if h < 4 {
		return rank + order[h]
	}
	if back && h == 4 && month == 10 { // from 4:00 to 3:00, as in Helsinki and Athens
		return rank + 3
	}
	return rank + 5
}

// learn enters a change of the clock that lies between the row before and the
// next. If the latest comes first, what is known of the time behind it was not
// yet known to be: the hour that it has for the second time, and the last
// interval, which may lie before it.
func (s *Series) learn(t turn) {
	if s.dir > 0 {
		s.addTurn(t)
		return
	}
	s.placeLast(-1)
	s.addTurn(t)
	if d, rest := floor(t.at+t.after, dayLength); t.before-t.after == record.Whole {
		d, h := s.dayAt(calendar.Day(d)), int(rest/record.Whole)
		if d.turn > 0 && int(d.turnAt) == h && d.again == nil {
			d.again = make([]hour, len(s.tracks))
			for i := range s.tracks {
				d.again[i], d.hours[i*24+h] = d.hours[i*24+h], hour{}
			}
		}
	}
	s.placeLast(1)
}

// placeLast adds the intervals of the last row again, or takes them away.
func (s *Series) placeLast(sign int64) {
	for i := range s.tracks {
		t := &s.tracks[i]
		if t.quantity == Register || !t.begun || t.tau != s.tau || t.held != t.cur || t.open {
			continue
		}
		if to := t.gaps[t.cur].from; to > t.began {
			s.place(i, t.began, to, t.figure, sign, t.marks)
		}
	}
}

// addTurn enters a change of the clock. Where later readings are known, what
// lies before it is moved, so that they stay where they are.
func (s *Series) addTurn(t turn) {
	if len(s.turns) >= maxTurns {
		return
	}
	s.now = hourRef{}
	i := 0
	for i < len(s.turns) && s.turns[i].at < t.at {
		i++
	}
	s.turns = slices.Insert(s.turns, i, t)
	if i == 0 {
		s.base = t.before
	}
}

// toldTurn counts a change of the clock, and marks its day if it is by one hour.
func (s *Series) toldTurn(at, shift int64, line int) {
	kind, by, hour := record.ClockBack, int8(1), at-record.Whole
	if shift > 0 {
		kind, by, hour = record.ClockOn, -1, at
	}
	s.Odd(kind, line, hour)
	if shift != record.Whole && shift != -record.Whole {
		return
	}
	d, rest := floor(hour, dayLength)
	in := s.dayAt(calendar.Day(d))
	if in.turn == 0 { // one a day: offsets that make no sense have more
		in.turn, in.turnAt = by, uint8(rest/record.Whole)
	}
	_, month, _ := calendar.Day(d).Date()
	s.south = 1
	if (month >= 7) == (by > 0) {
		s.south = -1
	}
}
