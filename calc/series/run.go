package series

import (
	"math/bits"

	"splittally/calc/record"
)

// Readings that come one step after another within an hour, all channels of
// them, need none of the care that Add takes. Run and Ran take them together:
// what comes out is the same.

// Run says what rows may follow without a word: the first has the stamp next, by
// a clock of the offset in seconds, and each other one is a step later (earlier,
// if step is below zero). room is where the reader puts their figures, all
// channels of a row together; it is empty if the next row must be added by
// itself. The reader tells Ran how many there were, before it calls anything
// else.
func (s *Series) Run() (next int64, offset int, step int64, room []int64) {
	n := s.runLength()
	if n <= 0 {
		return 0, 0, 0, nil
	}
	if s.run == nil {
		s.run = make([]int64, max(maxRun, len(s.tracks)))
	}
	room = s.run[:min(n, len(s.run)/len(s.tracks))*len(s.tracks)]
	return s.wall + s.dir*s.step, int(s.off / 1000), s.dir * s.step, room
}

// maxRun is how many figures a run has at most, and maxHours how many hours.
const (
	maxRun   = 3600
	maxHours = 25
)

// runLength says how many rows may follow.
func (s *Series) runLength() int {
	if !s.begun || s.step == 0 || s.pairs.rows != nil || !s.inReach(s.wall+s.dir*s.step) {
		return 0
	}
	n, checked := int64(maxRun), int64(-ever)
	for i := range s.tracks {
		t := &s.tracks[i]
		a := s.runFrom(t)
		g := &t.gaps[t.cur]
		if !t.begun || t.tau != s.tau || t.held != t.cur || g.from != a {
			return 0
		}
		if g.to < ever { // late readings: the last of them needs care, and each one of a register
			if t.quantity == Register {
				return 0
			}
			n = min(n, (g.to-a)/s.step-1)
		}
		if checked != a {
			n, checked = min(n, s.evenSteps(a)), a
		}
	}
	return int(n)
}

// runFrom gives the time at which the interval of the next row begins.
func (s *Series) runFrom(t *track) int64 {
	if t.quantity != Register && !s.ends {
		return s.tau + s.step
	}
	return s.tau
}

// evenSteps says how many steps from a time on are each within an hour, before
// the clock is changed or is another than that of the row before.
func (s *Series) evenSteps(a int64) int64 {
	h := s.hourAt(s.trueAt(a))
	if h.off != s.off {
		return 0
	}
	left := h.to - s.dir*a
	if s.dir < 0 {
		left = -a - h.from
	}
	n := left / s.step
	if left%s.step != 0 || record.Whole%s.step != 0 {
		return n
	}
	_, from, to, _ := s.segment(s.trueAt(a))
	span := to - s.dir*a
	if s.dir < 0 {
		span = -a - from
	}
	return min(n+(maxHours-1)*(record.Whole/s.step), span/s.step)
}

// trueAt gives the time that is not turned of what begins at one.
func (s *Series) trueAt(a int64) int64 {
	if s.dir < 0 {
		return -a - 1
	}
	return a
}

// Ran adds the first n rows of the room that Run gave. line is that of the first
// of them; each has a line of its own.
func (s *Series) Ran(n, line int) {
	if n == 0 {
		return
	}
	width := len(s.tracks)
	for i := range s.tracks {
		if !s.plain(i, n) {
			s.oneByOne(n, line)
			return
		}
	}
	covers := int64(n) * s.step
	for i := range s.tracks {
		t := &s.tracks[i]
		s.addHours(i, n)
		t.gaps[t.cur].from += covers
		t.tau += covers
		t.began = s.runFrom(t) + covers - s.step
		t.figure, t.length, t.marks = s.run[(n-1)*width+i], s.step, 0
		if t.quantity == Register {
			t.gaps[t.cur].before, t.length, t.fell = t.figure, 0, 0
		}
	}
	s.runPrints(n)
	s.tau += covers
	s.wall += s.dir * covers
	s.rows += n * width
	s.last = line + n - 1
}

// addHours adds a run of one track, hour by hour.
func (s *Series) addHours(track, n int) {
	t, width := &s.tracks[track], len(s.tracks)
	a, before := s.runFrom(t), t.figure
	for k := 0; k < n; {
		ref := s.hourAt(s.trueAt(a))
		left := ref.to - s.dir*a
		if s.dir < 0 {
			left = -a - ref.from
		}
		m := min(n-k, int(left/s.step))
		h := s.hourOf(track)
		h.covered += int32(int64(m) * s.step)
		run := s.run[k*width+track : (k+m-1)*width+track+1]
		switch {
		case t.quantity == Register:
			last := run[len(run)-1]
			h.energy += s.dir * (last - before)
			before = last
		case t.quantity == Power:
			s.addPower(h, addUp(run, width), s.step)
		default:
			h.energy += addUp(run, width)
		}
		k += m
		a += int64(m) * s.step
	}
}

// plain says whether the rows of a run are as they should be for one track.
func (s *Series) plain(track, n int) bool {
	t, width := &s.tracks[track], len(s.tracks)
	run := s.run[track : (n-1)*width+track+1]
	most := min(int64(maxRate)/record.Whole*min(s.step, record.Whole), 1<<62/int64(n))
	ones := uint64(1)<<(bits.Len64(uint64(most))-1) - 1 // no figure may have another bit
	if t.quantity == Register {
		return s.plainRegister(t, run, ones)
	}
	return allBits(run, width) <= ones
}

// allBits gives the bits that any of some figures has, every width-th of run. It
// takes four at a time, as addUp does, since it is the branches that cost.
func allBits(run []int64, width int) (all uint64) {
	if width == 1 {
		for len(run) >= 4 {
			all |= uint64(run[0] | run[1] | run[2] | run[3])
			run = run[4:]
		}
	}
	for k := 0; k < len(run); k += width {
		all |= uint64(run[k])
	}
	return all
}

// addUp gives the sum of every width-th figure of run.
func addUp(run []int64, width int) (sum int64) {
	if width == 1 {
		for len(run) >= 4 {
			sum += run[0] + run[1] + run[2] + run[3]
			run = run[4:]
		}
	}
	for k := 0; k < len(run); k += width {
		sum += run[k]
	}
	return sum
}

// plainRegister is plain for a register.
func (s *Series) plainRegister(t *track, run []int64, ones uint64) bool {
	before, largest, all, dir := t.figure, int64(0), uint64(0), s.dir
	for k := 0; k < len(run); k += len(s.tracks) {
		d := dir * (run[k] - before)
		all |= uint64(d)
		largest = max(largest, d)
		before = run[k]
	}
	if all > ones || min(before, run[0]) < 0 || max(before, run[0]) > 1<<62 {
		return false
	}
	t.fastest(largest, s.step)
	return true
}

// oneByOne adds the rows of a run that need care.
func (s *Series) oneByOne(n, line int) {
	width := len(s.tracks)
	r := Row{Wall: s.wall, Offset: int(s.off / 1000), Have: s.all}
	rows := append([]int64(nil), s.run[:n*width]...)
	for k := range n {
		r.Wall += s.dir * s.step
		r.Line, r.Figures = line+k, rows[k*width:(k+1)*width]
		s.add(&r)
	}
}

// runPrints notes the readings of a run.
func (s *Series) runPrints(n int) {
	cell := s.cell()
	cells := int((dayLength + cell - 1) / cell)
	by := s.dir * s.step
	wall := s.wall
	for k := 0; k < n; {
		d, rest := s.stampDay(wall + by)
		m := int64(n - k) // as many as are of the same day
		if by > 0 {
			m = min(m, (dayLength-1-rest)/by+1)
		} else {
			m = min(m, rest/-by+1)
		}
		d.rows += int(m) * len(s.tracks)
		if s.makePrints(d, cells); d.prints != nil {
			s.dayPrints(d, cells, k, int(m), rest, by)
		}
		k += int(m)
		wall += m * by
	}
}

// dayPrints notes m readings of a run, from the one numbered k on, which are of
// one day and come by apart.
func (s *Series) dayPrints(d *day, cells, k, m int, rest, by int64) {
	width := len(s.tracks)
	cell := s.cell()
	if width == 1 && by == cell {
		add32(d.prints[rest/cell:], s.run[k:k+m])
		return
	}
	at := int(rest / cell)
	left := rest % cell
	for range m {
		for i := range width {
			d.prints[i*cells+at] += fingerprint(s.run[k*width+i])
		}
		k++
		for left += by; left >= cell; left -= cell {
			at++
		}
		for ; left < 0; left += cell {
			at--
		}
	}
}

// add32 adds the low halves of figures, four at a time.
func add32(to []uint32, run []int64) {
	to = to[:len(run)]
	for len(run) >= 4 && len(to) >= 4 {
		to[0] += uint32(run[0])
		to[1] += uint32(run[1])
		to[2] += uint32(run[2])
		to[3] += uint32(run[3])
		to, run = to[4:], run[4:]
	}
	for i, f := range run {
		to[i] += uint32(f)
	}
}
