package onset_test

import (
	"flag"
	"math"
	"math/rand/v2"
	"testing"

	"splittally/calc/rhythm"
)

var madeUp = flag.Int("made", 60, "how many made-up recordings to listen to")

// randomRecipe is one of many kinds of recordings.
func randomRecipe(seed uint64) recipe {
	rng := rand.New(rand.NewPCG(seed, 3))
	r := recipe{
		sound: pick(rng, "click", "click", "click", "tap", "clap", "beep", "none"),
		rate:  pick(rng, 8000, 11025, 16000, 22050, 32000, 44100, 48000), channels: pick(rng, 1, 1, 1, 2, 3),
		above: pick(rng, 99.0, 40, 20, 12, 6), noise: pick(rng, "white", "pink", "babble", "hum", "speech"),
		load: pick(rng, "steady", "steady", "steps", "drift", "limp"), seed: seed, jitter: pick(rng, 0, 0, 0.002),
		uneven: pick(rng, 0.0, 1, 3), missing: pick(rng, 0, 0.02), doubled: pick(rng, 0, 0.02),
		clip: rng.Float64() < 0.1, gainRide: rng.Float64() < 0.1,
	}
	r.every = math.Exp(math.Log(0.05) + rng.Float64()*math.Log(400)) // up to 20 s
	r.pulses = max(5, min(int(40/r.every), pick(rng, 20, 60, 200)))
	if r.sound == "beep" && r.every < 0.12 || r.sound == "clap" && r.every < 0.07 {
		r.sound = "click"
	}
	if r.sound == "none" {
		r.above, r.missing, r.clip = 6, 0, false
	}
	return r
}

func pick[T any](rng *rand.Rand, list ...T) T { return list[rng.IntN(len(list))] }

// TestMadeUp listens to made-up recordings of all kinds. More of them:
// go test ./calc/onset -run MadeUp -made 300 -v.
func TestMadeUp(t *testing.T) {
	n := *madeUp
	if testing.Short() {
		n = min(n, 10)
	}
	truths, hits, counted, refused, square := 0, 0, 0, 0, 0.0
	for seed := range uint64(n) {
		r := randomRecipe(seed)
		m := r.make()
		h := compare(r.rate, m.left, m.right, m.truth)
		switch {
		case h.result.Why != "":
			if r.sound != "none" {
				refused++
				t.Logf("refused (%s): %+v", h.result.Why, r)
			}
			continue
		case r.sound == "none":
			t.Errorf("%d intervals in what has no pulses: %+v", h.result.Intervals, r)
		}
		truths += h.truths
		hits += h.hits
		counted += h.counted
		square += float64(h.hits) * h.rms * h.rms
		if h.hits < h.truths || h.counted > h.hits || h.rms > 0.002 {
			t.Logf("%d of %d, %d false, %.2f ms rms: %+v", h.hits, h.truths, h.counted-h.hits, 1000*h.rms, r)
		}
	}
	rms := math.Sqrt(square / float64(hits))
	t.Logf("%d recordings, %d refused; found %.2f %%, false %.2f %%, %.2f ms rms", n, refused,
		100*float64(hits)/float64(truths), 100*float64(counted-hits)/float64(counted), 1000*rms)
	if float64(hits) < 0.99*float64(truths) || float64(counted-hits) > 0.005*float64(counted) || rms > 0.002 || refused*4 > n {
		t.Error("want 99 % found, at most 0.5 % false, 2 ms rms and few refused")
	}
}

// TestPlain listens to clear pulses, of which every one must be found.
func TestPlain(t *testing.T) {
	plain := recipe{sound: "click", rate: 22050, channels: 1, every: 1.3, pulses: 12, above: 40, noise: "pink", load: "steady", seed: 5}
	for name, change := range map[string]func(*recipe){
		"as it is":      func(*recipe) {},
		"20 a second":   func(r *recipe) { r.every, r.pulses = 0.05, 400 },
		"one in 50 s":   func(r *recipe) { r.every, r.pulses, r.rate = 50, 3, 8000 },
		"right only":    func(r *recipe) { r.channels = 3 },
		"limping":       func(r *recipe) { r.load, r.pulses = "limp", 40 },
		"beeps":         func(r *recipe) { r.sound = "beep" },
		"claps":         func(r *recipe) { r.sound, r.uneven = "clap", 3 },
		"taps, cut off": func(r *recipe) { r.sound, r.clip = "tap", true },
		"8 kHz":         func(r *recipe) { r.rate = 8000 },
		"48 kHz":        func(r *recipe) { r.rate = 48000 },
		"fading":        func(r *recipe) { r.fade, r.pulses = 24, 30 },
		"at 6 dB":       func(r *recipe) { r.above, r.pulses = 6, 30 },
	} {
		t.Run(name, func(t *testing.T) {
			r := plain
			change(&r)
			m := r.make()
			h := compare(r.rate, m.left, m.right, m.truth)
			if h.result.Why != "" || h.hits != h.truths || h.counted != h.truths || h.rms > 0.001 || h.result.Intervals != m.intervals {
				t.Errorf("%q, %d counted, %d of %d, %.2f ms rms, %d intervals of %d", h.result.Why, h.counted, h.hits, h.truths, 1000*h.rms, h.result.Intervals, m.intervals)
			}
			if r.clip && h.found.Clipped < 0.9 || !r.clip && h.found.Clipped > 0 {
				t.Errorf("%.2f are said to be cut off", h.found.Clipped)
			}
		})
	}
	r := plain
	r.pulses, r.every = 40, 0.9
	m := r.make()
	h := compare(r.rate, m.left, m.right, m.truth)
	if h.result.Least != m.intervals || h.result.Most != m.intervals {
		t.Errorf("between %d and %d intervals, but %d are certain", h.result.Least, h.result.Most, m.intervals)
	}
	for i, u := range h.result.Uses {
		if u == rhythm.Counted && h.result.Chances[i] < 0.95 {
			t.Errorf("mark %d counts with a chance of %.3f", i, h.result.Chances[i])
		}
	}
}
