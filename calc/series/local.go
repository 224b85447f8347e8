package series

import (
	"splittally/calc/calendar"
	"splittally/calc/record"
)

// addLocal adds a row whose stamp has no offset: where the clock was changed is
// told from the order of the rows.
func (s *Series) addLocal(r *Row) {
	if s.pairs.rows != nil {
		s.pair(r)
		return
	}
	if s.begun && r.Wall == s.wall && s.opensPairs(r.Wall) {
		s.pairs.rows = append(s.pairs.rows, copied(r))
		return
	}
	s.addSingle(r)
}

func copied(r *Row) Row {
	kept := *r
	kept.Figures = append([]int64(nil), r.Figures...)
	return kept
}

// addSingle adds a row without an offset that is no part of pairs.
func (s *Series) addSingle(r *Row) {
	if !s.begun {
		s.take(r, 0)
		return
	}
	d := s.dir * (r.Wall - s.wall)
	off := s.off
	switch {
	case d == 0 && s.doubled == s.wall-s.dir*s.step: // every row comes twice
	case s.follows(d+record.Whole) && s.turned(r, -record.Whole, &off):
	case s.step > 0 && s.follows(d-record.Whole) && s.turned(r, record.Whole, &off):
	case d < 0:
		off = s.offAt(r.Wall)
	default:
		if at, _, _, _ := s.segment(r.Wall - off); at != off {
			off = s.offAt(r.Wall)
		}
	}
	if d == 0 && off == s.off {
		s.doubled = r.Wall
	}
	s.take(r, off)
}

// follows says whether a reading comes one step after another.
func (s *Series) follows(d int64) bool {
	switch {
	case s.step == 0:
		return d > 0 && d <= 20*minute
	case s.step < minute:
		return d > 0 && d <= 2*s.step
	}
	return s.step <= record.Whole && d >= s.step-s.near && d <= s.step+s.near
}

const minute = 60_000

// turned tells whether the clock was changed between the row before and one that
// follows it by the true time, and gives that one's offset. shift is how far the
// clock was put forward.
func (s *Series) turned(r *Row, shift int64, off *int64) bool {
	e, l := s.wall, r.Wall // earlier and later
	before, after := s.off, s.off+shift
	if s.dir < 0 {
		e, l, before, after = l, e, before-shift, before
	}
	at, ok := s.fullHour(e, l-shift, shift < 0)
	if !ok || !s.season(at, shift < 0) {
		return false
	}
	turnedTo := s.off + s.dir*shift
	if known, _, _, _ := s.segment(r.Wall - turnedTo); known == turnedTo {
		*off = turnedTo
		return true
	}
	s.newTurn(turn{at - before, before, after}, r.Line)
	*off = s.off + s.dir*shift
	return true
}

// newTurn enters a change of the clock that the order of the rows tells, after
// the row before. Where the readings after it are known already, all that was
// before it is moved, so that they stay where they are.
func (s *Series) newTurn(t turn, line int) {
	shift := t.after - t.before
	s.toldTurn(t.at+t.before, shift, line)
	if s.tracks[0].cur < len(s.tracks[0].gaps)-1 {
		s.move(shift)
		t = turn{t.at + s.dir*shift, t.before - s.dir*shift, t.after - s.dir*shift}
	}
	s.learn(t)
}

// move moves all that came before, in the order of the file, in true time, and
// its offsets the other way: by the clock it stays where it is.
func (s *Series) move(by int64) {
	u := s.dir * s.tau
	s.now = hourRef{}
	for i := range s.turns {
		if t := &s.turns[i]; s.dir*(t.at-u) < 0 {
			*t = turn{t.at + s.dir*by, t.before - s.dir*by, t.after - s.dir*by}
		}
	}
	if s.dir > 0 {
		s.base -= by
	}
	for i := range s.tracks {
		s.tracks[i].move(s.tau, by)
	}
	s.tau += by
	s.off -= s.dir * by
}

// season says whether clocks are changed anywhere at a time by the clock: on one
// of the Sundays below, up to three o'clock (to four, back). Laws of the years
// since 1987, common practice, no source; the midnights of Brazil and Paraguay
// are not among them.
func (s *Series) season(at int64, back bool) bool {
	if hourRank(at, back) > 3 {
		return false
	}
	d, _ := floor(at, dayLength)
	_, month, of := calendar.Day(d).Date()
	var north, south bool
	if back {
		north = month == 10 && of >= 25 || month == 11 && of <= 7
		south = month == 3 && of >= 25 || month == 4 && of <= 7
	} else { // an hour that lacks at the end of October came twice and was lost
		north = month == 3 && (of >= 8 && of <= 14 || of >= 25) || month == 4 && of <= 7
		south = month == 9 && of >= 24 || month == 10 && of <= 7
	}
	return north && s.south <= 0 || south && s.south >= 0
}

// pairs holds rows while an hour that comes twice may be coming in pairs, each
// time twice, as sorting by the stamp leaves them.
type pairs struct {
	rows []Row // from the second of the first pair on
	at   int64 // when the clock is set back, by the clock before
}

// opensPairs says whether a time that comes twice may be the first of such an
// hour.
func (s *Series) opensPairs(wall int64) bool {
	if s.step < minute || s.step >= record.Whole || record.Whole%s.step != 0 || s.doubled == s.wall-s.dir*s.step {
		return false
	}
	at := wall
	switch {
	case s.dir > 0 && s.starts:
		at += record.Whole
	case s.dir > 0:
		at += record.Whole - s.step
	case s.starts:
		at += s.step
	}
	s.pairs.at = at
	return at%record.Whole == 0 && s.season(at, true)
}

// pair adds a row while pairs are coming.
func (s *Series) pair(r *Row) {
	p := &s.pairs
	n := len(p.rows)
	if r.Wall != p.rows[0].Wall+s.dir*s.step*int64((n+1)/2) {
		s.noPairs()
		s.addLocal(r)
		return
	}
	p.rows = append(p.rows, copied(r))
	if int64(n+1) < 2*record.Whole/s.step-1 {
		return
	}
	rows := p.rows
	p.rows = nil
	for i := 1; i < len(rows); i += 2 {
		s.take(&rows[i], s.off)
	}
	before, after := s.off, s.off-record.Whole
	if s.dir < 0 {
		before, after = s.off+record.Whole, s.off
	}
	s.newTurn(turn{p.at - before, before, after}, rows[0].Line)
	off := s.off - s.dir*record.Whole
	for i := 0; i < len(rows); i += 2 {
		s.take(&rows[i], off)
	}
}

// noPairs adds the rows that were no pairs of an hour that came twice.
func (s *Series) noPairs() {
	rows := s.pairs.rows
	s.pairs.rows = nil
	for i := range rows {
		s.addSingle(&rows[i])
	}
}
