package series

import "splittally/calc/record"

// quick adds a row that comes about a step after the one before, of all channels
// and within the same hour, as sampled readings do. It does what take does then,
// and is false, with nothing done, for any other row.
func (s *Series) quick(r *Row) bool {
	off := s.off
	if s.zoned {
		off = int64(r.Offset) * 1000
	}
	d := s.dir * (r.Wall - s.wall)
	if !s.begun || s.step == 0 || off != s.off || d <= 0 || d >= 2*s.step-s.near ||
		r.Have&s.all != s.all || r.Length > 0 && r.Length != s.step || r.Marks != 0 || s.pairs.rows != nil {
		return false
	}
	tau := s.tau + d
	from, to := s.now.from, s.now.to
	if s.dir < 0 {
		from, to = -to, -from
	}
	if s.now.off != off || s.tau-s.step < from || tau+s.step > to {
		return false
	}
	for i := range s.tracks {
		if !s.quickTrack(&s.tracks[i], tau, d, r.Figures[i]) {
			return false
		}
	}
	for i := range s.tracks {
		s.quickAdd(i, tau, r.Figures[i])
		s.print(i, r.Figures[i], r.Wall)
	}
	s.wall, s.tau, s.last = r.Wall, tau, r.Line
	s.rows += len(s.tracks)
	return true
}

// quickMost is the largest figure that is added quickly, in µWh or µW: well
// below maxRate, whatever the step.
const quickMost = 1 << 36

// quickTrack says whether a reading can be added quickly to a track.
func (s *Series) quickTrack(t *track, tau, d, figure int64) bool {
	g := &t.gaps[t.cur]
	if !t.begun || t.open || t.tau != s.tau || t.held != t.cur || g.to < ever || s.step < 1000 {
		return false
	}
	if t.quantity == Register {
		advance := s.dir * (figure - t.figure)
		return advance >= 0 && advance < quickMost && figure >= 0 && figure < 1<<62 && g.from == t.tau && !s.isGap(d)
	}
	if figure < 0 || figure >= quickMost {
		return false
	}
	even := tau // where its interval begins, if that is one step
	if s.ends {
		even -= s.step
	}
	if t.quantity == Energy {
		return even-g.from <= s.near && g.from-even <= s.near
	}
	return s.ends && g.from == t.tau || !s.ends && g.from == t.tau+t.length && t.length == s.step
}

// quickAdd adds a reading to a track.
func (s *Series) quickAdd(track int, tau, figure int64) {
	t, h := &s.tracks[track], s.hourOf(track)
	g := &t.gaps[t.cur]
	began, to, length := g.from, tau, s.step
	if t.quantity != Register && !s.ends {
		to += s.step
	}
	h.covered += int32(to - g.from)
	switch {
	case t.quantity == Register:
		advance := s.dir * (figure - t.figure)
		h.energy += advance
		if float64(advance)*record.Whole > 0.999*float64(t.rate)*float64(tau-g.from) {
			t.fastest(advance, tau-g.from)
		}
		g.before, began, length, t.fell = figure, t.began, 0, 0
	case t.quantity == Energy:
		h.energy += figure
	case s.ends:
		h.addPower(figure, tau-g.from)
	default: // the one before holds until now
		h.addPower(t.figure, tau-g.from)
		h.addPower(figure, s.step)
		began = tau
	}
	g.from = to
	t.tau, t.figure, t.length, t.began, t.marks, t.joined = tau, figure, length, began, 0, false
}
