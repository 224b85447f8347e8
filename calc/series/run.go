package series

import "splittally/calc/record"

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
			h.addPower(addUp(run, width), s.step)
		default:
			h.energy += addUp(run, width)
		}
		k += m
		a += int64(m) * s.step
	}
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
