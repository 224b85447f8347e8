package onset

import "math"

// score weighs candidates by their likeness to the pulses, each moved to where
// it is most like them.
func (s *search) score(in *input) bool {
	buffer := make([]uint8, (frame+2*reach)*len(s.bands))
	for range 40 {
		if s.hop >= len(s.cands) {
			s.suppress(in)
			return true
		}
		s.fit(&s.cands[s.hop], s.picture(in, buffer, int(s.cands[s.hop].hop), reach))
		s.hop++
	}
	return false
}

// hopeless is how little a candidate rises that is not worth moving: it is weighed
// where it stands.
const hopeless = -12

// fit moves one candidate to where it coincides best with the pulses' picture,
// and weighs it there.
func (s *search) fit(c *candidate, picture []uint8) {
	m := s.model
	const stride = frame + 2*reach
	flat := m.flat(c.all)
	if flat < hopeless {
		c.stand, c.shift = m.likeness(picture, stride, reach)+flat, 0
		return
	}
	var v [2*reach + 1]float32
	low, high := reach-m.reach, reach+m.reach
	best := low
	for k := low; k <= high; k++ {
		far := float32(k-reach) / 2
		v[k] = m.fits(picture, stride, k) - 0.5*far*far
		if v[k] > v[best] {
			best = k
		}
	}
	c.stand, c.shift = m.likeness(picture, stride, best)+flat, float32(best-reach)
	if best > low && best < high {
		a, b, d := v[best-1], v[best], v[best+1]
		if bend := a - 2*b + d; bend < 0 {
			c.shift += 0.5 * (a - d) / bend
		}
	}
}

// closest is how near two pulses can be, in seconds; of two sounds that are
// nearer, the one that is more like the pulses stays.
const closest = 0.033

// suppressed is how a candidate stands that is part of another.
const suppressed = -1e4

func (s *search) suppress(in *input) {
	last := -1
	for i := range s.cands {
		c := &s.cands[i]
		if last >= 0 && math.Abs(s.moment(in, *c)-s.moment(in, s.cands[last])) < closest {
			if c.stand <= s.cands[last].stand {
				c.stand = suppressed
				continue
			}
			s.cands[last].stand = suppressed
		}
		last = i
	}
}
