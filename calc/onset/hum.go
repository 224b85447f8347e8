package onset

import "math"

// hum listens for the mains: the powers at 50 and 60 Hz and their first
// harmonics, beside the power of all that is low, in windows of half a second.
type hum struct {
	turns [2 * overtones]phasor
	total float64
	left  int
	per   int
	votes [3]int // windows: neither, 50 Hz, 60 Hz
}

const overtones = 3

// phasor turns at one frequency and adds up what turns with it.
type phasor struct {
	cos, sin   float64 // now
	dcos, dsin float64 // of a turn
	re, im     float64
}

// begin sets the rate of the low signal.
func (h *hum) begin(rate float64) {
	h.per = int(rate / 2)
	h.left, h.total = h.per, 0
	for k := range h.turns {
		f := 50.0
		if k >= overtones {
			f = 60
		}
		w := 2 * math.Pi * f * float64(k%overtones+1) / rate
		h.turns[k] = phasor{cos: 1, dcos: math.Cos(w), dsin: math.Sin(w)}
	}
}

// take listens to the low signal.
func (h *hum) take(low []float32) {
	for _, v := range low {
		x := float64(v)
		h.total += x * x
		for k := range h.turns {
			p := &h.turns[k]
			p.re += x * p.cos
			p.im += x * p.sin
			p.cos, p.sin = p.cos*p.dcos-p.sin*p.dsin, p.sin*p.dcos+p.cos*p.dsin
		}
		h.left--
		if h.left <= 0 {
			h.vote()
		}
	}
}

// vote ends a window.
func (h *hum) vote() {
	var power [2]float64
	for k := range h.turns {
		p := &h.turns[k]
		power[k/overtones] += 2 * (p.re*p.re + p.im*p.im) / float64(h.per)
		p.re, p.im = 0, 0
		r := 1 / math.Hypot(p.cos, p.sin)
		p.cos *= r
		p.sin *= r
	}
	which := 0
	if h.total > 1e-7*float64(h.per) {
		if power[0] > 0.5*h.total && power[0] > power[1] {
			which = 1
		} else if power[1] > 0.5*h.total {
			which = 2
		}
	}
	h.votes[which]++
	h.left, h.total = h.per, 0
}

// hertz is the mains that was heard, or 0.
func (h *hum) hertz() float64 {
	all := h.votes[0] + h.votes[1] + h.votes[2]
	switch {
	case h.votes[1]*2 > all:
		return 50
	case h.votes[2]*2 > all:
		return 60
	}
	return 0
}
