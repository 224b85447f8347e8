package onset

import (
	"math"
	"slices"
)

const (
	lead      = 5  // hops of a sound's picture before the onset
	tail      = 15 // and from it on
	frame     = lead + tail
	reach     = 4   // hops by which it may be moved
	learnMost = 300 // sounds of a kind that are learned from
)

// picture reads how a sound looks, a little more on both sides.
func (s *search) picture(in *input, dst []uint8, hop, extra int) []uint8 {
	n := frame + 2*extra
	dst = dst[:n*len(s.bands)]
	for b := range s.bands {
		s.above(in, dst[b*n:(b+1)*n], b, hop-lead-extra)
	}
	return dst
}

// moments add up pictures.
type moments struct {
	n       float32
	sum, sq []float32
}

func (m *moments) add(picture []uint8) {
	if m.sum == nil {
		m.sum, m.sq = make([]float32, len(picture)), make([]float32, len(picture))
	}
	m.n++
	for i, v := range picture {
		x := float32(v)
		m.sum[i] += x
		m.sq[i] += x * x
	}
}

// meanAndVariance of one cell. The variance is drawn to a prior one where there
// are few sounds, and the mean as if some were at the floor.
func (m *moments) meanAndVariance(i int, floor float32) (mean, variance float32) {
	const prior, weight = 14 * 14, 3 // (5 dB)²
	n := m.n + floor
	if m.n == 0 {
		return 0, prior
	}
	mean = m.sum[i] / n
	variance = max(0, m.sq[i]/n-mean*mean)
	return mean, (variance*n+prior*weight)/(n+weight) + 16
}

// closeness is how near, in hops, pulses come to each other, mostly.
func (s *search) closeness() int {
	var apart []float64
	for k := 1; k < len(s.set); k += 1 + len(s.set)/enough {
		apart = append(apart, float64(s.cands[s.set[k]].hop-s.cands[s.set[k-1]].hop))
	}
	if len(apart) < 2 {
		return 1 << 20
	}
	slices.Sort(apart)
	return int(apart[len(apart)/4])
}

// align moves the pulses that are learned from to where they coincide with the
// picture so far.
func (s *search) align(in *input) bool {
	buffer := make([]uint8, (frame+2*reach)*len(s.bands))
	by := max(1, len(s.set)/learnMost)
	for range 40 {
		if s.hop >= len(s.set) {
			s.center(by)
			return true
		}
		c := &s.cands[s.set[s.hop]]
		s.fit(c, s.picture(in, buffer, int(c.hop), reach))
		s.hop += by
	}
	return false
}

// center takes back what all pulses that are learned from were moved alike, or
// their picture would wander from the onset.
func (s *search) center(by int) {
	var shifts []float64
	for k := 0; k < len(s.set); k += by {
		shifts = append(shifts, float64(s.cands[s.set[k]].shift))
	}
	common := float32(median(shifts))
	for k := 0; k < len(s.set); k += by {
		s.cands[s.set[k]].shift -= common
	}
}

// learn learns from the set that keeps a pace, and from the rest.
func (s *search) learn(in *input) bool {
	var pulses, others moments
	buffer := make([]uint8, frame*len(s.bands))
	s.eachOfSet(in, buffer, pulses.add)
	k := 0
	for i := 0; i < len(s.cands); i += max(1, len(s.cands)/learnMost) {
		for k < len(s.set) && int(s.set[k]) < i {
			k++
		}
		if k == len(s.set) || int(s.set[k]) != i {
			others.add(s.picture(in, buffer, int(s.cands[i].hop), 0))
		}
	}
	s.model = &model{cells: make([]cell, len(buffer))}
	s.model.limit(s.closeness(), in.store.parts[0].seconds)
	top := float32(0)
	for i := range buffer {
		m1, v1 := pulses.meanAndVariance(i, 0)
		m0, v0 := others.meanAndVariance(i, 5)
		s.model.cells[i] = cell{
			pulse: m1, other: m0, narrow: 0.5 / v1, wide: 0.5 / v0,
			offset: 0.5 * float32(math.Log(float64(v0/v1))),
		}
		top = max(top, m1)
	}
	for i := range s.model.cells {
		c := &s.model.cells[i]
		c.strong = c.pulse > top/2 && i%frame >= lead && i%frame < s.model.to
		if c.strong {
			s.model.strong = append(s.model.strong, strong{band: i / frame, hop: i % frame, pulse: c.pulse})
		}
	}
	s.model.stands = s.rising()
	var n, sum float32
	s.eachOfSet(in, buffer, func(p []uint8) {
		g := s.model.gain(p, frame, 0)
		n++
		sum += g * g
	})
	s.model.louder = float32(math.Sqrt(float64((sum + 3*100) / (n + 3))))
	return true
}

// rising is how much the pulses rise, as a logarithm.
func (s *search) rising() [2]float32 {
	var n, sum, sq float64
	for _, i := range s.set {
		v := math.Log(float64(s.cands[i].all))
		n++
		sum += v
		sq += v * v
	}
	if n == 0 {
		return [2]float32{}
	}
	mean := sum / n
	return [2]float32{float32(mean), float32(0.5 / (max(0, sq/n-mean*mean) + 0.1))}
}

// eachOfSet hands out the pictures of pulses of the set, or of some if there
// are many.
func (s *search) eachOfSet(in *input, buffer []uint8, f func([]uint8)) {
	for k := 0; k < len(s.set); k += max(1, len(s.set)/learnMost) {
		c := s.cands[s.set[k]]
		f(s.picture(in, buffer, int(c.hop)+int(math.Round(float64(c.shift))), 0))
	}
}
