package onset

import "math"

// finish weighs each candidate between the pulses and the rest.
func (s *search) finish(in *input) bool {
	if len(s.set) == 0 {
		return true
	}
	var stands []float64
	for _, i := range s.set {
		stands = append(stands, float64(s.cands[i].stand))
	}
	mid, level := median(stands), float64(s.sweep.level)
	half := max((mid-level)/4, 1)
	for i := range s.cands {
		c := &s.cands[i]
		odds := (float64(c.stand)-level)/half + 0.5
		c.sure = float32(1 / (1 + math.Exp(-odds)))
	}
	return true
}

// found gathers what was found.
func (s *search) found(in *input) Found {
	out := Found{Seconds: in.begins, Breaks: in.breaks, Peak: float64(in.peak), Hum: in.hum.hertz()}
	if in.store.hops == 0 {
		return out
	}
	out.EnvelopeStep = in.store.parts[0].seconds
	out.Envelope = in.envelope(out.EnvelopeStep)
	for _, c := range s.cands {
		if c.sure >= 0.005 {
			out.Pulses = append(out.Pulses, Pulse{At: s.moment(in, c), Sure: float64(c.sure)})
		}
	}
	out.Timing = 0.0005
	return out
}

// envelope gives the loudness at even steps of time.
func (in *input) envelope(step float64) []uint8 {
	n := int(math.Ceil(in.begins / step))
	list := make([]uint8, n)
	for k := range in.store.parts {
		p := in.store.parts[k]
		end := in.store.hops
		if k+1 < len(in.store.parts) {
			end = in.store.parts[k+1].first
		}
		for h := p.first; h < end; h++ {
			i := int((p.begins + (float64(h-p.first)+0.5)*p.seconds) / step)
			if i >= 0 && i < n {
				list[i] = max(list[i], in.store.at(in.store.planes-1, h))
			}
		}
	}
	return list
}
