package onset_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"splittally/calc/onset"
	"splittally/calc/rhythm"
)

// clicks puts clicks into silence, a whole number of samples apart.
func clicks(rate int, seconds float64, at ...float64) []float32 {
	x := make([]float32, int(seconds*float64(rate)))
	for _, t := range at {
		for i := range rate / 200 {
			if k := int(t*float64(rate)) + i; k < len(x) {
				u := float64(i) / float64(rate)
				x[k] = 0.5 * float32(math.Sin(2*math.Pi*2500*u)*math.Exp(-u*500))
			}
		}
	}
	return x
}

func finish(f *onset.Finder) onset.Found {
	f.End()
	for range 100000 {
		if f.Step() {
			return f.Found()
		}
	}
	panic("the search does not end")
}

// TestNothing is about recordings in which there is nothing to find.
func TestNothing(t *testing.T) {
	nan := make([]float32, 20000)
	for i := range nan {
		nan[i] = float32(math.NaN())
	}
	for name, x := range map[string][]float32{
		"no samples": nil, "one sample": {0.5}, "seven": {1, -1, 1, -1, 1, -1, 1}, "silence": make([]float32, 30000), "not a number": nan,
	} {
		f := onset.New()
		f.Begin(8000, 1)
		f.Take(x, nil)
		found := finish(f)
		if r := rhythm.Judge(marksOf(found), rhythm.Options{}); r.Why == "" {
			t.Errorf("%s: %d intervals", name, r.Intervals)
		}
		if want := float64(len(x)) / 8000; found.Seconds != want {
			t.Errorf("%s: %g s, want %g", name, found.Seconds, want)
		}
	}
	if f := onset.New(); !f.Step() || f.Found().Seconds != 0 {
		t.Error("a finder that heard nothing is not done")
	}
}

func marksOf(found onset.Found) (marks []rhythm.Mark) {
	for _, p := range found.Pulses {
		marks = append(marks, rhythm.Mark{At: p.At, Sure: p.Sure})
	}
	return marks
}

// TestEnds has pulses at the first sample and at the very end.
func TestEnds(t *testing.T) {
	x := clicks(22050, 8.01, 0, 1, 2, 3, 4, 5, 6, 7, 8)
	h := compare(22050, x, nil, []float64{0, 1, 2, 3, 4, 5, 6, 7, 8})
	if h.result.Why != "" || h.hits != 9 || h.counted != 9 {
		t.Errorf("%d of 9, %d counted, %q", h.hits, h.counted, h.result.Why)
	}
}

// TestParts has a gap, another rate and another number of channels.
func TestParts(t *testing.T) {
	f := onset.New()
	f.Begin(44100, 2)
	x := clicks(44100, 10, 1, 2, 3, 4, 5, 6, 7, 8, 9)
	f.Take(x, x)
	f.Gap(2.5)
	f.Take(x, x)
	f.Begin(16000, 1)
	f.Take(clicks(16000, 10, 1, 2, 3, 4, 5, 6, 7, 8, 9), nil)
	found := finish(f)
	if math.Abs(found.Seconds-32.5) > 1e-6 || len(found.Breaks) != 1 || math.Abs(found.Breaks[0]-10) > 1e-6 {
		t.Fatalf("%g s, breaks at %v", found.Seconds, found.Breaks)
	}
	r := rhythm.Judge(marksOf(found), rhythm.Options{Breaks: found.Breaks, Timing: found.Timing})
	// The pulse that lacks at the change of the rate, at 22.5 s, counts.
	if r.Why != "" || len(r.Stretches) != 2 || r.Intervals != 8+18 {
		t.Errorf("%q, %d stretches, %d intervals", r.Why, len(r.Stretches), r.Intervals)
	}
	if n := float64(len(found.Envelope)) * found.EnvelopeStep; math.Abs(n-32.5) > 0.01 {
		t.Errorf("the envelope is %g s long", n)
	}
	if loudest := found.Envelope[int(13.5/found.EnvelopeStep)-1:][:3]; max(loudest[0], loudest[1], loudest[2]) < 200 {
		t.Errorf("the click after the gap is not in the envelope: %v", loudest)
	}
}

// TestSteps finds clicks that stand far above the rest though the load steps at
// most of them, but takes nothing from as many that come at random.
func TestSteps(t *testing.T) {
	for _, c := range []struct {
		name string
		at   []float64
		want int
	}{
		{"steps", []float64{.15, .53, .91, 1.29, 1.916, 2.858, 4.878, 6.173}, 8},
		{"at random", []float64{.15, .72, 1.03, 2.19, 2.41, 4.1, 4.9, 6.6}, 0},
		{"few at random", []float64{.4, 2.9, 3.7, 6.1}, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			samples := clicks(8000, 7, c.at...)
			rng := rand.New(rand.NewPCG(1, 1))
			for i := range samples {
				samples[i] += float32(0.01 * rng.NormFloat64())
			}
			f := onset.New()
			f.Begin(8000, 1)
			f.Take(samples, nil)
			n := 0
			for _, p := range finish(f).Pulses {
				if p.Sure > 0.5 {
					n++
				}
			}
			if n != c.want {
				t.Errorf("%d are surely pulses, want %d", n, c.want)
			}
		})
	}
}

// TestHum knows the mains by its frequency.
func TestHum(t *testing.T) {
	for _, hertz := range []float64{50, 60} {
		x := clicks(16000, 12, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11)
		for i := range x {
			x[i] += 0.1 * float32(math.Sin(2*math.Pi*hertz*float64(i)/16000))
		}
		f := onset.New()
		f.Begin(16000, 1)
		f.Take(x, nil)
		if found := finish(f); found.Hum != hertz {
			t.Errorf("hum of %g Hz is taken for %g", hertz, found.Hum)
		}
	}
}

// TestPortions gives the same whatever the samples are handed over in.
func TestPortions(t *testing.T) {
	x := clicks(11025, 6, 0.5, 1.5, 2.5, 3.5, 4.5, 5.5)
	var want onset.Found
	for _, n := range []int{len(x), 1, 7, 1152, 5000} {
		f := onset.New()
		f.Begin(11025, 1)
		for i := 0; i < len(x); i += n {
			f.Take(x[i:min(i+n, len(x))], nil)
		}
		found := finish(f)
		if n == len(x) {
			want = found
			continue
		}
		if len(found.Pulses) != len(want.Pulses) {
			t.Fatalf("%d pulses in portions of %d, %d in one", len(found.Pulses), n, len(want.Pulses))
		}
		for i, p := range found.Pulses {
			if p != want.Pulses[i] {
				t.Errorf("portions of %d: pulse %d is %+v, not %+v", n, i, p, want.Pulses[i])
			}
		}
	}
}
