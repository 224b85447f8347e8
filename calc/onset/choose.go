package onset

import (
	"math"

	"splittally/calc/rhythm"
)

// sweep seeks the level of standing out from which candidates are pulses: that
// at which those above it keep a pace best, and stand apart from the rest.
type sweep struct {
	levels  []level
	next    int
	best    float64 // value of the best
	pace    float64 // what of that is by the pace
	level   float32
	apart   float64 // of that level
	counted int     // candidates that reached it, in the windows
}

// level is one to try: in the middle of a gap between candidates, which is so
// wide as a part of all from there up.
type level struct{ at, apart float32 }

const (
	bins       = 4096
	windowMost = 80 // candidates of a window that is tried for its pace
	windows    = 3
)

// rank sets the levels to try: for each quarter more of candidates, that where
// the gap is widest.
func (s *search) rank(*input) bool {
	s.sweep = sweep{best: math.Inf(-1)}
	if len(s.cands) == 0 {
		return true
	}
	low, high := float32(math.Inf(1)), float32(math.Inf(-1))
	for _, c := range s.cands {
		if c.stand > suppressed {
			low, high = min(low, c.stand), max(high, c.stand)
		}
	}
	if high <= low {
		high = low + 1
	}
	var counts [bins + 1]int32
	for _, c := range s.cands {
		if c.stand > suppressed {
			counts[int((high-c.stand)/(high-low)*bins)]++
		}
	}
	step := (high - low) / bins
	s.sweep.levels = []level{}
	sum, want := 0, 2
	var best level
	for k := 0; k <= bins; {
		sum += int(counts[k])
		end := k + 1
		for end <= bins && counts[end] == 0 {
			end++
		}
		if sum >= 2 && end <= bins {
			gap := level{at: high - step*float32(k+end+1)/2, apart: float32(end-k) / float32(end+1)}
			if best == (level{}) || gap.apart > best.apart {
				best = gap
			}
			if sum >= want {
				s.sweep.levels = append(s.sweep.levels, best)
				want, best = sum+max(1, sum/4), level{}
			}
		}
		k = end
	}
	// All of them, if there are no others.
	s.sweep.levels = append(s.sweep.levels, level{at: low - step, apart: 1})
	return true
}

// choose tries one level.
func (s *search) choose(in *input) bool {
	w := &s.sweep
	if w.next >= len(w.levels) {
		s.steady = w.pace
		s.set = s.reaching(0, len(s.cands), w.level)
		return true
	}
	l := w.levels[w.next]
	w.next++
	if pace, counted := s.pace(in, l.at); counted >= 2 {
		apart := float64(l.apart)
		v := pace + 6*apart*apart + 0.15*apart*max(0, pace)
		if pace != 0 && v > w.best {
			w.best, w.pace, w.level, w.apart, w.counted = v, pace, l.at, apart, counted
		}
	}
	return false
}

// pace says how well candidates that reach a level keep a pace. If there are
// many, that is found on some at the beginning of each third.
func (s *search) pace(in *input, level float32) (pace float64, counted int) {
	times, end := s.window(in, 0, len(s.cands), windowMost*windows, level)
	if end == len(s.cands) {
		times, pace = keepsPace(times)
		return pace, len(times)
	}
	seconds := 0.0
	for k := range windows {
		from, to := len(s.cands)*k/windows, len(s.cands)*(k+1)/windows
		times, end := s.window(in, from, to, windowMost, level)
		times, p := keepsPace(times)
		pace += p
		counted += len(times)
		seconds += s.time(in, end) - s.time(in, from)
	}
	// As if it were so throughout.
	all := s.time(in, len(s.cands)) - s.time(in, 0)
	return pace * max(1, all/max(seconds, 1e-9)), counted
}

// keepsPace leaves out companions, and says how well the others keep a pace.
func keepsPace(times []float64) ([]float64, float64) {
	kept := principal(times)
	if len(kept) < 2 {
		return kept, 0
	}
	return kept, rhythm.Steady(sureMarks(kept), rhythm.Options{}) - 0.7*float64(len(times)-len(kept))
}

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
		}
	}
}

// measureGap compares the least of the pulses with the best of the rest.
func (s *search) measureGap(*input) bool {
	var rest []float64
	for _, c := range s.cands {
		if c.stand < s.sweep.level {
			rest = append(rest, float64(c.stand))
		}
	}
	s.gap = float64(s.sweep.level) / max(highestOf(rest, 1), 1)
	return true
}

// window gives the times of at most so many of the candidates that reach a level,
// and the index after the last looked at.
func (s *search) window(in *input, from, to, most int, level float32) ([]float64, int) {
	var times []float64
	for i := from; i < to; i++ {
		if s.cands[i].stand >= level {
			if len(times) == most {
				return times, i
			}
			times = append(times, s.moment(in, s.cands[i]))
		}
	}
	return times, to
}

// time is when candidate i comes; the end of the recording after the last.
func (s *search) time(in *input, i int) float64 {
	if i >= len(s.cands) {
		return in.store.seconds(float64(in.store.hops))
	}
	return in.store.seconds(float64(s.cands[i].hop))
}

// moment is a candidate's time.
func (s *search) moment(in *input, c candidate) float64 {
	return in.store.seconds(float64(c.hop) + float64(c.shift) + 0.5)
}

// reaching lists the candidates that reach a level.
func (s *search) reaching(from, to int, level float32) []int32 {
	var list []int32
	for i := from; i < to; i++ {
		if s.cands[i].stand >= level {
			list = append(list, int32(i))
		}
	}
	return list
}

// sureMarks makes marks of times that are sure.
func sureMarks(times []float64) []rhythm.Mark {
	marks := make([]rhythm.Mark, len(times))
	for i, t := range times {
		marks[i] = rhythm.Mark{At: t, Sure: 0.99}
	}
	return marks
}

// principal leaves out the companions: sounds that follow at one and the same
// short distance on many pulses, such as the release after a press.
func principal(times []float64) []float64 {
	for range 3 {
		lag, ok := companion(times)
		if !ok {
			return times
		}
		kept := times[:1:1]
		for i := 1; i < len(times); i++ {
			if math.Abs(times[i]-kept[len(kept)-1]-lag) > 0.004+0.03*lag {
				kept = append(kept, times[i])
			}
		}
		times = kept
	}
	return times
}

// companion seeks the distance of a companion: of the intervals that are short
// beside a neighbour, most are alike, and there are many.
func companion(times []float64) (lag float64, ok bool) {
	var short []float64
	for i := 1; i < len(times); i++ {
		d := times[i] - times[i-1]
		next := i+1 < len(times) && d < 0.35*(times[i+1]-times[i])
		last := i+1 == len(times) && i >= 2 && d < 0.35*(times[i-1]-times[i-2])
		if d > closest && d < 0.4 && (next || last) {
			short = append(short, d)
		}
	}
	if len(short) < 2 || len(short)*5 < 2*len(times)-5 {
		return 0, false
	}
	lag = median(short)
	near := 0
	for _, d := range short {
		if math.Abs(d-lag) <= 0.004+0.03*lag {
			near++
		}
	}
	return lag, near*3 >= len(short)*2 && near*5 >= 2*len(times)-5
}
