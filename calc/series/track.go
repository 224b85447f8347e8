package series

import "splittally/calc/record"

// Without an even spacing, how long a power holds and an energy reaches.
const (
	longestPower  = record.Whole
	longestEnergy = 2 * record.Whole
)

// maxRate is the largest energy in an hour that is believed, 72 GWh: a whole
// country has it, and sums of hours stay far from overflow.
const maxRate = 1 << 56

// tooLarge says whether a reading exceeds maxRate.
func tooLarge(q Quantity, figure, length int64) bool {
	most := int64(maxRate)
	if q == Energy && length > 0 && length < record.Whole {
		most = maxRate / record.Whole * length
	}
	return figure > most || figure < -most
}

// read hands one reading to its track.
func (s *Series) read(i int, tau int64, r *Row) {
	t, figure := &s.tracks[i], r.Figures[i]
	length := r.Length
	if length <= 0 {
		length = s.step
	}
	switch {
	case t.quantity != Register && tooLarge(t.quantity, figure, length), figure > 1<<62, figure < -1<<62:
		s.Odd(record.TooLarge, r.Line, r.Wall)
		return
	case t.begun && tau == t.tau && s.begun:
		s.repeated(t, figure, r)
		return
	}
	switch {
	case t.quantity == Register:
		s.register(i, tau, figure, r)
	case t.quantity == Power:
		s.power(i, tau, length, figure, r)
	case length > 0:
		a := tau
		if s.ends {
			a -= length
		}
		s.piece(i, tau, a, a+length, figure, r)
	default:
		s.uneven(i, tau, figure, r)
	}
}

// repeated counts a reading at the time of the one before.
func (s *Series) repeated(t *track, figure int64, r *Row) {
	if figure == t.figure {
		s.Odd(record.Duplicate, r.Line, r.Wall)
	} else {
		s.Odd(record.Conflict, r.Line, r.Wall)
	}
}

// took notes a reading that was taken.
func (s *Series) took(i int, tau, length, figure int64, r *Row) {
	t := &s.tracks[i]
	t.marks = r.Marks
	t.begun, t.tau, t.figure, t.length, t.held = true, tau, figure, length, t.cur
	if t.joined {
		t.held = -1
	}
	if figure < 0 {
		s.Odd(record.BelowZero, r.Line, r.Wall)
	}
	if r.Marks&record.Estimated != 0 {
		s.Odd(record.Marked, r.Line, r.Wall)
	}
	s.print(i, figure, r.Wall)
}

// piece adds an energy that covers [a, b).
func (s *Series) piece(i int, tau, a, b, figure int64, r *Row) {
	t := &s.tracks[i]
	length, near := b-a, (b-a)/4
	if !t.find(a + length/2) {
		s.covered(i, a, b, figure, r)
		return
	}
	g := &t.gaps[t.cur]
	if d := a - g.from; d <= near && d >= -near {
		a = g.from
	}
	if d := b - g.to; d <= near && d >= -near {
		b = g.to
	}
	if a < g.from || b > g.to {
		s.Odd(record.Overlap, r.Line, r.Wall)
		return
	}
	s.place(i, a, b, figure, 1, r.Marks)
	t.cover(a, b)
	t.began = a
	s.took(i, tau, length, figure, r)
}

// uneven adds an energy whose interval is known by its neighbours only.
func (s *Series) uneven(i int, tau, figure int64, r *Row) {
	t := &s.tracks[i]
	length := min(tau-t.tau, longestEnergy)
	switch {
	case t.open && tau > t.tau && s.ends: // the first is as long as the second
		s.close(i, length)
	case t.open && tau > t.tau:
		s.close(i, length)
	case t.open:
		s.close(i, t.length)
	}
	if !t.findEnd(tau, s.ends) {
		s.covered(i, tau, tau, figure, r)
		return
	}
	g := &t.gaps[t.cur]
	if !s.ends || g.from == -ever {
		t.open = true
		length = t.length
		t.cover(tau, tau)
	} else {
		a := max(g.from, tau-longestEnergy)
		length = tau - a
		s.place(i, a, tau, figure, 1, r.Marks)
		t.cover(a, tau)
		t.began = a
	}
	s.took(i, tau, length, figure, r)
}

// close ends the wait of an uneven energy for its length.
func (s *Series) close(i int, length int64) {
	t := &s.tracks[i]
	t.open = false
	if length <= 0 {
		length = longestPower
	}
	a, at := t.tau, t.tau
	if s.ends {
		a, at = a-length, at-1
	}
	if !t.find(at) {
		return
	}
	g := &t.gaps[t.cur]
	a, b := max(a, g.from), min(a+length, g.to)
	s.place(i, a, b, t.figure, 1, t.marks)
	t.cover(a, b)
	t.length = length
}

// power adds a mean power, which holds until the next one where readings come a
// little unevenly.
func (s *Series) power(i int, tau, length, figure int64, r *Row) {
	t := &s.tracks[i]
	hold := int64(longestPower)
	if s.step > 0 {
		hold = 2*s.step - s.near
	}
	if !s.ends {
		s.holdOn(i, tau, hold)
	}
	if !t.findEnd(tau, s.ends) {
		s.covered(i, tau, tau, figure, r)
		return
	}
	g := &t.gaps[t.cur]
	a, b := tau, min(tau+length, g.to)
	if s.ends {
		a, b = max(tau-length, g.from), tau
		if tau-g.from <= hold {
			a = g.from
		} else if length == 0 && g.from > -ever {
			a = tau - hold
		}
	}
	s.place(i, a, b, figure, 1, r.Marks)
	t.cover(a, b)
	t.began = a
	s.took(i, tau, length, figure, r)
}

// holdOn lets the power before last until the next, at tau: longer or less long
// than was assumed.
func (s *Series) holdOn(i int, tau, hold int64) {
	t := &s.tracks[i]
	if !t.begun || t.held != t.cur || tau <= t.tau {
		return
	}
	g := &t.gaps[t.cur]
	switch {
	case tau < g.from:
		s.place(i, tau, g.from, t.figure, -1, t.marks)
		g.from = tau
	case tau > g.from && (tau-t.tau <= hold || s.step == 0):
		to := min(tau, t.tau+hold, g.to)
		if to > g.from {
			s.place(i, g.from, to, t.figure, 1, t.marks)
			t.cover(g.from, to)
		}
	}
}
