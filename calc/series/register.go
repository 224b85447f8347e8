package series

import (
	"math/bits"

	"splittally/calc/record"
)

// register adds a read of a register: what it advanced since the read before,
// or, if it comes late, how the advance over a gap is parted.
func (s *Series) register(i int, tau, figure int64, r *Row) {
	t := &s.tracks[i]
	if !t.findEnd(tau, true) {
		s.covered(i, tau, tau, figure, r)
		return
	}
	g := &t.gaps[t.cur]
	if tau == g.to {
		t2 := *t
		t2.figure = g.after
		s.repeated(&t2, figure, r)
		return
	}
	left, ok := int64(0), true
	if g.from > -ever {
		left, ok = s.advance(t, g.before, figure, tau-g.from, r)
	}
	right := int64(0)
	if ok && g.to < ever {
		right, ok = s.advance(t, figure, g.after, g.to-tau, r)
	}
	if !ok {
		s.Odd(record.Conflict, r.Line, r.Wall)
		if t.fell++; t.fell < maxFalls || g.to < ever {
			return
		}
		s.Odd(record.Reset, r.Line, r.Wall)
	}
	t.fell = 0
	s.partGap(i, tau, figure, left, right, ok)
	s.took(i, tau, 0, figure, r)
}

// maxFalls is how many reads below the one before are taken for mistakes; with
// the last of them the register is taken to have begun anew.
const maxFalls = 3

// partGap parts the gap cur at a read. known is false if what the register
// advanced before it is not known.
func (s *Series) partGap(i int, tau, figure, left, right int64, known bool) {
	t := &s.tracks[i]
	g := &t.gaps[t.cur]
	switch from := g.from; {
	case known && from > -ever && !s.isGap(tau-from):
		s.place(i, from, tau, left, 1, 0)
		g.from = tau
	case t.split(tau):
		before := &t.gaps[t.cur-1]
		before.after, before.known, before.energy = figure, known && from > -ever, left
	case known && from > -ever:
		s.place(i, from, tau, left, 1, record.Spread)
	}
	g = &t.gaps[t.cur]
	g.before, g.known = figure, false
	switch {
	case g.to == ever:
		t.joined = false
	case s.isGap(g.to - tau):
		g.known, g.energy, t.joined = true, right, false
	default:
		s.place(i, tau, g.to, right, 1, 0)
		t.cover(tau, g.to)
	}
}

// isGap says whether a register's difference over some time is known only as a
// whole.
func (s *Series) isGap(length int64) bool {
	if s.step == 0 {
		return length > longestEnergy
	}
	return length > s.step+s.step/2
}

// advance gives what a register advanced from one read to the next in the order
// of the file. A fall is a reset or a roll-over if it can be; else ok is false.
func (s *Series) advance(t *track, before, after, length int64, r *Row) (energy int64, ok bool) {
	if s.dir < 0 {
		before, after = after, before
	}
	if d := after - before; d >= 0 {
		if tooLarge(Energy, d, length) {
			return 0, false
		}
		t.fastest(d, length)
		return d, true
	}
	likely := t.likely(length)
	modulus := int64(t.channel.Modulus)
	if modulus == 0 {
		modulus = powerOver(before)
	}
	over := after + modulus - before
	fits := likely
	if fits == 0 {
		fits = modulus / 1000
	}
	switch {
	case modulus > 0 && over >= 0 && over <= fits+2*int64(t.channel.Rounding) && (t.channel.Modulus > 0 || before >= modulus/100*99):
		s.Odd(record.RollOver, r.Line, r.Wall)
		return over, true
	case after >= 0 && (after <= likely || after <= before/100):
		s.Odd(record.Reset, r.Line, r.Wall)
		if likely > 0 && after > likely {
			after = 0 // it has not counted that since the read before
		}
		return after, true
	}
	return 0, false
}

// fastest notes the fastest advance of a register, in µWh an hour.
func (t *track) fastest(d, length int64) {
	t.rate = max(t.rate, times(d, record.Whole, length))
}

// likely gives the most that a register may well advance in some time: four
// times as fast as ever before.
func (t *track) likely(length int64) int64 { return times(t.rate, 4*length, record.Whole) }

// times gives n · part / whole, or a large number if that is larger.
func times(n, part, whole int64) int64 {
	high, low := bits.Mul64(uint64(n), uint64(part))
	if high >= uint64(whole)>>4 {
		return maxRate
	}
	q, _ := bits.Div64(high, low, uint64(whole))
	return int64(min(q, maxRate))
}

// powerOver gives the smallest power of ten above a read, where a register with
// so many digits rolls over; 0 if there is none.
func powerOver(read int64) int64 {
	for p := int64(1e6); p < 1e18; p *= 10 {
		if p > read {
			return p
		}
	}
	return 0
}
