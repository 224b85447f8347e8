package onset

import (
	"math"
	"slices"
)

const (
	ahead  = 2    // hops after the onset that are compared
	behind = 6    // with these before it
	chunk  = 2048 // hops of one turn
)

// scales say how much each band rises by chance.
type scales struct {
	counts [][256]int32
	one    []float32 // for each band: 1 over the scale
}

// rises calls f for each hop from s.hop on with the bands' rises: how far the
// hop and the next stand above those before, in steps of loudness.
func (s *search) rises(in *input, hops int, f func(b int, rise []float32)) {
	var raw [chunk + ahead + behind]uint8
	var rise [chunk]float32
	for b := range s.bands {
		if !s.bands[b].used {
			continue
		}
		x := raw[:hops+ahead+behind]
		s.above(in, x, b, s.hop-behind)
		before, after := 0, 0
		for _, v := range x[:behind] {
			before += int(v)
		}
		for _, v := range x[behind : behind+ahead] {
			after += int(v)
		}
		for i := range hops {
			rise[i] = float32(after)/ahead - float32(before)/behind
			before += int(x[i+behind]) - int(x[i])
			after += int(x[i+behind+ahead]) - int(x[i+behind])
		}
		f(b, rise[:hops])
	}
}

// measureRises finds the scale of each band's rises, from a part of them.
func (s *search) measureRises(in *input) bool {
	if s.scales.counts == nil {
		s.scales.counts = make([][256]int32, len(s.bands))
	}
	stride := max(1, in.store.hops/chunk/128) * chunk
	hops := min(chunk, in.store.hops-s.hop)
	if hops > 0 {
		s.rises(in, hops, func(b int, rise []float32) {
			for _, r := range rise {
				s.scales.counts[b][min(255, int(math.Abs(float64(r))))]++
			}
		})
		s.hop += stride
		return false
	}
	for b := range s.bands {
		all, sum, q := int32(0), int32(0), 0
		for _, c := range s.scales.counts[b] {
			all += c
		}
		for sum < all*7/10 {
			sum += s.scales.counts[b][q]
			q++
		}
		s.scales.one = append(s.scales.one, 1/float32(max(q, 6)))
	}
	s.scales.counts = nil
	return true
}

// findRises lists the hops at which bands rise together, none nearer to a higher
// one than some 25 ms.
func (s *search) findRises(in *input) bool {
	hops := min(chunk, in.store.hops-s.hop)
	if hops <= 0 {
		return true
	}
	var sum [chunk]float32
	var each [octaves][chunk]uint8
	s.rises(in, hops, func(b int, rise []float32) {
		one, octave := s.scales.one[b], &each[b%octaves]
		for i, r := range rise {
			if v := r*one - 0.5; v > 0 {
				sum[i] += v
				octave[i] = max(octave[i], uint8(min(8*v, 255)))
			}
		}
	})
	p := in.store.partOf(s.hop)
	apart := int32(math.Round(0.024 / p.seconds))
	for i, v := range sum[:hops] {
		if v < 1 {
			continue
		}
		c := candidate{hop: int32(s.hop + i), all: v}
		for o := range each {
			c.rises[o] = each[o][i]
		}
		if n := len(s.cands); n > 0 && c.hop-s.cands[n-1].hop <= apart {
			if v > s.cands[n-1].all {
				s.cands[n-1] = c
			}
			continue
		}
		s.cands = append(s.cands, c)
	}
	s.hop += hops
	return false
}

// measure finds how far candidates surpass what their bands seldom do, since a
// tap may rise no more than a word after a pause, but higher; and moves each to
// where it rises most.
func (s *search) measure(in *input) bool {
	if s.powers == nil {
		s.powers = new([256]float32)
		for i := range s.powers {
			s.powers[i] = float32(math.Exp2(float64(i) / 16))
		}
	}
	for range 400 {
		if s.hop >= len(s.cands) {
			s.merge(in)
			return true
		}
		c := &s.cands[s.hop]
		s.hop++
		c.loud = s.surpasses(in, int(c.hop))
		c.hop += s.steepest(in, int(c.hop))
	}
	return false
}

// What rises so much less than something just before it is still the same sound.
const (
	sameSound = 0.09 // seconds
	muchLess  = 6
)

// merge takes candidates that were moved to one place for one, and drops what
// flutters within a sound.
func (s *search) merge(in *input) {
	kept := s.cands[:0]
	var strong candidate
	for _, c := range s.cands {
		if c.all*muchLess < strong.all && s.moment(in, c)-s.moment(in, strong) < sameSound {
			continue
		}
		if c.all*muchLess >= strong.all || s.moment(in, c)-s.moment(in, strong) > sameSound {
			strong = c
		}
		if n := len(kept); n > 0 && math.Abs(s.moment(in, c)-s.moment(in, kept[n-1])) < 0.02 {
			if c.all > kept[n-1].all {
				kept[n-1] = c
			}
			continue
		}
		kept = append(kept, c)
	}
	s.cands = kept
}

// surpasses adds up over the bands how far they surpass what they seldom do.
func (s *search) surpasses(in *input, hop int) float32 {
	sum := float32(0)
	for b := range s.bands {
		top := s.bands[b].tops[min(hop, in.store.hops-1)/floorHops]
		loudest := uint8(0)
		for k := range 4 {
			loudest = max(loudest, in.store.at(b, hop+k))
		}
		if loudest > top {
			sum += float32(loudest-top) / 16
		}
	}
	return sum
}

// steepest gives the hops from one to where the amplitude first rises about as much as it does at most, each band
// in units of its floor. The rise of the loudness in decibels, by which
// candidates are found, may begin with what coding puts before a sound.
func (s *search) steepest(in *input, hop int) int32 {
	const from, to = -2, 16
	var flux [to - from]float32
	var x [to - from + 1]uint8
	for b := range s.bands {
		if !s.bands[b].used {
			continue
		}
		s.above(in, x[:], b, hop+from-1)
		for i := range flux {
			flux[i] += max(0, s.powers[x[i+1]]-s.powers[x[i]])
		}
	}
	far := min(to, int(0.03/in.store.partOf(hop).seconds))
	most := slices.Max(flux[:far-from])
	// The first that is about as steep: a tone flutters as it goes on.
	best := 0
	for flux[best] < 0.55*most {
		best++
	}
	if most == 0 {
		best = -from
	}
	return int32(best + from)
}
