package onset

import "slices"

// chooseKind tries the levels of standing out in all bands together, and then in
// each octave alone: where somebody speaks, clicks stand out in the high ones.
func (s *search) chooseKind(in *input) bool {
	if s.sweep.levels == nil {
		s.standBy(s.kind)
		s.rank(in)
	}
	if !s.choose(in) {
		return false
	}
	s.kinds[s.kind] = s.sweep
	s.sweep = sweep{}
	s.kind++
	if s.kind < len(s.kinds) && !s.plain() {
		return false
	}
	best := 0
	for k := range s.kind {
		// One octave must do clearly better than all, or the next.
		if s.kinds[k].best > 4+1.3*max(0, s.kinds[best].best) {
			best = k
		}
	}
	s.kind = best
	s.standBy(best)
	s.sweep = s.kinds[best]
	s.choose(in)
	return true
}

// plain says that the first way of standing out is good enough: the pulses stand
// well apart, and keep a pace.
func (s *search) plain() bool {
	w := s.kinds[0]
	return w.pace > 20 && w.pace > 1.5*float64(w.counted) && w.apart > 0.35
}

// leastAlone is how little a pulse can rise in the one octave that it is told by,
// in eighths of the scale: a hum's beats rise less.
const leastAlone = 24

// standBy lets candidates stand out in all bands, in one octave, or by loudness.
func (s *search) standBy(kind int) {
	for i := range s.cands {
		c := &s.cands[i]
		c.stand = c.all
		switch {
		case kind > octaves:
			c.stand = c.loud
		case kind > 0:
			c.stand = float32(c.rises[kind-1])
			if c.stand < leastAlone {
				c.stand = suppressed
			}
		}
	}
}

// measureGap compares the least of the pulses with the best of the rest.
func (s *search) measureGap(*input) bool {
	var rest []float64
	for i := 0; i < len(s.cands); i += 1 + len(s.cands)/enough {
		if c := s.cands[i]; c.stand < s.sweep.level {
			rest = append(rest, float64(c.stand))
		}
	}
	// Some of the rest may be as loud, but not as many as the pulses themselves.
	slices.Sort(rest)
	best := 1.0
	if n := len(rest); n > 0 {
		best = max(1, rest[n-1-min(n/50, len(s.set)/4)])
	}
	s.gap = float64(s.sweep.level) / best
	return true
}

// enough is how many of many are looked at to know how they are spread.
const enough = 4000
