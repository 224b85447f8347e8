package onset

import "slices"

const floorHops = 256 // hops of one value of a floor: some 0.6 s

// band is one plane's floor.
type band struct {
	floors []uint8
	tops   []uint8 // what it seldom surpasses
	used   bool    // it is not silent throughout
}

// measureFloors takes a low quantile of each band in each stretch of hops.
func (s *search) measureFloors(in *input) bool {
	st := &in.store
	if s.bands == nil {
		s.bands = make([]band, st.planes-1)
		n := (st.hops + floorHops - 1) / floorHops
		for b := range s.bands {
			s.bands[b].floors = make([]uint8, n)
			s.bands[b].tops = make([]uint8, n)
		}
	}
	var buffer [floorHops]uint8
	for range 16 {
		if s.hop >= st.hops {
			return true
		}
		n := min(floorHops, st.hops-s.hop)
		for b := range s.bands {
			st.read(buffer[:n], b, s.hop)
			low, high := quantiles(buffer[:n], 0.25, 0.93)
			s.bands[b].floors[s.hop/floorHops] = low
			s.bands[b].tops[s.hop/floorHops] = high
			s.bands[b].used = s.bands[b].used || slices.Max(buffer[:n]) > 0
		}
		s.hop += floorHops
	}
	return false
}

// quantiles gives two quantiles of values, the lower one first.
func quantiles(values []uint8, low, high float64) (uint8, uint8) {
	var counts [256]uint16
	for _, v := range values {
		counts[v]++
	}
	at := [2]uint8{255, 255}
	want := [2]int{int(low * float64(len(values))), int(high * float64(len(values)))}
	sum, k := 0, 0
	for v, c := range counts {
		sum += int(c)
		for k < 2 && sum > want[k] {
			at[k] = uint8(v)
			k++
		}
	}
	return at[0], at[1]
}

// smoothFloors takes the median over some seconds, of one band after another.
func (s *search) smoothFloors(*input) bool {
	b := &s.bands[s.hop/2]
	if s.hop%2 == 0 {
		b.floors = smooth(b.floors, 3)
	} else {
		b.tops = smooth(b.tops, 6)
	}
	s.hop++
	return s.hop == 2*len(s.bands)
}

// smooth takes the median of so many values on either side.
func smooth(f []uint8, reach int) []uint8 {
	out := make([]uint8, len(f))
	var near []uint8
	for i := range f {
		near = append(near[:0], f[max(0, i-reach):min(len(f), i+reach+1)]...)
		slices.Sort(near)
		out[i] = near[len(near)/2]
	}
	return out
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
