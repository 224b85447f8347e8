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
type level struct {
	at, apart float32
	times     float32 // how many times what is above stands out more than what is below
}

const (
	bins       = 4096
	windowMost = 80 // candidates of a window that is tried for its pace
	windows    = 3
)

// rank sets the levels to try: for each quarter more of candidates, that where
// the gap is widest.
func (s *search) rank(*input) bool {
	s.sweep = sweep{best: math.Inf(-1), levels: []level{}}
	if len(s.cands) == 0 {
		return true
	}
	counts, high, step := s.histogram()
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
			gap.times = (high - step*float32(k)) / (high - step*float32(end))
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
	s.sweep.levels = append(s.sweep.levels, level{at: high - step*(bins+1), apart: 1, times: s.lowest() / leastRise})
	return true
}

// lowest is how little one rises that rises enough.
func (s *search) lowest() float32 {
	low := float32(math.Inf(1))
	for _, c := range s.cands {
		if c.stand > suppressed && c.all >= leastRise {
			low = min(low, c.all)
		}
	}
	return low
}

// histogram counts how candidates stand, from the highest downwards.
func (s *search) histogram() (counts *[bins + 1]int32, high, step float32) {
	low := float32(math.Inf(1))
	high = float32(math.Inf(-1))
	for _, c := range s.cands {
		if c.stand > suppressed && c.all >= leastRise {
			low, high = min(low, c.stand), max(high, c.stand)
		}
	}
	switch {
	case high < low:
		low, high = 0, 1
	case high == low:
		high = low + 1
	}
	counts = new([bins + 1]int32)
	for _, c := range s.cands {
		if c.stand > suppressed && c.all >= leastRise {
			counts[int((high-c.stand)/(high-low)*bins)]++
		}
	}
	return counts, high, (high - low) / bins
}

// leastRise is how little a pulse can rise, in the scales of the bands: what hums
// rises as regularly, but less.
const leastRise = 3.3

// reaches says whether a candidate is one of those that reach a level.
func (c *candidate) reaches(level float32) bool { return c.stand >= level && c.all >= leastRise }

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
		if s.model == nil {
			apart = 1 - 1/float64(l.times)
		}
		if s.isAlone(in, l.at, counted, apart) {
			v = max(v, 6+max(pace, -3)+6*apart*apart)
		}
		if counted <= few && pace <= 0 {
			v -= 10
		}
		if pace != 0 && v > w.best && !s.lowly(l.at) {
			w.best, w.pace, w.level, w.apart, w.counted = v, pace, l.at, float64(l.apart), counted
		}
	}
	return false
}

// lowly says that most candidates that reach a level rise little, and some much
// more: the few are the pulses, and the many are what hums below them.
func (s *search) lowly(level float32) bool {
	const little, more = 6, 4
	var rises []float64
	for i := 0; i < len(s.cands); i += 1 + len(s.cands)/(2*enough) {
		if c := &s.cands[i]; c.reaches(level) {
			rises = append(rises, float64(c.all))
		}
	}
	most, above := median(rises), 0
	for _, v := range rises {
		if v > more*most {
			above++
		}
	}
	return most < little && above >= few
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

// window gives the times of at most so many of the candidates that reach a level,
// and the index after the last looked at.
func (s *search) window(in *input, from, to, most int, level float32) ([]float64, int) {
	var times []float64
	for i := from; i < to; i++ {
		if s.cands[i].reaches(level) {
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
		if s.cands[i].reaches(level) {
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
