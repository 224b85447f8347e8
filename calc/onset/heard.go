package onset

import (
	"math"

	"splittally/calc/figure"
)

// decibels of one step of loudness.
const decibel = 3.0 / 8

// heardMost is how many pulses are looked at to tell how a recording is.
const heardMost = 100

// heard tells how the pulses are to hear.
type heard struct {
	timing, above, clipped float64
	weak                   bool // nothing keeps a pace, and nothing stands out
}

// listen looks at pulses of the set: how far they stand above the floor, whether
// they are cut off, and how well their pictures tell their times.
func (s *search) listen(in *input) {
	var above, timing []float64
	n, clipped := 0, 0
	buffer := make([]uint8, (frame+2*reach)*len(s.bands))
	for k := 0; k < len(s.set); k += 1 + len(s.set)/heardMost {
		c := s.cands[s.set[k]]
		n++
		if s.cut(in, int(c.hop)) {
			clipped++
		}
		p := s.picture(in, buffer, int(c.hop), reach)
		above = append(above, float64(highestIn(p, len(s.bands)))*decibel)
		if s.model != nil {
			timing = append(timing, s.model.sharpness(p, int(math.Round(float64(c.shift))))*in.store.partOf(int(c.hop)).seconds)
		}
	}
	if n == 0 {
		return
	}
	s.heard.clipped, s.heard.above = float64(clipped)/float64(n), median(above)
	// Between two hops a time is known to about a sixth of one. That what is left
	// over tells two fifths of the rest was found on made-up recordings.
	s.heard.timing = math.Hypot(in.store.parts[0].seconds/6, 2.5*median(timing))
}

// cut says whether a sound reaches full scale.
func (s *search) cut(in *input, hop int) bool {
	for k := -1; k < 6; k++ {
		if in.store.at(in.store.planes-1, hop+k) == 255 {
			return true
		}
	}
	return false
}

// highestIn is the loudest of a picture from its onset on.
func highestIn(picture []uint8, bands int) uint8 {
	most := uint8(0)
	n := len(picture) / bands
	for b := range bands {
		for _, v := range picture[b*n+lead+reach-1 : b*n+lead+reach+5] {
			most = max(most, v)
		}
	}
	return most
}

// sharpness is the standard uncertainty, in hops, of where a picture coincides
// best with the pulses': what it differs by, over how fast that grows when it is
// moved.
func (m *model) sharpness(picture []uint8, shift int) float64 {
	const stride = frame + 2*reach
	k := max(1, min(2*reach-1, reach+shift))
	a, b, c := m.fits(picture, stride, k-1), m.fits(picture, stride, k), m.fits(picture, stride, k+1)
	bend := float64(2*b - a - c)
	cells := float64((m.to - m.from) * len(m.cells) / frame)
	if bend <= 0 {
		return 1
	}
	return math.Min(1, math.Sqrt(2*float64(-b)/cells/bend))
}

// says tells what makes it hard.
func (s *search) says(in *input, f *Found) {
	say := func(text string) { f.Says = append(f.Says, text) }
	switch {
	case f.Peak == 0:
		say("The recording is silent.")
		return
	case f.Peak < 0.003:
		say("The recording is nearly silent.")
	}
	switch {
	case len(s.cands) == 0 || s.heard.weak:
		say("Nothing in it stands out and keeps a pace.")
		return
	case f.Above < 12:
		say("The pulses stand only " + figure.Plain(f.Above, 0) + " dB above the noise.")
	}
	if f.Clipped > 0.1 {
		say(figure.Percent(figure.Plain(100*f.Clipped, 0)) + " of the pulses are cut off: they are too loud for the recorder.")
	}
	if f.Hum > 0 && f.Above < 20 {
		say("Mains hum of " + figure.Plain(f.Hum, 0) + " Hz is in it.")
	}
}
