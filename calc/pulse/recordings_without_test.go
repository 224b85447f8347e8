//go:build !js

package pulse_test

import (
	"math"
	"math/rand/v2"
)

// withoutPulses makes n samples of something in which nothing is a meter: the
// backgrounds alone, or "music", "crackle" of a worn contact, irregular
// "footsteps", "chores" (things set down now and then).
func withoutPulses(kind string, n, rate int, r *rand.Rand) []float64 {
	fs := float64(rate)
	x := make([]float64, n)
	switch kind {
	case "music":
		notes(x, fs, r)
	case "crackle":
		pace := between(r, 1, 8)
		scatter(x, fs, r, click(fs, 0.001, r), 0.8, func() float64 { return r.ExpFloat64() / pace })
	case "footsteps":
		pace := between(r, 1.2, 2)
		scatter(x, fs, r, tap(fs, 0.03, r), 0.3, func() float64 {
			return math.Exp(0.35*r.NormFloat64()) / pace
		})
	case "chores":
		pace := between(r, 0.1, 0.5)
		scatter(x, fs, r, clap(fs, 0.03, r), 0.5, func() float64 { return r.ExpFloat64() / pace })
	default:
		return groundOf(kind, n, rate, r)
	}
	scaled(x, 1/rms(x))
	addWhite(x, between(r, 0.01, 0.1), r)
	return x
}

// scatter adds sounds after waits; spread is the standard deviation of the
// logarithm of their loudness.
func scatter(x []float64, fs float64, r *rand.Rand, make maker, spread float64, wait func() float64) {
	for at := wait(); at < float64(len(x))/fs; at += wait() {
		add(tail(x, int(at*fs)), make(r), math.Exp(spread*r.NormFloat64()))
	}
}

// add adds a sound to the beginning of x, as far as x goes.
func add(x, sound []float64, level float64) {
	for i := range min(len(x), len(sound)) {
		x[i] += level * sound[i]
	}
}

// notes adds a melody: notes of a scale, from a half to three beats long, played
// with a freedom of 15 % of the beat and a tempo that sways.
func notes(x []float64, fs float64, r *rand.Rand) {
	beat, at := between(r, 0.25, 0.5), 0.2
	scale := []float64{0, 2, 4, 5, 7, 9, 11, 12, 14, 16}
	for at < float64(len(x))/fs {
		long := beat * pick(r, []float64{0.5, 1, 1, 1.5, 2, 3})
		tone := 196 * math.Pow(2, pick(r, scale)/12)
		n, level := int(1.5*long*fs), between(r, 0.4, 1)
		note := tail(x, int(at*fs))
		for i := range min(n, len(note)) {
			t := float64(i) / fs
			w := 2 * math.Pi * tone * t
			note[i] += level * min(1, t/0.01) * math.Exp(-2*t/long) *
				(math.Sin(w) + 0.4*math.Sin(2*w) + 0.2*math.Sin(3*w))
		}
		at += max(0.05, long+0.15*beat*r.NormFloat64())
		beat *= math.Exp(0.03 * r.NormFloat64())
	}
}
