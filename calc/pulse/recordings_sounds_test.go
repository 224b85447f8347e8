//go:build !js

package pulse_test

import (
	"math"
	"math/rand/v2"
)

// maker makes one pulse's sound after another, alike but never the same.
type maker func(r *rand.Rand) []float64

// makerOf chooses a sound of a kind for a whole recording: "click" of a light
// probe, "tap" of a pencil, "clap", "beep". room is the longest it may be, in
// seconds; faint asks for the longer half of the durations that clicks and taps
// have, for recordings under 12 dB (see levelled).
func makerOf(kind string, rate int, room float64, faint bool, r *rand.Rand) maker {
	fs := float64(rate)
	switch kind {
	case "tap":
		return tap(fs, min(drawn(r, 0.005, 0.03, faint), room), r)
	case "clap":
		return clap(fs, min(between(r, 0.01, 0.04), room), r)
	case "beep":
		return beep(fs, min(between(r, 0.03, 0.08), room), r)
	}
	return click(fs, drawn(r, 0.001, 0.003, faint), r)
}

func drawn(r *rand.Rand, low, high float64, faint bool) float64 {
	if faint {
		low = (low + high) / 2
	}
	return between(r, low, high)
}

// click is what a light probe on the microphone input gives: two damped tones
// from 1 to 8 kHz. Its sign stays, or changes at random, as with a loose plug.
func click(fs, long float64, r *rand.Rand) maker {
	high := min(8000, 0.42*fs)
	tones := [2]float64{between(r, 1000, high), between(r, 1000, high)}
	share, whole, loose := between(r, 0.2, 0.8), sign(r), r.IntN(4) == 0
	decay := long / 1.15 // 90 % of the energy of exp(−2t/decay) comes before 1.15·decay
	return func(r *rand.Rand) []float64 {
		x := make([]float64, int(5*long*fs)+2)
		s := whole
		if loose {
			s = sign(r)
		}
		for i := range x {
			t := float64(i) / fs
			x[i] = s * math.Exp(-t/decay) * (math.Cos(2*math.Pi*tones[0]*t) +
				share*math.Sin(2*math.Pi*tones[1]*t))
		}
		return levelled(x)
	}
}

// tap is a pencil on a table: three decaying resonances and the short noise of
// the touch.
func tap(fs, long float64, r *rand.Rand) maker {
	var tones, parts, decays [3]float64
	for k := range tones {
		tones[k] = math.Exp(between(r, math.Log(250), math.Log(min(4000, 0.4*fs))))
		parts[k] = between(r, 0.3, 1)
		decays[k] = long / 1.15 * between(r, 0.6, 1)
	}
	return func(r *rand.Rand) []float64 {
		x := make([]float64, int(4*long*fs)+2)
		for k := range tones {
			part, phase := parts[k]*between(r, 0.8, 1.2), between(r, 0, 0.6)
			for i := range x {
				t := float64(i) / fs
				x[i] += part * math.Exp(-t/decays[k]) * math.Sin(2*math.Pi*tones[k]*t+phase)
			}
		}
		for i := range min(len(x), int(0.001*fs)+1) {
			x[i] += 0.5 * r.NormFloat64()
		}
		return levelled(x)
	}
}

// clap is noise from 0.7 to 5 kHz or so that rises in 1 ms and decays, with the
// room's answer after it.
func clap(fs, long float64, r *rand.Rand) maker {
	decay := long / 1.15
	tail, echo := between(r, 0.03, 0.08), math.Pow(10, -between(r, 14, 22)/20)
	low, high := between(r, 500, 1000), between(r, 2500, min(5000, 0.4*fs))
	return func(r *rand.Rand) []float64 {
		x := make([]float64, int((long+5*tail)*fs)+2)
		for i := range x {
			t := float64(i) / fs
			x[i] = (math.Exp(-t/decay) + echo*math.Exp(-t/tail)) * min(1, (t+0.0002)/0.001) * r.NormFloat64()
		}
		lowPass(x, high/fs)
		highPass(x, low/fs)
		return levelled(x)
	}
}

// beep is a tone with an overtone, with soft edges of 2 to 5 ms.
func beep(fs, long float64, r *rand.Rand) maker {
	tone, over, edge := between(r, 700, min(3500, 0.2*fs)), between(r, 0, 0.4), between(r, 0.002, 0.005)
	return func(r *rand.Rand) []float64 {
		phase := between(r, 0, 2*math.Pi)
		x := make([]float64, int(long*fs)+2)
		for i := range x {
			t := float64(i) / fs
			soft := min(1, t/edge, max(0, long-t)/edge)
			x[i] = soft * (math.Sin(2*math.Pi*tone*t+phase) + over*math.Sin(4*math.Pi*tone*t))
		}
		return levelled(x)
	}
}

// levelled scales a sound so that its mean square over its own duration is 1.
//
// That duration is the time in which 90 % of its energy comes, counted from its
// beginning. Signal to noise in decibels is the pulse's energy in that time over
// the energy that the background has in as long a time on average, both within
// the recording's whole band (0 to half its sample rate):
//
//	SNR = 10·log10( Σ pulse² / (D · mean background²) ), D samples
//
// What a receiver can make of it that knows the pulse and has white noise is
// d' = √(D·10^(SNR/10)), so a click of 1 ms at 8 kHz and 6 dB has d' = 5.6: too
// little to be told in minutes of noise. Under 12 dB the shorter half of the
// clicks and taps is therefore left out.
func levelled(x []float64) []float64 {
	d, energy := duration(x)
	scale := math.Sqrt(float64(d) / energy)
	for i := range x {
		x[i] *= scale
	}
	return x
}

// duration is the number of samples of a sound's own duration, and their energy.
func duration(x []float64) (int, float64) {
	all := 0.0
	for _, v := range x {
		all += v * v
	}
	sum := 0.0
	for i, v := range x {
		sum += v * v
		if sum >= 0.9*all {
			return i + 1, sum
		}
	}
	return len(x), all
}

// lowPass takes out what is above a part of the sample rate, 6 dB an octave.
func lowPass(x []float64, part float64) {
	a, y := 1-math.Exp(-2*math.Pi*part), 0.0
	for i, v := range x {
		y += a * (v - y)
		x[i] = y
	}
}

// highPass takes out what is below.
func highPass(x []float64, part float64) {
	a, y := 1-math.Exp(-2*math.Pi*part), 0.0
	for i, v := range x {
		y += a * (v - y)
		x[i] = v - y
	}
}
