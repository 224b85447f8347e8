//go:build !js

package pulse_test

import (
	"math"
	"math/rand/v2"
)

// groundOf makes n samples of a background, of mean square 1 as long as it is
// there: "silence", "white", "pink", "rumble" of a room, "hum" of the mains,
// "ripple" of a lamp on a light probe, "speech", "babble" of several voices, a
// "fridge" that switches on.
func groundOf(kind string, n, rate int, r *rand.Rand) []float64 {
	x := make([]float64, n)
	fs := float64(rate)
	switch kind {
	case "silence":
		return x
	case "white":
		addWhite(x, 1, r)
	case "pink":
		addPink(x, fs, r)
	case "rumble":
		addRumble(x, fs, between(r, 50, 140), r)
	case "hum":
		addHum(x, fs, pick(r, []float64{50, 60}), r)
		addWhite(x, between(r, 0.01, 0.05)*rms(x), r)
	case "ripple":
		addRipple(x, fs, pick(r, []float64{100, 120}), r)
		addWhite(x, between(r, 0.02, 0.06)*rms(x), r)
	case "speech":
		addVoice(x, fs, r)
		addWhite(x, 0.02*rms(x), r)
	case "babble":
		for range 3 + r.IntN(3) {
			addVoice(x, fs, r)
		}
		addWhite(x, 0.02*rms(x), r)
	case "fridge":
		return fridge(x, fs, r)
	}
	return scaled(x, 1/rms(x))
}

func addWhite(x []float64, level float64, r *rand.Rand) {
	for i := range x {
		x[i] += level * r.NormFloat64()
	}
}

// addPink adds noise that falls by about 3 dB an octave: first-order noises whose
// corners lie two octaves apart.
func addPink(x []float64, fs float64, r *rand.Rand) {
	const parts = 6
	var keep, state [parts]float64
	for k := range keep {
		keep[k] = math.Exp(-2 * math.Pi * 12 * math.Pow(4, float64(k)) / fs)
	}
	for i := range x {
		white := r.NormFloat64()
		sum := 0.0
		for k := range state {
			state[k] = keep[k]*state[k] + math.Sqrt(1-keep[k])*white
			sum += state[k]
		}
		x[i] += sum
	}
}

// addRumble adds what a room has under its corner, rising and falling slowly.
func addRumble(x []float64, fs, corner float64, r *rand.Rand) {
	own := make([]float64, len(x))
	addWhite(own, 1, r)
	lowPass(own, corner/fs)
	lowPass(own, corner/fs)
	rest := 0.02 * rms(own)
	pace, phase := between(r, 0.05, 0.3), between(r, 0, 6)
	for i := range x {
		swell := 1 + 0.3*math.Sin(2*math.Pi*pace*float64(i)/fs+phase)
		x[i] += own[i]*swell + rest*r.NormFloat64()
	}
}

// addHum adds a mains hum with its overtones, the odd ones stronger; the mains
// are off by up to 0.1 %.
func addHum(x []float64, fs, mains float64, r *rand.Rand) {
	var parts [24]float64
	for k := range parts {
		parts[k] = between(r, 0.2, 1) / float64(k+1)
		if k%2 == 1 {
			parts[k] *= 0.4
		}
	}
	addPeriodic(x, fs, mains*(1+between(r, -0.001, 0.001)), parts[:], r)
}

// addRipple adds a lamp's light as a probe gives it: a rectified sine without its
// mean, whose overtones fall with their square.
func addRipple(x []float64, fs, pace float64, r *rand.Rand) {
	var parts [16]float64
	for k := range parts {
		h := float64(k + 1)
		parts[k] = 1 / (4*h*h - 1)
	}
	addPeriodic(x, fs, pace*(1+between(r, -0.001, 0.001)), parts[:], r)
}

// addPeriodic adds a tone of given overtones, read from a table of one period;
// overtones above 0.45 of the sample rate are left out.
func addPeriodic(x []float64, fs, tone float64, parts []float64, r *rand.Rand) {
	const size = 4096
	var table [size + 1]float64
	for k, part := range parts {
		if tone*float64(k+1) > 0.45*fs {
			break
		}
		phase := between(r, 0, 2*math.Pi)
		for i := range table {
			table[i] += part * math.Sin(2*math.Pi*float64(k+1)*float64(i)/size+phase)
		}
	}
	at, step := 0.0, tone/fs*size
	for i := range x {
		whole := int(at)
		part := at - float64(whole)
		x[i] += table[whole]*(1-part) + table[whole+1]*part
		if at += step; at >= size {
			at -= size
		}
	}
}

// fridge is a quiet room in which a motor starts with a thump and hums on.
// Its level is that of the motor.
func fridge(x []float64, fs float64, r *rand.Rand) []float64 {
	start := int(between(r, 0.15, 0.7) * float64(len(x)))
	motor := make([]float64, len(x)-start)
	addHum(motor, fs, pick(r, []float64{50, 60}), r)
	addRumble(motor, fs, 200, r)
	scaled(motor, 1/rms(motor))
	for i := range motor {
		t := float64(i) / fs
		thump := 2 * math.Exp(-t/0.04) * math.Sin(2*math.Pi*70*t)
		x[start+i] = motor[i]*min(1, t/0.4) + thump
	}
	addWhite(x, between(r, 0.02, 0.06), r)
	return x
}

func rms(x []float64) float64 {
	sum := 0.0
	for _, v := range x {
		sum += v * v
	}
	return math.Sqrt(sum / float64(max(1, len(x))))
}

// scaled multiplies all of x in place.
func scaled(x []float64, by float64) []float64 {
	for i := range x {
		x[i] *= by
	}
	return x
}
