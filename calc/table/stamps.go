package table

import "splittally/calc/calendar"

// zoneUntil is a stretch of true time, in milliseconds, within which an offset
// holds.
type zoneUntil struct{ from, to, offset int64 }

// time reads the stamp of the line that the sheet holds: the time by the clock
// and its offset in seconds. ok is false if there is none.
func (r *Reader) time() (wall int64, offset int, ok bool) {
	at, s, ok := r.written()
	if !ok {
		return 0, 0, false
	}
	switch r.layout.Stamp.Zone {
	case Offset:
		if s.zoned {
			r.row.Offset = s.offset
		}
		return at, r.row.Offset, true
	case Instant:
		unix := at - int64(s.offset)*1000
		off := r.offsetAt(unix)
		return unix + off, int(off / 1000), true
	}
	return at, 0, true
}

// offsetAt gives the offset of the person's clock at a point of time, both in
// milliseconds.
func (r *Reader) offsetAt(unix int64) int64 {
	if u := &r.until; unix >= u.from && unix < u.to {
		return u.offset
	}
	at := unix / 1000
	if unix%1000 < 0 {
		at--
	}
	const most = 1 << 50
	if r.rules == nil { // then the clock is UTC
		r.until = zoneUntil{from: -most * 1000, to: most * 1000}
		return 0
	}
	offset, from, to := r.rules.At(at)
	r.until = zoneUntil{max(from, -most) * 1000, min(to, most) * 1000, int64(offset) * 1000}
	return r.until.offset
}

// written reads the stamp as it is written, in milliseconds since 1970.
func (r *Reader) written() (at int64, s stamp, ok bool) {
	st := &r.layout.Stamp
	b, ok := r.cellAt(st.Date)
	if !ok {
		return 0, s, false
	}
	switch st.Form {
	case Seconds, Millis:
		if len(b) > 0 && b[0] == '+' {
			b = b[1:]
		}
		at, _, ok = readUnix(b)
		return at, s, ok
	case Serial:
		at, _, ok = readSerial(b, r.layout.Decimal)
		if !ok {
			at, _, ok = readSerial(b, '.')
		}
		return at, s, ok
	}
	s, ok = readStamp(b)
	if !ok || s.shape == clockOnly {
		return 0, s, false
	}
	if st.Time >= 0 && !r.timeCell(&s) {
		return 0, s, false
	}
	day, ok := r.dayOf(&s)
	return int64(day)*dayLength + max(s.clock, 0), s, ok
}

// timeCell reads the clock of a stamp of two cells.
func (r *Reader) timeCell(s *stamp) bool {
	b, ok := r.cellAt(r.layout.Stamp.Time)
	if !ok {
		return false
	}
	if r.layout.Stamp.Hours {
		if n := digitsAt(b); n == 0 || n > 2 || n != len(b) || number(b) > 24 {
			return false
		}
		s.clock = int64(number(b)) * hourLength
		return true
	}
	t, ok := readStamp(b)
	if !ok || t.shape != clockOnly {
		return false
	}
	s.clock, s.half, s.full, s.zoned, s.offset = t.clock, t.half, t.full, t.zoned, t.offset
	return true
}

// dayOf gives the day of a stamp. A date that is one in the other order of day
// and month alone ends the reading.
func (r *Reader) dayOf(s *stamp) (calendar.Day, bool) {
	form := r.layout.Stamp.Form
	day, ok := s.day(form)
	if s.shape != numbers {
		return day, ok
	}
	other := DayFirst
	if form == DayFirst {
		other = MonthFirst
	}
	if _, could := s.day(other); ok != could {
		if r.decided = true; could {
			b, _ := r.cellAt(r.layout.Stamp.Date)
			r.err = &OrderError{r.line, string(b), other}
		}
	}
	return day, ok
}
