package rhythm_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"splittally/calc/rhythm"
)

// taps makes marks that are all sure, from intervals.
func taps(first float64, intervals ...float64) []rhythm.Mark {
	marks := []rhythm.Mark{{At: first, Sure: 1}}
	for _, d := range intervals {
		first += d
		marks = append(marks, rhythm.Mark{At: first, Sure: 1})
	}
	return marks
}

func repeat(d float64, n int) []float64 {
	var list []float64
	for range n {
		list = append(list, d)
	}
	return list
}

func join(lists ...[]float64) []float64 {
	var all []float64
	for _, l := range lists {
		all = append(all, l...)
	}
	return all
}

func TestJudge(t *testing.T) {
	for _, c := range []struct {
		name      string
		marks     []rhythm.Mark
		intervals int
		lacks     int
		extras    int
	}{
		{"even", taps(1, repeat(3.6, 19)...), 19, 0, 0},
		{"two", taps(1, 5), 1, 0, 0},
		{"three", taps(1, 5, 5.1), 2, 0, 0},
		{"very slow", taps(10, 50, 50), 2, 0, 0},
		{"steps", taps(1, join(repeat(7.2, 6), repeat(1.8, 15), repeat(.72, 30), repeat(3.6, 6))...), 57, 0, 0},
		{"limping", taps(1, join(repeat(0, 0), []float64{.2285, .2185, .2285, .2185, .2285, .2185, .2285, .2185, .2285, .2185})...), 10, 0, 0},
		{"one lacks", taps(1, join(repeat(2, 8), []float64{4}, repeat(2, 7))...), 17, 1, 0},
		{"three lack", taps(1, join(repeat(2, 8), []float64{8.02}, repeat(2, 7))...), 19, 3, 0},
		{"one double", taps(1, join(repeat(2, 8), []float64{.2, 1.8}, repeat(2, 7))...), 16, 0, 1},
		{"hand, one lacks", taps(1, 2.5, 2.42, 2.6, 2.45, 2.55, 5.05, 2.4, 2.61, 2.5), 10, 1, 0},
		{"hand, one double", taps(1, 2.5, 2.42, 2.6, 2.45, 2.55, .15, 2.38, 2.4, 2.61, 2.5), 9, 0, 1},
		{"a step within an interval", taps(1, join(repeat(.116, 13), []float64{.226}, repeat(.25, 6))...), 20, 0, 0},
		{"few, one lacks", taps(1, 2, 2, 4, 2), 5, 1, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := rhythm.Judge(c.marks, rhythm.Options{})
			lacks, extras := 0, 0
			for _, m := range r.Missing {
				lacks += m.Count
			}
			for _, u := range r.Uses {
				if u != rhythm.Counted {
					extras++
				}
			}
			if r.Why != "" || r.Intervals != c.intervals || lacks != c.lacks || extras != c.extras {
				t.Errorf("Judge = %q, %d intervals, %d lack, %d extra; want %d, %d, %d\n%+v", r.Why, r.Intervals, lacks, extras, c.intervals, c.lacks, c.extras, r)
			}
		})
	}
}

func BenchmarkJudge(b *testing.B) {
	for _, n := range []int{200, 72000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			rng := rand.New(rand.NewPCG(1, 2))
			var marks []rhythm.Mark
			for i := range n {
				marks = append(marks, rhythm.Mark{At: float64(i)*0.05 + 0.001*rng.NormFloat64(), Sure: 0.98})
			}
			for b.Loop() {
				rhythm.Judge(marks, rhythm.Options{Timing: 0.001})
			}
		})
	}
}
