package onset

import "math"

// Where the load steps often, pulses keep no pace for long. What stands far
// above all else, several times, is taken for pulses all the same if intervals
// come twice in turn, as those of steps, of music and of speech seldom do.
const (
	alone = 6   // so many at least
	wide  = 0.6 // standing above all else by so much of how far they stand
	few   = 3   // and so few are no pulses, unless they keep a pace
)

// isAlone says whether the candidates that reach a level are pulses, though they
// may keep no pace; apart is by how much they stand above all else.
func (s *search) isAlone(in *input, level float32, counted int, apart float64) bool {
	if counted < alone || apart < wide {
		return false
	}
	times, _ := s.window(in, 0, len(s.cands), windowMost, level)
	return twice(principal(times))
}

// twice says whether, of the intervals, three in ten are as long as the one before.
func twice(times []float64) bool {
	n := 0
	for i := 2; i < len(times); i++ {
		a, b := times[i-1]-times[i-2], times[i]-times[i-1]
		if math.Abs(a-b) < 0.002+0.015*a {
			n++
		}
	}
	return len(times) >= alone && 10*n >= 3*(len(times)-2)
}
