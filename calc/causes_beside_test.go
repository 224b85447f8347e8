package calc_test

import (
	"fmt"
	"math/rand/v2"

	"splittally/calc"
)

// beside is a second monitor of the whole home.
type beside struct {
	accuracy float64
	places   int
	gain     []float64 // of each day
	watts    float64   // that it shows too much always
	missing  map[int]bool
	misses   []float64 // kWh by the hour that go past it, nil if none do
	trouble  string    // of its own, in words
}

// How often a scene has a second monitor, how often that is off by itself, and
// how often legs that are told apart have a column each.
const (
	besidePart  = 0.3
	troublePart = 1. / 3
	columnsPart = 0.35
)

// drawSide draws what is beside the monitor.
func (s *scene) drawSide(days int) {
	s.side = rand.New(rand.NewPCG(s.seed, 12))
	s.inColumns = s.side.Float64() < columnsPart
	if s.side.Float64() < besidePart {
		s.beside = drawBeside(s.side, days)
	}
}

// drawBeside draws a monitor that keeps its promise, or is off by a gain or by
// a constant power.
func drawBeside(r *rand.Rand, days int) *beside {
	b := &beside{accuracy: float64(1 + r.IntN(2)), places: r.IntN(3), missing: map[int]bool{}, trouble: "sound"}
	usual := 1 + (2*r.Float64()-1)*b.accuracy/100
	if r.Float64() < troublePart {
		aside := float64(2*r.IntN(2) - 1)
		if r.IntN(2) == 0 {
			b.trouble = "off by a gain"
			usual *= 1 + aside*(0.02+0.08*r.Float64())
		} else {
			b.trouble = "off by a power"
			b.watts = aside * (10 + 90*r.Float64())
		}
	}
	for range days {
		b.gain = append(b.gain, usual)
	}
	for range r.IntN(3) {
		n := 1 + r.IntN(6)
		from := margin + r.IntN(days-2*margin-n)
		for d := range n {
			b.missing[from+d] = true
		}
	}
	return b
}

// writeBeside writes what the second monitor shows of what passes the meter.
func (s *scene) writeBeside() calc.Monitor {
	b := s.beside
	seen := append([]float64(nil), s.metered...)
	for h := range seen {
		if b.misses != nil {
			seen[h] -= b.misses[h]
		}
		seen[h] = max(0, seen[h]+b.watts/1000)
	}
	return calc.Monitor{
		Name: "Beside", Accuracy: fmt.Sprint(b.accuracy),
		Readings: s.days("Date\tkWh", b.places, b.missing, b.gain, seen),
	}
}

// meterDays writes the utility's own daily figures.
func (s *scene) meterDays() string {
	gain := make([]float64, len(s.metered)/24)
	for d := range gain {
		gain[d] = s.meterGain
	}
	return s.days("Date\tkWh", 1, nil, gain, s.metered)
}
