package onset

import "math"

// Octave bands by lifting: each level parts a signal into what a line of four
// points through every second sample foretells and what it does not
// (W. Sweldens, "The lifting scheme", 1996, with the interpolating filters of
// G. Deslauriers and S. Dubuc). The rest is the upper octave; it has four
// vanishing moments, so that hum leaks little into it. Three multiplications for
// two samples are all that a level costs.

const (
	octaves = 6    // bands of a channel, from 24 kHz downwards
	past    = 8    // samples that a level keeps of the block before, at most
	maxWork = 4096 // samples that are worked on at once
)

// halving is one level of the bands.
type halving struct {
	in     [past + maxWork]float32 // in[2] is the first sample not yet done; two before it
	have   int                     // samples in in
	done   int                     // of them, that the next call drops
	before float32                 // the last difference
	energy float32                 // of the differences since the hop began
	per    int                     // differences of a hop
	left   int                     // until the present one ends
	hop    int                     // the present one
	plane  int                     // where its energies go, or -1
	begun  bool
}

// channel is one channel's filters.
type channel struct {
	levels []halving
}

// begin sets the channel for a rate: hops of so many samples from the given
// one, planes from the given one.
func (c *channel) begin(rate, hopSamples, hop, plane int) {
	shift := int(math.Round(math.Log2(48000 / float64(rate))))
	c.levels = c.levels[:0]
	for l := 0; hopSamples>>(l+1) >= 1 && l+shift < octaves; l++ {
		// Silence before the first sample, as far as the filter looks back.
		lv := halving{per: hopSamples >> (l + 1), hop: hop, plane: -1, have: 2}
		if l+shift >= 0 {
			lv.plane = plane + l + shift
		}
		lv.left = lv.per
		c.levels = append(c.levels, lv)
	}
}

// take filters samples and stores the energies of the hops that they end; what
// is left below the last level goes to h, if there is one.
func (c *channel) take(s *store, samples []float32, h *hum) {
	for len(samples) > 0 {
		n := min(len(samples), maxWork-past)
		x := samples[:n]
		for l := range c.levels {
			x = c.levels[l].take(s, x)
		}
		if h != nil {
			h.take(x)
		}
		samples = samples[n:]
	}
}

// take gives the lower half of its band; the slice is good until the next call.
func (l *halving) take(s *store, x []float32) []float32 {
	copy(l.in[:], l.in[l.done:l.have])
	kept := l.have - l.done
	l.have, l.done = kept+len(x), 0
	in := l.in[:l.have]
	copy(in[kept:], x)
	if !l.begun && len(x) > 2 {
		// Before the first sample it goes on as after it, turned about: a hum that
		// begins is no click.
		in[0], in[1] = 2*x[0]-x[2], 2*x[0]-x[1]
		l.begun = true
	}
	pairs := (l.have - 5) / 2
	if pairs <= 0 {
		return nil
	}
	l.done = 2 * pairs
	out := in[:pairs] // never ahead of what is read
	next := [3]float32{in[0], in[2], in[4]}
	for k := 0; k < pairs; {
		end := min(pairs, k+l.left)
		l.left -= end - k
		next = l.lift(in, out, k, end, next)
		k = end
		if l.left == 0 {
			if l.plane >= 0 {
				s.put(l.plane, l.hop, loudness(l.energy/float32(l.per)))
			}
			l.energy, l.left = 0, l.per
			l.hop++
		}
	}
	return out
}

// lift works on pairs k to end. a are the even samples of the pair before, of
// pair k and of the next; it gives those of pair end.
func (l *halving) lift(in, out []float32, k, end int, a [3]float32) [3]float32 {
	a0, a1, a2, before, energy := a[0], a[1], a[2], l.before, l.energy
	for ; k+4 <= end; k += 4 {
		// Four at a time, through arrays: their bounds are checked once.
		x, y := (*[10]float32)(in[2*k+3:]), (*[4]float32)(out[k:])
		a3, a4, a5, a6 := x[3], x[5], x[7], x[9]
		d0 := x[0] - 0.5625*(a1+a2) + 0.0625*(a0+a3)
		d1 := x[2] - 0.5625*(a2+a3) + 0.0625*(a1+a4)
		d2 := x[4] - 0.5625*(a3+a4) + 0.0625*(a2+a5)
		d3 := x[6] - 0.5625*(a4+a5) + 0.0625*(a3+a6)
		y[0] = a1 + 0.25*(before+d0)
		y[1] = a2 + 0.25*(d0+d1)
		y[2] = a3 + 0.25*(d1+d2)
		y[3] = a4 + 0.25*(d2+d3)
		energy += d0*d0 + d1*d1 + d2*d2 + d3*d3
		before, a0, a1, a2 = d3, a4, a5, a6
	}
	for ; k < end; k++ {
		a3 := in[2*k+6]
		d := in[2*k+3] - 0.5625*(a1+a2) + 0.0625*(a0+a3)
		out[k] = a1 + 0.25*(before+d)
		energy += d * d
		before, a0, a1, a2 = d, a1, a2, a3
	}
	l.before, l.energy = before, energy
	return [3]float32{a0, a1, a2}
}

// loudness puts a mean square on the scale of the store: 8 for each doubling,
// 3/8 dB a step, 0 at −96 dB of full scale. The mantissa stands for its
// logarithm, which errs by a quarter of a decibel at most.
func loudness(square float32) uint8 {
	v := (int32(math.Float32bits(square)) - 95<<23) >> 20
	return uint8(max(0, min(255, v)))
}
