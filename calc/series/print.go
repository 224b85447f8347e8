package series

import (
	"splittally/calc/calendar"
	"splittally/calc/record"
)

// Fingerprints tell a reading that comes again late from one that contradicts
// it, since the readings themselves are not kept: 32 bits for each minute, or
// step if that is longer, the sum of its figures without the rest of the digits.

// cell is the length of what a fingerprint stands for.
func (s *Series) cell() int64 { return min(max(minute, s.step), dayLength) }

func fingerprint(figure int64) uint32 { return uint32(figure) }

// stampDay gives the day of a stamp and the time in it, and makes the day if
// there is none.
func (s *Series) stampDay(wall int64) (d *day, rest int64) {
	if !s.starts {
		wall-- // 24:00 is of the day before
	}
	at, rest := floor(wall, dayLength)
	if s.printDay == nil || s.printDay.at != calendar.Day(at) {
		s.printDay = s.dayAt(calendar.Day(at))
	}
	return s.printDay, rest
}

// print notes a reading.
func (s *Series) print(track int, figure, wall int64) {
	d, rest := s.stampDay(wall)
	d.rows++
	cell := s.cell()
	cells := int((dayLength + cell - 1) / cell)
	if s.makePrints(d, cells); d.prints != nil {
		d.prints[track*cells+int(rest/cell)] += fingerprint(figure)
	}
}

// makePrints makes room for the fingerprints of a day, if any is left.
func (s *Series) makePrints(d *day, cells int) {
	if size := 4 * cells * len(s.tracks); d.prints == nil && size <= s.prints {
		s.prints -= size
		d.prints = make([]uint32, cells*len(s.tracks))
	}
}

// printed says whether what a cell has comes to a sum of fingerprints; false if
// that is not known.
func (s *Series) printed(track int, wall int64, sum uint32) (same, known bool) {
	d, rest := s.stampDay(wall)
	if d.prints == nil {
		return false, false
	}
	cell := s.cell()
	cells := len(d.prints) / len(s.tracks)
	return d.prints[track*cells+int(rest/cell)] == sum, true
}

// late gathers late readings of one minute.
type late struct {
	cell  int64 // its number
	sum   uint32
	count int
	line  int // the first
	wall  int64
}

// covered counts a reading of a time that was covered before: of [a, b), if that
// is its whole interval.
func (s *Series) covered(i int, a, b, figure int64, r *Row) {
	t := &s.tracks[i]
	if near := (b - a) / 4; b > a && (t.find(a+near) || t.find(b-near-1)) {
		s.Odd(record.Overlap, r.Line, r.Wall)
		return
	}
	wall := r.Wall
	if s.step < minute {
		cell, _ := floor(wall, minute)
		if t.late.count > 0 && t.late.cell != cell {
			s.settle(i)
		}
		if t.late.count == 0 {
			t.late = late{cell: cell, line: r.Line, wall: wall}
		}
		t.late.count++
		t.late.sum += fingerprint(figure)
		return
	}
	switch same, known := s.printed(i, wall, fingerprint(figure)); {
	case !known:
		s.Odd(record.Overlap, r.Line, wall)
	case same:
		s.Odd(record.Duplicate, r.Line, wall)
	default:
		s.Odd(record.Conflict, r.Line, wall)
	}
}

// settle tells what the late readings of one minute were: if they come to what
// it had, the same; else they are counted as reaching into it, since nobody can
// tell which of them contradict.
func (s *Series) settle(i int) {
	l := &s.tracks[i].late
	if l.count == 0 {
		return
	}
	kind := record.Overlap
	if same, _ := s.printed(i, l.wall, l.sum); same {
		kind = record.Duplicate
	}
	s.odd(kind, l.line, l.wall, l.count)
	l.count = 0
}
