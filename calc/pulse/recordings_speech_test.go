//go:build !js

package pulse_test

import (
	"math"
	"math/rand/v2"
)

// vowels are the first three formants in Hz, of a man's voice: rounded from the
// means of the usual tables, from memory. What matters is where their energy is.
var vowels = [][3]float64{
	{270, 2290, 3010},
	{390, 1990, 2550},
	{530, 1840, 2480},
	{660, 1720, 2410},
	{730, 1090, 2440},
	{570, 840, 2410},
	{440, 1020, 2240},
	{300, 870, 2240},
	{640, 1190, 2390},
}

// voice is one speaker.
type voice struct {
	fs, pitch, size, level float64 // size scales the formants
	r                      *rand.Rand
}

// addVoice adds a speaker who talks all the time: phrases of 4 to 12 syllables
// at 3 to 5 a second, pauses of 0.2 to 0.8 s between them. A syllable is a hiss,
// a stop with its burst, or nothing, and then a vowel. A hiss has
// a tenth to a third of a vowel's loudness, a burst up to 0.8.
func addVoice(x []float64, fs float64, r *rand.Rand) {
	v := voice{fs: fs, pitch: between(r, 90, 230), size: between(r, 0.95, 1.2), level: between(r, 0.7, 1.3), r: r}
	at := int(between(r, 0, 0.5) * fs)
	for at < len(x) {
		pace := between(r, 3, 5)
		for range 4 + r.IntN(9) {
			long := between(r, 0.8, 1.2) / pace
			head := v.consonant(tail(x, at), long)
			v.vowel(tail(x, at+int(head*fs)), long-head)
			at += int(long * fs)
		}
		at += int(between(r, 0.2, 0.8) * fs)
	}
}

// tail is what of x comes from at on.
func tail(x []float64, at int) []float64 { return x[min(at, len(x)):] }

// consonant adds what comes before a vowel and gives its seconds.
func (v voice) consonant(x []float64, long float64) float64 {
	switch v.r.IntN(4) {
	case 0: // a hiss, weak and high
		hiss := long * between(v.r, 0.25, 0.4)
		v.noise(x, hiss, hiss/3, between(v.r, 0.1, 0.35), between(v.r, 1500, 4500))
		return hiss
	case 1: // a stop: silence, then a burst of 5 to 15 ms
		stop, burst := long*between(v.r, 0.12, 0.25), between(v.r, 0.005, 0.015)
		v.noise(tail(x, int(stop*v.fs)), burst, 0.001, between(v.r, 0.2, 0.8), between(v.r, 500, 3000))
		return stop + burst
	}
	return 0
}

// noise adds a stretch of noise above a corner, with soft edges.
func (v voice) noise(x []float64, long, edge, level, corner float64) {
	own := make([]float64, min(len(x), int(long*v.fs)))
	addWhite(own, 1, v.r)
	highPass(own, min(corner/v.fs, 0.3))
	highPass(own, min(corner/v.fs, 0.3))
	scaled(own, v.level*level/max(rms(own), 1e-9))
	for i := range own {
		t := float64(i) / v.fs
		x[i] += own[i] * min(1, t/edge, (long-t)/edge)
	}
}

// resonance is a pair of poles, of gain 1 at 0 Hz.
type resonance struct{ a, b, c, y1, y2 float64 }

func resonanceOf(tone, width, fs float64) resonance {
	radius := math.Exp(-math.Pi * width / fs)
	b := 2 * radius * math.Cos(2*math.Pi*tone/fs)
	c := -radius * radius
	return resonance{a: 1 - b - c, b: b, c: c}
}

func (f *resonance) next(x float64) float64 {
	y := f.a*x + f.b*f.y1 + f.c*f.y2
	f.y2, f.y1 = f.y1, y
	return y
}

// vowel adds a voiced sound: puffs of air at a pitch that glides, made dull as a
// throat does, through the formants one after another; two more above the three
// are alike for all vowels.
func (v voice) vowel(x []float64, long float64) {
	var formants []resonance
	three := pick(v.r, vowels)
	for k, tone := range append(three[:], 3500, 4500) {
		if tone *= v.size; tone < 0.45*v.fs {
			formants = append(formants, resonanceOf(tone, 60+40*float64(k), v.fs))
		}
	}
	glide, level := between(v.r, -0.2, 0.2), v.level*between(v.r, 0.5, 1.2)
	phase, dull, before := 0.0, 0.0, 0.0
	keep := math.Exp(-2 * math.Pi * 700 / v.fs)
	own := make([]float64, min(len(x), int(long*v.fs)))
	for i := range own {
		t := float64(i) / v.fs
		puff := 0.0
		if phase += v.pitch * (1 + glide*(t/long-0.5)) / v.fs; phase >= 1 {
			phase--
			puff = 1
		}
		dull = keep*dull + (1-keep)*puff
		y := dull - before // lips: what is slow does not leave them
		before = 0.995*before + 0.005*dull
		for k := range formants {
			y = formants[k].next(y)
		}
		own[i] = y * min(1, t/0.03, (long-t)/0.04)
	}
	add(x, own, level/max(rms(own), 1e-9))
}
