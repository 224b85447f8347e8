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
	rms     float64
	truths  int
	wantN   int // true intervals, with pulses that were left out
}

// listen runs the chain over samples.
func listen(rate int, left, right []float32) (onset.Found, []rhythm.Mark, rhythm.Result) {
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
	f.End()
	for !f.Step() {
	}
	found := f.Found()
	var marks []rhythm.Mark
	for _, p := range found.Pulses {
		marks = append(marks, rhythm.Mark{At: p.At, Sure: p.Sure})
	}
	return found, marks, rhythm.Judge(marks, rhythm.Options{Breaks: found.Breaks, Timing: found.Timing})
}

// compare sets what was counted beside the truth; a constant shift does not count.
func compare(rate int, left, right []float32, truth []float64) heard {
	h := heard{truths: len(truth)}
	h.found, h.marks, h.result = listen(rate, left, right)
	var times []float64
	for i, u := range h.result.Uses {
		if u == rhythm.Counted {
			times = append(times, h.marks[i].At)
		}
	}
	h.counted = len(times)
	gap := 0.05
	for i := 1; i < len(truth); i++ {
		gap = min(gap, 0.4*(truth[i]-truth[i-1]))
	}
	gap = max(gap, 0.006)
	// The shift that matches most.
	best, shift := -1, 0.0
	for s := -0.12; s <= 0.12; s += 0.004 {
		n := 0
		for _, d := range offsets(times, truth, s, gap/2) {
			if !math.IsNaN(d) {
				n++
			}
		}
		if n > best || n == best && math.Abs(s) < math.Abs(shift) {
			best, shift = n, s
		}
	}
	for range 3 {
		var d []float64
		for _, v := range offsets(times, truth, shift, gap) {
			if !math.IsNaN(v) {
				d = append(d, v)
			}
		}
		if len(d) == 0 {
			break
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
	return h
}

// offsets gives, for each truth, how late the nearest time is; NaN if none is near.
func offsets(times, truth []float64, shift, gap float64) []float64 {
	list := make([]float64, len(truth))
	taken := map[int]bool{}
	for i, t := range truth {
		list[i] = math.NaN()
		k, _ := slices.BinarySearch(times, t+shift)
		for _, c := range []int{k - 1, k} {
			if c >= 0 && c < len(times) && !taken[c] {
				if d := times[c] - t - shift; math.Abs(d) <= gap && (math.IsNaN(list[i]) || math.Abs(d) < math.Abs(list[i])) {
					list[i] = d
				}
			}
		}
	}
	return list
}
