package onset

import (
	"math"

	"splittally/calc/rhythm"
)

// sweep seeks the level of standing out from which candidates are pulses: that
// at which those above it keep a pace best.
type sweep struct {
	levels []float32 // to try, falling
	next   int
	best   float64
	level  float32
}

const (
	bins       = 4096
	windowMost = 120 // candidates of a window that is tried for its pace
	windows    = 3
)

// rank sets the levels to try: those that 3, 4, 5, 7 ... candidates reach.
func (s *search) rank(*input) bool {
	s.sweep = sweep{best: math.Inf(-1)}
	if len(s.cands) == 0 {
		return true
	}
	low, high := s.cands[0].stand, s.cands[0].stand
	for _, c := range s.cands {
		low, high = min(low, c.stand), max(high, c.stand)
	}
	if high <= low {
		high = low + 1
	}
	var counts [bins + 1]int32
	for _, c := range s.cands {
		counts[int((high-c.stand)/(high-low)*bins)]++
	}
	sum, want := 0, 2
	for k, c := range counts {
		sum += int(c)
		if c > 0 && sum >= want {
			s.sweep.levels = append(s.sweep.levels, high-(high-low)*float32(k+1)/bins)
			want = sum + max(1, sum/5)
		}
	}
	return true
}

// choose tries one level.
func (s *search) choose(in *input) bool {
	w := &s.sweep
	if w.next >= len(w.levels) {
		s.steady = w.best
		s.set = s.reaching(0, len(s.cands), w.level)
		return true
	}
	level := w.levels[w.next]
	w.next++
	sum, seconds, counted := 0.0, 0.0, 0
	for k := range windows {
		from := len(s.cands) * k / windows
		times, end := s.window(in, from, level)
		times = principal(times)
		if len(times) >= 2 {
			sum += rhythm.Steady(sureMarks(times), rhythm.Options{})
		}
		counted += len(times)
		seconds += s.time(in, end) - s.time(in, from)
		if k == 0 && end == len(s.cands) {
			break
		}
	}
	if counted >= 2 && seconds > 0 {
		// As if it were so throughout.
		all := in.store.seconds(float64(in.store.hops)) - in.store.parts[0].begins
		s.debug(level, sum*max(1, all/max(seconds, 1e-9)), counted)
		if v := sum * max(1, all/max(seconds, 1e-9)); sum != 0 && v > w.best {
			w.best, w.level = v, level
		}
	}
	return false
}

// measureGap compares the least of the pulses with the best of the rest.
func (s *search) measureGap(*input) bool {
	var rest []float64
	for _, c := range s.cands {
		if c.stand < s.sweep.level {
			rest = append(rest, float64(c.stand))
		}
	}
	s.gap = float64(s.sweep.level) / max(highest(rest, 1), 1)
	return true
}

// window gives the times of candidates that reach a level, from one onwards, and
// the index after the last looked at.
func (s *search) window(in *input, from int, level float32) ([]float64, int) {
	var times []float64
	for i := from; i < len(s.cands); i++ {
		if s.cands[i].stand >= level {
			if len(times) == windowMost {
				return times, i
			}
			times = append(times, s.moment(in, s.cands[i]))
		}
	}
	return times, len(s.cands)
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
		if d < 0.4 && (next || last) {
			short = append(short, d)
		}
	}
	if len(short) < 2 || len(short)*4 < len(times) {
		return 0, false
	}
	lag = median(short)
	near := 0
	for _, d := range short {
		if math.Abs(d-lag) <= 0.004+0.03*lag {
			near++
		}
	}
	return lag, near*3 >= len(short)*2 && near*4 >= len(times)
}
