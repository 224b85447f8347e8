package onset_test

import (
	"math"
	"slices"

	"splittally/calc/onset"
	"splittally/calc/rhythm"
)

// heard is what the chain made of a recording whose pulses are known.
type heard struct {
	found   onset.Found
	result  rhythm.Result
	marks   []rhythm.Mark
	counted int // marks that count
	hits    int // of them, that are pulses
	truths  int
	rms     float64 // of their times, in seconds; a constant shift does not count
}

// compare runs the chain over samples and sets what was counted beside the truth.
func compare(rate int, left, right []float32, truth []float64) heard {
	f := onset.New()
	channels := 1
	if right != nil {
		channels = 2
	}
	f.Begin(rate, channels)
	for i := 0; i < len(left); i += 1152 {
		end := min(len(left), i+1152)
		if right != nil {
			f.Take(left[i:end], right[i:end])
		} else {
			f.Take(left[i:end], nil)
		}
	}
	return conclude(f, truth)
}

// conclude searches what a finder has listened to.
func conclude(f *onset.Finder, truth []float64) heard {
	f.End()
	for !f.Step() {
	}
	h := heard{truths: len(truth), found: f.Found()}
	for _, p := range h.found.Pulses {
		h.marks = append(h.marks, rhythm.Mark{At: p.At, Sure: p.Sure})
	}
	h.result = rhythm.Judge(h.marks, rhythm.Options{Breaks: h.found.Breaks, Timing: h.found.Timing})
	var times []float64
	for i, u := range h.result.Uses {
		if u == rhythm.Counted {
			times = append(times, h.marks[i].At)
		}
	}
	h.counted = len(times)
	h.match(times, truth)
	return h
}

// match pairs times with truths, whatever the shift that is common to all.
func (h *heard) match(times, truth []float64) {
	gap := 0.05
	for i := 1; i < len(truth); i++ {
		gap = min(gap, 0.4*(truth[i]-truth[i-1]))
	}
	gap = max(gap, 0.006)
	// The shift that pairs most: MP3 puts up to 0.28 s in front.
	best, shift := -1, 0.0
	for s := -0.3; s <= 0.3; s += 0.004 {
		if n := len(offsets(times, truth, s, gap/2)); n > best || n == best && math.Abs(s) < math.Abs(shift) {
			best, shift = n, s
		}
	}
	for range 3 {
		d := offsets(times, truth, shift, gap)
		if len(d) == 0 {
			return
		}
		slices.Sort(d)
		shift += d[len(d)/2]
		sum, mean := 0.0, 0.0
		for _, v := range d {
			mean += v / float64(len(d))
		}
		for _, v := range d {
			sum += (v - mean) * (v - mean)
		}
		h.hits, h.rms = len(d), math.Sqrt(sum/float64(len(d)))
	}
}

// offsets gives how late each truth was found, of those that were.
func offsets(times, truth []float64, shift, gap float64) (list []float64) {
	for _, t := range truth {
		k, _ := slices.BinarySearch(times, t+shift)
		best := math.Inf(1)
		for c := max(0, k-1); c <= k && c < len(times); c++ {
			if d := times[c] - t - shift; math.Abs(d) < math.Abs(best) {
				best = d
			}
		}
		if math.Abs(best) <= gap {
			list = append(list, best)
		}
	}
	return list
}
