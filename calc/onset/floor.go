package onset

import "slices"

const floorHops = 256 // hops of one value of a floor: some 0.6 s

// band is one plane's floor.
type band struct {
	floors []uint8
	used   bool // it is not silent throughout
}

// measureFloors takes a low quantile of each band in each stretch of hops.
func (s *search) measureFloors(in *input) bool {
	st := &in.store
	if s.bands == nil {
		s.bands = make([]band, st.planes-1)
		n := (st.hops + floorHops - 1) / floorHops
		for b := range s.bands {
			s.bands[b].floors = make([]uint8, n)
		}
	}
	var buffer [floorHops]uint8
	for range 40 {
		if s.hop >= st.hops {
			return true
		}
		n := min(floorHops, st.hops-s.hop)
		for b := range s.bands {
			st.read(buffer[:n], b, s.hop)
			q, top := quantile(buffer[:n], 0.25)
			s.bands[b].floors[s.hop/floorHops] = q
			s.bands[b].used = s.bands[b].used || top > 0
		}
		s.hop += floorHops
	}
	return false
}

// quantile gives a quantile of values and the largest.
func quantile(values []uint8, q float64) (uint8, uint8) {
	var counts [256]uint16
	top := uint8(0)
	for _, v := range values {
		counts[v]++
		top = max(top, v)
	}
	want := int(q * float64(len(values)))
	for v, c := range counts {
		if want -= int(c); want < 0 {
			return uint8(v), top
		}
	}
	return top, top
}

// smoothFloors takes the median over some seconds.
func (s *search) smoothFloors(in *input) bool {
	const reach = 3
	for b := range s.bands {
		f := s.bands[b].floors
		smooth := make([]uint8, len(f))
		var near []uint8
		for i := range f {
			near = append(near[:0], f[max(0, i-reach):min(len(f), i+reach+1)]...)
			slices.Sort(near)
			smooth[i] = near[len(near)/2]
		}
		s.bands[b].floors = smooth
	}
	return true
}

// above reads a band's loudness from a hop onwards, as it stands above the
// floor; hops outside the recording are at the floor.
func (s *search) above(in *input, dst []uint8, b, hop int) {
	in.store.read(dst, b, hop)
	f := s.bands[b].floors
	for i := range dst {
		at := hop + i
		if at < 0 || at >= in.store.hops {
			dst[i] = 0
			continue
		}
		if v := f[at/floorHops]; dst[i] > v {
			dst[i] -= v
		} else {
			dst[i] = 0
		}
	}
}
