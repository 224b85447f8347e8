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

// maxRun is how many figures a run has at most.
const maxRun = 3600

// runLength says how many rows may follow, and makes s.now the hour they are of.
func (s *Series) runLength() int {
	if !s.begun || s.step == 0 || s.pairs.rows != nil || !s.inReach(s.wall+s.dir*s.step) {
		return 0
	}
	n, from := int64(maxRun), int64(-ever)
	for i := range s.tracks {
		t := &s.tracks[i]
		a := s.tau // where the interval of the next row begins
		if t.quantity != Register && !s.ends {
			a += s.step
		}
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
		if from == a {
			continue
		}
		n = min(n, s.untilHour(a, from))
		from = a
	}
	return int(n)
}

// untilHour says how many steps from a time on are of one hour, which must be
// that of the time other too, unless that is ever ago.
func (s *Series) untilHour(a, other int64) int64 {
	u := a
	if s.dir < 0 {
		u = -a - 1
	}
	if other > -ever {
		if before := s.now; u < before.from || u >= before.to {
			return 0
		}
	}
	h := s.hourAt(u)
	if h.off != s.off {
		return 0
	}
	if s.dir < 0 {
		return (u + 1 - h.from) / s.step
	}
	return (h.to - u) / s.step
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
		h := s.hourOf(i)
		h.covered += int32(covers)
		switch t.quantity {
		case Power:
			s.addPower(h, t.sum, s.step)
		default:
			h.energy += t.sum
		}
		g := &t.gaps[t.cur]
		g.from += covers
		t.tau += covers
		t.figure, t.length, t.marks = s.run[(n-1)*width+i], s.step, 0
		if t.quantity == Register {
			g.before, t.length, t.fell = t.figure, 0, 0
		}
	}
	s.runPrints(n)
	s.tau += covers
	s.wall += s.dir * covers
	s.rows += n * width
	s.last = max(s.last, line+n-1)
}

// plain says whether the rows of a run are as they should be for one track, and
// leaves what they come to in its sum.
func (s *Series) plain(track, n int) bool {
	t, width := &s.tracks[track], len(s.tracks)
	run := s.run[track : (n-1)*width+track+1]
	sum, most := int64(0), uint64(min(int64(maxRate)/record.Whole*min(s.step, record.Whole), 1<<62/int64(n)))
	if t.quantity == Register {
		before, largest := t.figure, int64(0)
		for k := 0; k < len(run); k += width {
			d := s.dir * (run[k] - before)
			if uint64(d) > most || uint64(run[k]) > 1<<62 {
				return false
			}
			largest = max(largest, d)
			before = run[k]
		}
		t.fastest(largest, s.step)
		t.sum = s.dir * (before - t.figure)
		return true
	}
	for k := 0; k < len(run); k += width {
		if uint64(run[k]) > most {
			return false
		}
		sum += run[k]
	}
	t.sum = sum
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
	width := len(s.tracks)
	cell := s.cell()
	cells := int((dayLength + cell - 1) / cell)
	wall := s.wall
	for k := 0; k < n; {
		wall += s.dir * s.step
		d, rest := s.stampDay(wall)
		s.makePrints(d, cells)
		for ; k < n && rest >= 0 && rest < dayLength; k++ {
			d.rows += width
			if d.prints != nil {
				at := int(rest / cell)
				for i := range width {
					d.prints[i*cells+at] += fingerprint(s.run[k*width+i])
				}
			}
			rest += s.dir * s.step
			wall += s.dir * s.step
		}
		wall -= s.dir * s.step
	}
}
