package rhythm_test

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"splittally/calc/rhythm"
)

// drawn draws marks at a pace that wanders a little and may step, with some
// doubled, some left out, and some told of.
func drawn(t *rapid.T) []rhythm.Mark {
	n := rapid.IntRange(0, 40).Draw(t, "n")
	pace := rapid.Float64Range(0.05, 50).Draw(t, "pace")
	at := rapid.Float64Range(0, 10).Draw(t, "first")
	var marks []rhythm.Mark
	for range n {
		m := rhythm.Mark{At: at, Sure: rapid.SampledFrom([]float64{0, 0.05, 0.4, 0.9, 1}).Draw(t, "sure")}
		m.Told = rapid.SampledFrom([]rhythm.Told{"", "", "", "", rhythm.Struck, rhythm.Added}).Draw(t, "told")
		marks = append(marks, m)
		at += pace * rapid.SampledFrom([]float64{1, 1, 1, 1.01, 0.99, 2, 0.3, 0.7}).Draw(t, "step")
	}
	return marks
}

// TestToldBinds holds what a person says, and that sums are those of the parts.
func TestToldBinds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		marks := drawn(t)
		o := rhythm.Options{Timing: rapid.SampledFrom([]float64{0, 0.002}).Draw(t, "timing")}
		if len(marks) > 3 && rapid.Bool().Draw(t, "break") {
			o.Breaks = []float64{(marks[1].At + marks[2].At) / 2}
		}
		r := rhythm.Judge(marks, o)
		if len(r.Uses) != len(marks) || len(r.Chances) != len(marks) {
			t.Fatalf("%d uses of %d marks", len(r.Uses), len(marks))
		}
		for i, m := range marks {
			if m.Told == rhythm.Struck && r.Uses[i] != rhythm.Out || m.Told == rhythm.Added && r.Uses[i] != rhythm.Counted {
				t.Errorf("mark %d, %s, is %s", i, m.Told, r.Uses[i])
			}
			if c := r.Chances[i]; !(c >= 0 && c <= 1) {
				t.Errorf("mark %d has a chance of %g", i, c)
			}
		}
		sum, seconds := 0, 0.0
		for _, s := range r.Stretches {
			sum += s.Intervals
			seconds += s.Seconds
			if d := marks[s.Last].At - marks[s.First].At; d != s.Seconds {
				t.Errorf("a stretch of %g s lasts %g", d, s.Seconds)
			}
		}
		if sum != r.Intervals || math.Abs(seconds-r.Seconds) > 1e-9*seconds {
			t.Errorf("%d intervals in %g s, but %d in %g", r.Intervals, r.Seconds, sum, seconds)
		}
		if r.Least > r.Intervals || r.Most < r.Intervals {
			t.Errorf("%d intervals are not between %d and %d", r.Intervals, r.Least, r.Most)
		}
	})
}

// TestWhen says that it does not matter when a run began.
func TestWhen(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		marks := drawn(t)
		for i := range marks {
			marks[i].At = math.Round(marks[i].At*1024) / 1024 // so that sums are exact
		}
		later := slices.Clone(marks)
		for i := range later {
			later[i].At += 1024
		}
		a, b := rhythm.Judge(marks, rhythm.Options{}), rhythm.Judge(later, rhythm.Options{})
		if a.Intervals != b.Intervals || a.Why != b.Why || !slices.Equal(a.Uses, b.Uses) {
			t.Errorf("%d intervals %q, later %d %q", a.Intervals, a.Why, b.Intervals, b.Why)
		}
	})
}

// TestOrder says that marks out of order are judged in order.
func TestOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		marks := drawn(t)
		turned := slices.Clone(marks)
		slices.Reverse(turned)
		a, b := rhythm.Judge(marks, rhythm.Options{}), rhythm.Judge(turned, rhythm.Options{})
		slices.Reverse(b.Uses)
		if a.Intervals != b.Intervals || !slices.Equal(a.Uses, b.Uses) {
			t.Errorf("%d intervals, turned about %d", a.Intervals, b.Intervals)
		}
	})
}

// TestMend is about a person who mends what was wrong: striking an extra or
// adding what lacks leaves the count.
func TestMend(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(8, 30).Draw(t, "n")
		pace := rapid.Float64Range(0.5, 20).Draw(t, "pace")
		skip := rapid.IntRange(2, n-3).Draw(t, "skip")
		twice := rapid.IntRange(2, n-3).Draw(t, "twice")
		var marks []rhythm.Mark
		extra := -1
		for k := range n {
			at := float64(k) * pace
			if k != skip {
				marks = append(marks, rhythm.Mark{At: at, Sure: 1})
			}
			if k == twice && k != skip && k != skip-1 {
				extra = len(marks)
				marks = append(marks, rhythm.Mark{At: at + 0.15*pace, Sure: 1})
			}
		}
		r := rhythm.Judge(marks, rhythm.Options{})
		if r.Intervals != n-1 || len(r.Missing) != 1 || extra >= 0 && r.Uses[extra] != rhythm.Extra {
			t.Fatalf("%d intervals, %d lack, %v; want %d", r.Intervals, len(r.Missing), r.Uses, n-1)
		}
		if extra >= 0 {
			marks[extra].Told = rhythm.Struck
		}
		marks = append(marks, rhythm.Mark{At: float64(skip) * pace, Told: rhythm.Added})
		if m := rhythm.Judge(marks, rhythm.Options{}); m.Intervals != n-1 || len(m.Missing) != 0 {
			t.Errorf("mended: %d intervals, %d lack; want %d, 0", m.Intervals, len(m.Missing), n-1)
		}
	})
}
