//go:build !js

package pulse_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"splittally/calc/pulse"
	"splittally/calc/rhythm"
)

// TestRecordingsPower adds a load's energy up in small steps and holds the pulses
// against it: each comes when another whole one is full.
func TestRecordingsPower(t *testing.T) {
	for _, kind := range anyLoad {
		r := rand.New(rand.NewPCG(3, 3))
		load := loadOf(kind, 2, 60, r)
		at := pulsesOf(load, 0.25)
		sum, now, next := 0.0, 0.0, 0
		for _, p := range load {
			const steps = 100_000
			for i := range steps {
				t := p.long * (float64(i) + 0.5) / steps
				before := sum
				sum += (p.from + (p.to-p.from)*t/p.long) * p.long / steps
				if next < len(at) && before < 0.25+float64(next) && sum >= 0.25+float64(next) {
					if off := math.Abs(now + t - at[next]); off > 2*p.long/steps {
						break
					}
					next++
				}
			}
			now += p.long
		}
		if next != len(at) || next < 20 {
			t.Errorf("%s: %d of %d pulses come when their energy is full", kind, next, len(at))
		}
	}
}

// TestRecordingsNoise measures signal to noise as it is defined at levelled:
// pulses alone, background alone.
func TestRecordingsNoise(t *testing.T) {
	for _, sound := range anySound {
		for _, ground := range anyGround {
			r := rand.New(rand.NewPCG(5, 5))
			const rate, want = 16000, 9.0
			make := makerOf(sound, rate, 1, true, r)
			back := scaled(groundOf(ground, 20*rate, rate, r), decibels(-want))
			if ground == "fridge" {
				back = back[len(back)*3/4:] // the motor runs
			}
			once := make(r)
			d, energy := duration(once)
			got := 10 * math.Log10(energy/float64(d)/(rms(back)*rms(back)))
			if math.Abs(got-want) > 0.5 {
				t.Errorf("%s in %s: %.2f dB, want %.0f", sound, ground, got, want)
			}
		}
	}
}

// TestRecordingsScore tries the score itself on marks of which one lacks, one is
// too many and one is late.
func TestRecordingsScore(t *testing.T) {
	var rec recording
	rec.form = "wav"
	var h heard
	for i := range 20 {
		at := 1 + 2*float64(i)
		rec.beats = append(rec.beats, beat{pulse: at, sound: at, heard: true})
		if i != 7 {
			h.run.Marks.Marks = append(h.run.Marks.Marks, rhythm.Mark{At: at + 0.011, Sure: 1})
		}
		if i == 12 {
			h.run.Marks.Marks = append(h.run.Marks.Marks, rhythm.Mark{At: at + 0.15, Sure: 1})
		}
	}
	h.run.Marks.Marks[3].At += 0.010
	for range h.run.Marks.Marks {
		h.run.Rhythm.Uses = append(h.run.Rhythm.Uses, rhythm.Counted)
	}
	h.run.Watts = pulse.Figure{Value: 1801, Expanded: 0.5}
	s := judge(rec, h)
	if s.sounds != 20 || s.found != 19 || s.false != 1 || s.covered != 0 || math.Abs(s.worst-1.0/1800) > 1e-9 {
		t.Errorf("score %+v, want 19 of 20 found, 1 false, 1/1800 off and not covered", s)
	}
	if got, want := s.rms(), 0.010/math.Sqrt(19); math.Abs(got-want) > 1e-6 {
		t.Errorf("rms %.6f s, want %.6f", got, want)
	}
	h.run.Waits = "no rhythm"
	if s := judge(rec, h); s.refused != 1 || s.sounds != 0 {
		t.Errorf("score %+v, want a refusal", s)
	}
}
