package pulse

import (
	"math"
	"math/rand/v2"
	"testing"

	"splittally/calc/rhythm"
)

// A pencil that taps along is recorded like a meter's clicks, and to a fraction
// of a millisecond. That a hand made them shows in how they scatter, wherever
// there are enough of them; where there are not, a hand is taken.
func TestARecordedHandIsNoBetterThanAHand(t *testing.T) {
	pencil := tapped(41, 2, 0.06)
	pencil.Timing = 0.0005
	whole := marked(t, "sound", pencil, "", nil).Runs[0]
	parted := func(h *rhythm.Result) {
		h.Stretches = []rhythm.Stretch{{First: 0, Last: 19, Intervals: 19, Seconds: 38}, {First: 20, Last: 40, Intervals: 20, Seconds: 40}}
		h.Intervals, h.Least, h.Most, h.Heard, h.Seconds = 39, 39, 39, 39, 78
	}
	pencil.Breaks = []float64{40}
	broken := marked(t, "sound", pencil, "", parted).Runs[0]
	near(t, "one stretch", part(t, whole.Watts.Budget, markNamed).HalfWidth, 0.06, 0.02)
	near(t, "two", part(t, broken.Watts.Budget, markNamed).HalfWidth, 0.06, 0.02)
	if broken.Watts.Expanded < whole.Watts.Expanded {
		t.Errorf("± %v W with a break, ± %v W without", broken.Watts.Expanded, whole.Watts.Expanded)
	}
	doubtful := func(h *rhythm.Result) { h.Intervals, h.Most, h.Heard = 41, 41, 40 }
	heard := marked(t, "sound", pencil, "", doubtful, "timing.runs.0.missing", "heard").Runs[0]
	near(t, "just as they are", part(t, heard.Watts.Budget, markNamed).HalfWidth, 0.06, 0.02)
	// Where one in two lacks, no three follow one another.
	lacking := func(h *rhythm.Result) {
		for i := range 40 {
			h.Missing = append(h.Missing, rhythm.Missing{After: i, Count: 1, Chance: 1})
		}
		h.Intervals, h.Least, h.Most, h.Jitter = 80, 80, 80, 0.06
	}
	lacks := marked(t, "sound", pencil, "", lacking).Runs[0]
	near(t, "with half of them lacking", part(t, lacks.Watts.Budget, markNamed).HalfWidth, 0.06, 1e-9)

	for _, n := range []int{2, 3} {
		few := pencil
		few.Breaks, few.Marks = nil, pencil.Marks[:n]
		p := marked(t, "sound", few, "", nil).Runs[0].Watts.Budget[0]
		if p.HalfWidth != assumedHand || !p.Assumed || p.Remedy != recordLonger || n == 2 && p.Name != unshownNamed {
			t.Errorf("%d taps: %+v", n, p)
		}
	}
	two := Marks{By: "sound", Timing: 0.0005}.Tap(1).Tap(3)
	f := marked(t, "sound", two, "", nil).Runs[0]
	near(t, "two taps", f.Watts.Expanded/f.Watts.Value, 1.96*0.1*1.4142/2, 0.001)
	if l := f.For(5, 0.95); !l.Possible || l.Seconds < 4 {
		t.Errorf("± 5 %% wants %+v", l)
	}
	// A meter's own clicks, three of them, tell that no hand made them.
	three := two.Tap(5)
	if p := marked(t, "sound", three, "", nil).Runs[0].Watts.Budget[0]; p.HalfWidth > 0.001 || p.Assumed {
		t.Errorf("%+v", p)
	}
}

// Whoever clicks into a recording whose sounds are timed to half a millisecond,
// the meter or a hand, the stated 95 % holds the power. 400 trials put ± 2.2 %
// (two standard deviations) around a true 95 %.
func TestRecordedClicksHoldWhatTheySay(t *testing.T) {
	if testing.Short() {
		t.Skip("thousands of made-up recordings prove nothing more the second time")
	}
	const trials, pace = 400, 2.0
	for _, hand := range []float64{0.0005, 0.03, 0.06, assumedHand} {
		for _, n := range []int{2, 3, 5, 12, 40} {
			r := rand.New(rand.NewPCG(6, 2026))
			held := 0.0
			for range trials {
				m := Marks{By: "sound", Timing: 0.0005}
				for i := range n {
					m.Marks = append(m.Marks, rhythm.Mark{At: 5 + pace*float64(i) + hand*r.NormFloat64(), Sure: 1})
				}
				f := Read(Timing{Constant: "1000", Runs: []Run{{How: "sound", Marks: Format(m)}}}, Options{}).Runs[0]
				if f.Waits != "" {
					t.Fatalf("%d clicks within %g s wait for %q", n, hand, f.Waits)
				}
				if math.Abs(f.Watts.Value-3600/pace) <= f.Watts.Expanded {
					held += 100. / trials
				}
			}
			if held < 92.5 {
				t.Errorf("%d clicks within %g s: the power is held %.1f %%", n, hand, held)
			}
		}
	}
}
