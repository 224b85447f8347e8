package onset

import (
	"math"
	"slices"
)

// finish weighs each candidate between the pulses and the rest.
func (s *search) finish(in *input) bool {
	if len(s.set) == 0 {
		s.heard.weak = true
		return true
	}
	odds := s.scale(twice(principal(s.times(in, windowMost))))
	for i := range s.cands {
		v := odds(float64(s.cands[i].stand))
		if s.heard.weak || s.cands[i].all < leastRise {
			v = min(v, -1.2)
		}
		s.cands[i].sure = float32(1 / (1 + math.Exp(-v)))
	}
	s.release(in)
	s.listen(in)
	return true
}

// scale gives the log-odds that a candidate is a pulse, by where it stands
// between the best of the rest, the least of the pulses and their median. twice
// says whether intervals come twice in turn.
func (s *search) scale(twice bool) func(stand float64) float64 {
	level := float64(s.sweep.level)
	var pulses, rest []float64
	for i, c := range s.cands {
		switch {
		case i%(1+len(s.cands)/(2*enough)) != 0:
		case float64(c.stand) >= level:
			pulses = append(pulses, float64(c.stand))
		case c.stand > suppressed:
			rest = append(rest, float64(c.stand))
		}
	}
	if len(pulses) == 0 {
		pulses = append(pulses, float64(s.cands[s.set[0]].stand))
	}
	mid, least, top := median(pulses), lowestOf(pulses), highestOf(rest, level)
	above := max((mid-least)/3, 1)
	below := max((level-top)/4.5, min((mid-level)/12, (top-median(rest))/4), 0.5)
	gap := least - top
	// What stands out far needs little of a pace; but two of anything keep one, and
	// three bangs do not.
	outstands := s.gap >= 2.5 && (len(s.set) > 3 && s.steady > -3 || len(s.set) == 3 && s.steady > 0 || twice)
	s.heard.weak = s.steady < 6 && !outstands && (s.steady < 3 || gap < 20 || gap < 0.6*(mid-top))
	return func(x float64) float64 {
		switch {
		case x < level:
			return (x - level) / below
		case x < least:
			return 2 * (x - level) / (least - level)
		}
		return 2 + (x-least)/above
	}
}

// times lists when the pulses come, the first so many.
func (s *search) times(in *input, most int) []float64 {
	times := make([]float64, min(most, len(s.set)))
	for k, i := range s.set[:len(times)] {
		times[k] = s.moment(in, s.cands[i])
	}
	return times
}

// release takes the companions of pulses for what they are.
func (s *search) release(in *input) {
	times := s.times(in, len(s.set))
	kept := principal(times)
	k := 0
	for n, t := range times {
		if k < len(kept) && kept[k] == t {
			k++
			continue
		}
		s.cands[s.set[n]].sure *= 0.02
	}
}

// lowestOf is the lowest of values but for one in fifty.
func lowestOf(values []float64) float64 {
	v := slices.Clone(values)
	slices.Sort(v)
	return v[len(v)/50]
}

// highestOf is the highest of values but for one in fifty; other if there are none.
func highestOf(values []float64, other float64) float64 {
	if len(values) == 0 {
		return other - 10
	}
	v := slices.Clone(values)
	slices.Sort(v)
	return v[len(v)-1-len(v)/50]
}

// found gathers what was found.
func (s *search) found(in *input) Found {
	out := Found{Seconds: in.begins, Breaks: in.breaks, Peak: float64(in.peak), Hum: in.hum.hertz()}
	if in.store.hops == 0 {
		s.says(in, &out)
		return out
	}
	out.EnvelopeStep = in.store.parts[0].seconds
	out.Envelope = in.envelope(out.EnvelopeStep)
	for _, c := range s.cands {
		if c.sure >= 0.005 {
			out.Pulses = append(out.Pulses, Pulse{At: s.moment(in, c), Sure: float64(c.sure)})
		}
	}
	out.Timing, out.Above, out.Clipped = s.heard.timing, s.heard.above, s.heard.clipped
	if s.heard.weak {
		out.Above = 0
	}
	s.says(in, &out)
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
		if p.seconds == step && len(in.store.parts) == 1 {
			in.store.read(list, in.store.planes-1, p.first)
			return list
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
