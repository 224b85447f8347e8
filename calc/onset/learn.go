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

// model is how this recording's pulses sound, and what else rises: the mean and
// the scatter of how far each band stands above its floor, hop by hop.
type model struct {
	cells  []cell // frame of each band
	from   int    // hops of the frame that are looked at
	to     int
	reach  int        // hops by which a sound is moved to be most like
	stands [2]float32 // mean and 1/2σ² of the logarithm of how they rise
	louder float32    // scatter of the pulses' loudness as a whole
}

type cell struct {
	pulse, other         float32 // means
	narrow, wide, offset float32 // 1/2σ² of both and ln of their ratio
	strong               bool
}

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
	n        float32
	sum, sq  []float32
	loudness []float32
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
	for k := 1; k < len(s.set); k++ {
		apart = append(apart, float64(s.cands[s.set[k]].hop-s.cands[s.set[k-1]].hop))
	}
	if len(apart) < 2 {
		return 1 << 20
	}
	slices.Sort(apart)
	return int(apart[len(apart)/4])
}

// limit keeps the next pulse out of the picture of one, as far as it comes at
// a pace of so many hops.
func (m *model) limit(hops int) {
	m.from = lead - min(lead, max(2, hops/4))
	m.to = lead + min(tail, max(4, hops*6/10))
	m.reach = min(reach, max(2, hops/4))
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
	s.model.limit(s.closeness())
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

// flat is the log-likelihood of a candidate that rises less than the pulses do.
func (m *model) flat(all float32) float32 {
	d := m.stands[0] - float32(math.Log(float64(all)))
	if d < 0 {
		return 0
	}
	return max(-40, -d*d*m.stands[1])
}

// eachOfSet hands out the pictures of pulses of the set, or of some if there
// are many.
func (s *search) eachOfSet(in *input, buffer []uint8, f func([]uint8)) {
	for k := 0; k < len(s.set); k += max(1, len(s.set)/learnMost) {
		c := s.cands[s.set[k]]
		f(s.picture(in, buffer, int(c.hop)+int(math.Round(float64(c.shift))), 0))
	}
}

// gain is how much louder a picture is as a whole than the pulses are.
func (m *model) gain(picture []uint8, stride, shift int) float32 {
	gain, n := float32(0), 0
	for i := range m.cells {
		c := &m.cells[i]
		if c.strong {
			gain += float32(picture[i/frame*stride+i%frame+shift]) - c.pulse
			n++
		}
	}
	if n == 0 {
		return 0
	}
	return gain / float32(n)
}

// dear is the log-likelihood of a gain, and how much of it is made up for.
func (m *model) dear(gain float32) (cost, bounded float32) {
	z := gain / m.louder
	return max(-12, -0.5*z*z), max(-2*m.louder, min(2*m.louder, gain))
}

// likeness is the log of how much likelier a picture is a pulse's than anything
// else's. A pulse may be louder or softer than the others as a whole, and no
// cell of the picture says more than so much.
func (m *model) likeness(picture []uint8, stride, shift int) float32 {
	sum, gain := m.dear(m.gain(picture, stride, shift))
	for b := 0; b*frame < len(m.cells); b++ {
		row := picture[b*stride+shift:]
		for i := m.from; i < m.to; i++ {
			c := &m.cells[b*frame+i]
			x := float32(row[i])
			d0, d1 := x-c.other, x-c.pulse
			if c.strong {
				d1 -= gain
			}
			v := d0*d0*c.wide - d1*d1*c.narrow + c.offset
			switch {
			case i < lead-1: // loud before its onset, it is the rest of something
				v = max(-3*blunt, min(blunt, v))
			case i < lead+5:
				v = max(-blunt, min(blunt, v))
			default:
				v = max(-blunt, min(blunt, v)) / 2
			}
			sum += v
		}
	}
	return sum
}

// fits is how well a picture coincides with the pulses' own.
func (m *model) fits(picture []uint8, stride, shift int) float32 {
	sum, gain := m.dear(m.gain(picture, stride, shift))
	for b := 0; b*frame < len(m.cells); b++ {
		row := picture[b*stride+shift:]
		for i := m.from; i < m.to; i++ {
			c := &m.cells[b*frame+i]
			d := float32(row[i]) - c.pulse
			if c.strong {
				d -= gain
			}
			sum -= min(20, d*d*evenly)
		}
	}
	return sum
}

const (
	blunt  = 3         // what one cell may say of whether a sound is a pulse
	evenly = 0.5 / 144 // 1/2σ² of a cell, when a sound is laid over the pulses' picture
)

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

// fit moves one candidate to where it coincides best with the pulses' picture,
// and weighs it there.
func (s *search) fit(c *candidate, picture []uint8) {
	m := s.model
	const stride = frame + 2*reach
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
	c.stand, c.shift = m.likeness(picture, stride, best)+m.flat(c.all), float32(best-reach)
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

func median(values []float64) float64 {
	if len(values) == 0 {
		return 0
	}
	v := slices.Clone(values)
	slices.Sort(v)
	return v[len(v)/2]
}
