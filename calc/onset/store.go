package onset

import "math"

const (
	blockHops = 1 << 14 // hops of a block
	hopMask   = blockHops - 1
)

// store keeps the loudness of each hop: a plane for each band of each channel,
// and one for the loudest sample. It grows in blocks, so that nothing is copied.
type store struct {
	planes int
	blocks [][]uint8
	parts  []part
	hops   int
}

// part is a stretch of hops of one length.
type part struct {
	first   int     // hop
	begins  float64 // seconds
	seconds float64 // of a hop
}

// put sets one value.
func (s *store) put(plane, hop int, v uint8) {
	b := hop / blockHops
	for b >= len(s.blocks) {
		s.blocks = append(s.blocks, make([]uint8, s.planes*blockHops))
	}
	s.blocks[b][plane*blockHops+hop&hopMask] = v
}

// at gives one value; silence outside the recording.
func (s *store) at(plane, hop int) uint8 {
	b := hop / blockHops
	if hop < 0 || b >= len(s.blocks) {
		return 0
	}
	return s.blocks[b][plane*blockHops+hop&hopMask]
}

// read copies values of a plane from a hop onwards into dst.
func (s *store) read(dst []uint8, plane, hop int) {
	for len(dst) > 0 && hop < 0 {
		dst[0], dst, hop = 0, dst[1:], hop+1
	}
	for len(dst) > 0 {
		b := hop / blockHops
		if b >= len(s.blocks) {
			clear(dst)
			return
		}
		n := copy(dst, s.blocks[b][plane*blockHops+hop&hopMask:(plane+1)*blockHops])
		dst, hop = dst[n:], hop+n
	}
}

// partOf gives the part that a hop is of.
func (s *store) partOf(hop int) part {
	for k := len(s.parts) - 1; k > 0; k-- {
		if hop >= s.parts[k].first {
			return s.parts[k]
		}
	}
	return s.parts[0]
}

// seconds is the time at which a hop begins; it may have a fraction.
func (s *store) seconds(hop float64) float64 {
	p := s.partOf(int(math.Floor(hop)))
	return p.begins + (hop-float64(p.first))*p.seconds
}
