package correct

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"splittally/calc/calendar"
	"splittally/calc/compare"
	"splittally/calc/energy"
	"splittally/calc/uncertainty"
)

const kWh = energy.KilowattHour

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) && got != want {
		t.Errorf("%s = %.12g, want %.12g ± %g", what, got, want, tolerance)
	}
}

// month is the comparison of one month of 30 days; reads and guesses are the
// doubts that tests ask for.
type month struct {
	w, r       energy.Energy
	monitor    float64 // percent, half-width
	class      float64 // percent, half-width
	noise      float64 // kWh, standard, of its own
	read       float64 // kWh, standard, of each read
	guessStart bool
	guessEnd   bool
}

func readAt(i int) string { return "read " + calendar.Day(20000+30*i).String() }

func (m month) period(i int) Period {
	w, r := compare.Amount{Energy: m.w}, compare.Amount{Energy: m.r}
	if m.monitor > 0 {
		w.AddOfReading(uncertainty.Part{Source: "accuracy of monitor 0", Name: "monitor", HalfWidth: m.monitor, Distribution: uncertainty.Rectangular, Promise: true})
	}
	if m.class > 0 {
		r.AddOfReading(uncertainty.Part{Source: "class", Name: "class", HalfWidth: m.class, Distribution: uncertainty.Rectangular, Promise: true})
	}
	if m.noise > 0 {
		w.Add(uncertainty.Part{Name: "noise", HalfWidth: m.noise, Distribution: uncertainty.Normal})
	}
	if m.read > 0 {
		r.Add(uncertainty.Part{Source: readAt(i), HalfWidth: m.read, Sensitivity: -1, Distribution: uncertainty.Normal})
		r.Add(uncertainty.Part{Source: readAt(i + 1), HalfWidth: m.read, Distribution: uncertainty.Normal})
	}
	if m.guessStart {
		r.EstimatedReads = append(r.EstimatedReads, readAt(i))
	}
	if m.guessEnd {
		r.EstimatedReads = append(r.EstimatedReads, readAt(i+1))
	}
	first := calendar.Day(20000 + 30*i)
	return Period{i, compare.Period{Span: calendar.Span{First: first, End: first + 30}, Comparison: compare.Judge(w, r, 0.95)}}
}

// input makes the bills of successive months.
func input(months ...month) Bills {
	in := Bills{Confidence: 0.95, Accuracy: "accuracy of monitor 0", Setting: Typed{"monitors.0.setting", "1.000"}}
	for i, m := range months {
		in.Periods = append(in.Periods, m.period(i))
	}
	return in
}

func found(t *testing.T, in Bills) Correction {
	t.Helper()
	c, ok := FromPeriods(in)
	if !ok {
		t.Fatal("no correction")
	}
	return c
}

// Worked by hand. F = 3000/3085 = 0.972447. Its relative u: class 1 %/√3 =
// 0.57735 %, the two noises √8/3085 = 0.091685 %; the read between has gone and
// those at the ends are √18/3000 = 0.141421 %. In all 0.601448 %, times F.
//
// Left out, month 1: 1.025 · 2000/2060 − 1 = −0.485437 %. Its u: noises 2/1025
// and 2/2060; the read at the start 3/1000; the one between shortens month 1 and
// lengthens month 2, 3/1000 + 3/2000; that at the end 3/2000. Their squares, in
// 10⁻⁶: 3.80726 + 0.942596 + 9 + 20.25 + 2.25 = 36.249856, so 0.602079 %, times
// 0.99514563 is 0.599156 %, and times 1.959964 1.174325 %.
func TestTwoMonthsByHand(t *testing.T) {
	c := found(t, input(
		month{w: 1025 * kWh, r: 1000 * kWh, monitor: 2, class: 1, noise: 2, read: 3},
		month{w: 2060 * kWh, r: 2000 * kWh, monitor: 2, class: 1, noise: 2, read: 3},
	))
	near(t, "factor", c.Factor, 0.972447326, 1e-9)
	near(t, "u of the factor", c.Standard, 0.00601448*0.972447, 1e-8)
	near(t, "U of the factor", c.Expanded, 1.959964*c.Standard, 1e-9)
	if !c.Significant || c.Basis != FromBills {
		t.Errorf("%v, significant %v", c.Basis, c.Significant)
	}
	want := []Judged{
		{Period: 0, HeldOut: true, Before: 2.5, After: -0.485437, Expanded: 1.174325, Verdict: compare.Agree, Predicted: -0.37},
		// 1.03 · 1000/1025 − 1 = 0.487805 %; the same relative u, times 1.00487805.
		{Period: 1, HeldOut: true, Before: 3, After: 0.487805, Expanded: 1.185810, Verdict: compare.Agree, Predicted: 0.116},
	}
	if d := cmp.Diff(want, c.Judged, cmpopts.EquateApprox(0, 2e-6), cmpopts.EquateEmpty()); d != "" {
		t.Errorf("judged (-want +got):\n%s", d)
	}
	if d := cmp.Diff([]int{0, 1}, c.Found); d != "" {
		t.Error(d)
	}
}

// Dropping the monitor's accuracy matters for the factor alone: a gain that is
// off always by the same cancels when bills judge each other. So does the class.
func TestWhatIsConstantDropsOut(t *testing.T) {
	plain := month{w: 1025 * kWh, r: 1000 * kWh, noise: 2}
	stated := plain
	stated.monitor, stated.class = 3, 2
	a, b := found(t, input(plain, plain, plain)), found(t, input(stated, stated, stated))
	for i := range a.Judged {
		near(t, "left out", b.Judged[i].Expanded, a.Judged[i].Expanded, 1e-9)
	}
	near(t, "the class in the factor", b.Standard, a.Factor*math.Hypot(a.Standard/a.Factor, 0.02/math.Sqrt(3)), 1e-9)

	in := input(stated, stated, stated)
	in.Accuracy = "" // nothing is dropped now, and cancels all the same
	for i, j := range found(t, in).Judged {
		near(t, "left out, with it", j.Expanded, a.Judged[i].Expanded, 1e-9)
	}
}

func TestOneMonthIsNeverJudgedOnItself(t *testing.T) {
	c := found(t, input(month{w: 1025 * kWh, r: 1000 * kWh, monitor: 2, class: 1, noise: 2}))
	want := []Judged{{Period: 0, Before: 2.5, Verdict: compare.Nothing, Predicted: 0.04}}
	if d := cmp.Diff(want, c.Judged, cmpopts.EquateApprox(0, 1e-9), cmpopts.EquateEmpty()); d != "" {
		t.Errorf("judged (-want +got):\n%s", d)
	}
}

func TestGuesses(t *testing.T) {
	sound := month{w: 1010 * kWh, r: 1000 * kWh, class: 1, monitor: 2, noise: 1}
	before, after := sound, sound
	before.r, before.guessEnd = 900*kWh, true
	after.r, after.guessStart = 1100*kWh, true
	t.Run("joined", func(t *testing.T) {
		c := found(t, input(sound, before, after))
		near(t, "factor", c.Factor, 3000./3030, 1e-12)
		if d := cmp.Diff([]int{0, 1, 2}, c.Found); d != "" {
			t.Error(d)
		}
		if len(c.Judged) != 2 || c.Judged[1].Period != 1 || cmp.Diff([]int{2}, c.Judged[1].With) != "" {
			t.Fatalf("judged %+v", c.Judged)
		}
		for _, j := range c.Judged {
			near(t, "after", j.After, 0, 1e-9)
			if !j.HeldOut || j.Verdict != compare.Agree {
				t.Errorf("%+v", j)
			}
		}
	})
	t.Run("left out", func(t *testing.T) {
		c := found(t, input(sound, before))
		near(t, "factor", c.Factor, 1000./1010, 1e-12)
		if d := cmp.Diff([]int{0}, c.Found); d != "" {
			t.Error(d)
		}
		if c.Judged[0].HeldOut || !c.Judged[1].HeldOut || c.Judged[1].Verdict != compare.CannotTell {
			t.Errorf("judged %+v", c.Judged)
		}
		near(t, "the guess", c.Judged[1].After, 100./9, 1e-9)
	})
	t.Run("nothing else", func(t *testing.T) {
		if c, ok := FromPeriods(input(before)); ok {
			t.Errorf("%+v", c)
		}
	})
}

// A bill that was typed twice must not judge itself.
func TestOverlappingBills(t *testing.T) {
	m, other := month{w: 1030 * kWh, r: 1000 * kWh, class: 1}, month{w: 1010 * kWh, r: 1000 * kWh, class: 1}
	in := input(m, other)
	twice := m.period(0)
	twice.Index = 2
	in.Periods = append(in.Periods, twice)
	c := found(t, in)
	near(t, "judged by the other month alone", c.Judged[0].After, 100*(1.03/1.01-1), 1e-9)
	near(t, "and so is the second", c.Judged[2].After, 100*(1.03/1.01-1), 1e-9)
	in.Periods = []Period{m.period(0), twice}
	for _, j := range found(t, in).Judged {
		if j.HeldOut {
			t.Errorf("judged by itself: %+v", j)
		}
	}
}

func TestNothingToFindAFactorOn(t *testing.T) {
	for name, in := range map[string]Bills{
		"no bill":         input(),
		"no reference":    input(month{w: 1000 * kWh}),
		"no energy":       input(month{r: 1000 * kWh}),
		"a thousandfold":  input(month{w: 1000 * kWh, r: kWh}),
		"not compared":    {Periods: []Period{{}}, Confidence: 0.95},
		"does not fit in": input(month{w: math.MaxInt64 - 1, r: math.MaxInt64 - 1}, month{w: math.MaxInt64 - 1, r: math.MaxInt64 - 1}),
	} {
		if c, ok := FromPeriods(in); ok {
			t.Errorf("%s: %+v", name, c)
		}
	}
}

func TestVerdict(t *testing.T) {
	for _, c := range []struct {
		name                     string
		after, expanded, promise float64
		guessed                  bool
		want                     compare.Verdict
	}{
		{"within all", 0.5, 1, 2, false, compare.Agree},
		{"above the doubt", 1.1, 1, 2, false, compare.DifferHigh},
		{"below the doubt", -1.1, 1, 2, false, compare.DifferLow},
		{"at the doubt", 1, 1, 2, false, compare.Agree},
		{"no doubt, no error", 0, 0, 2, false, compare.Agree},
		{"beyond the promise", 2.5, 3, 2, false, compare.CannotTell},
		{"wide", 0, 4.1, 2, false, compare.CannotTell},
		{"nothing promised", 0, 1, 0, false, compare.CannotTell},
		{"a guess", 5, 1, 2, true, compare.CannotTell},
		{"no limit", 5, math.Inf(1), 2, false, compare.CannotTell},
	} {
		if got := verdict(c.after, c.expanded, c.promise, c.guessed); got != c.want {
			t.Errorf("%s: %s, want %s", c.name, got, c.want)
		}
	}
}

// Half to even, once; the sign makes no difference.
func TestFactorOfAnEnergy(t *testing.T) {
	half := ratio{decimal.NewFromInt(1), decimal.NewFromInt(2)}
	third := ratio{decimal.NewFromInt(2), decimal.NewFromInt(3)}
	for _, c := range []struct {
		by       ratio
		is, want energy.Energy
	}{
		{half, 1, 0},
		{half, 3, 2},
		{half, 5, 2},
		{half, -1, 0},
		{half, -3, -2},
		{third, 1, 1},
		{third, 2, 1},
		{third, -2, -1},
		{third, 9_000_000_000_000_000_001, 6_000_000_000_000_000_001},
	} {
		if got, err := c.by.of(c.is); got != c.want || err != nil {
			t.Errorf("%v times %d = %d, %v; want %d", c.by, c.is, got, err, c.want)
		}
	}
	twice := ratio{decimal.NewFromInt(2), decimal.NewFromInt(1)}
	if _, err := twice.of(math.MaxInt64 / 2 * 2); err == nil {
		t.Error("does not fit and says nothing")
	}
}

// each is of, by a shorter way.
func TestEachIsOf(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := ratio{
			energy.Energy(rapid.Int64Range(1, math.MaxInt64/2).Draw(t, "meter")).Decimal(),
			energy.Energy(rapid.Int64Range(1, math.MaxInt64/2).Draw(t, "monitor")).Decimal(),
		}
		if rapid.Bool().Draw(t, "factor") {
			r = ratio{decimal.NewFromFloat(rapid.Float64Range(0.01, 100).Draw(t, "factor of legs")), decimal.NewFromInt(1)}
		}
		e := energy.Energy(rapid.Int64().Draw(t, "energy"))
		want, wrong := r.of(e)
		got, err := r.each()(e)
		if got != want || (err == nil) != (wrong == nil) {
			t.Fatalf("%d times %s/%s: %d, %v; want %d, %v", e, r.num, r.den, got, err, want, wrong)
		}
	})
}
