package gain

import (
	"math"
	"strings"
	"testing"
)

// known makes a result of which the whole home's volts are known.
func known(factor, expanded float64) Result {
	percent := 100 * (factor - 1)
	return Result{
		Given: true, PowerFactor: 0.9, PowerFactorAssumed: true,
		Volts: Whole{Given: true, Complete: true, Correction: Correction{
			Factor: factor, Percent: percent, Expanded: expanded, Significant: math.Abs(percent) > expanded,
		}},
	}
}

func TestReach(t *testing.T) {
	for _, c := range []struct {
		name              string
		factor, doubt     float64 // of the volts
		percent, expanded float64
		left              float64
		explains          Explains
		current           float64
		words             string // some of the first sentence
	}{
		{"volts low, energy high", 1.017, 0.8, 4.4, 2.0, 6.1748, Opposite, 1 / 1.061748, "The volts read low by 1.67\u202f%\u00a0±\u00a00.80\u202f%, but the energy reads high by 4.4\u202f%\u00a0±\u00a02.0\u202f%. The voltage gain is not the cause, or something else outweighs it: with the volts put right the error would be +6.2\u202f%\u00a0±\u00a02.2\u202f%."},
		{"volts high, energy low", 0.972, 0.8, -4.4, 2.0, -7.0768, Opposite, 1 / 0.929232, "The volts read high by 2.88"},
		{"volts are all", 0.972, 0.8, 3.5, 2.0, 0.602, All, 0, "the voltage explains the error"},
		{"volts are a part", 0.972, 0.8, 7.0, 2.0, 4.004, Partly, 1 / 1.04004, "The voltage explains a part"},
		{"more than enough", 0.94, 0.8, 2.5, 1.0, -3.65, Beyond, 1 / 0.9635, "something else works against it"},
		{"volts are right", 1.001, 0.8, 4.4, 2.0, 4.5044, VoltsRight, 1 / 1.045044, "The voltage does not explain an error of +4.4"},
		{"can't be told", 0.993, 0.8, 2.4, 2.3, 1.6832, CannotTell, 0, "it can’t tell well enough"},
		{"no error", 0.993, 0.8, 0.5, 2.3, -0.2035, NoError, 0, "nothing yet for the voltage to explain"},
		{"hidden", 0.96, 0.8, 0.5, 2.3, -3.52, Hidden, 1 / 0.9648, "something else hides what the volts do"},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := known(c.factor, c.doubt).Reach(c.percent, c.expanded)
			near(t, "left", r.Left, c.left, 1e-4)
			near(t, "left expanded", r.LeftExpanded, math.Hypot(c.expanded*c.factor, (1+c.percent/100)*c.doubt), 1e-12)
			near(t, "current", r.Current, c.current, 1e-5)
			if r.Explains != c.explains || !strings.Contains(r.Words[0], c.words) {
				t.Errorf("%s: %q", r.Explains, r.Words)
			}
			if want := map[bool]int{true: 4, false: 1}[c.current != 0]; len(r.Words) != want {
				t.Errorf("%d sentences, want %d: %q", len(r.Words), want, r.Words)
			}
		})
	}
}

// What is left, by size, against a class 1 transformer at power factor 0.9: at
// 20 % of the rated current 1.5 and 1.3 %, at 5 % 3.0 and 2.7 %.
func TestReachOfAClass(t *testing.T) {
	for _, c := range []struct {
		percent, expanded float64
		words             string
	}{
		{2.7, 0.5, "is within what a class 1 current transformer may be off at 20\u202f% of the rated current (ratio 1.5\u202f%, displacement 1.3\u202f%; IEC 61869-2)."},
		{-4.0, 0.5, "and within what it may at 5\u202f%"},
		{6.0, 0.8, "but not by more than the uncertainty"},
		{12, 0.8, "something other than the current must be in it"},
	} {
		words := known(1, 0.1).Reach(c.percent, c.expanded).Words
		if last := words[len(words)-1]; !strings.Contains(last, c.words) {
			t.Errorf("%+g %%: %s", c.percent, last)
		}
		if said := words[len(words)-2]; !strings.HasPrefix(said, "At a power factor of 0.90, which is assumed, a phase displacement of 60 minutes of arc changes the energy by 0.86") {
			t.Error(said)
		}
	}
}

// Amperes and steps that were measured have their say about what is left.
func TestReachWithAmpsAndSteps(t *testing.T) {
	r := known(1, 0.1)
	r.Amps = Whole{Given: true, Correction: Correction{Factor: 0.95, Expanded: 1}}
	r.Power = Whole{Given: true, Correction: Correction{Factor: 0.96, Expanded: 1}}
	r.Volts.Complete, r.PowerFactorAssumed = false, false
	words := strings.Join(r.Reach(5, 1).Words, "\n")
	for _, want := range []string{
		"Not every leg’s volts were measured", "The current pairs give ×\u00a00.9500\u00a0±\u00a00.0100, which fits.",
		"that would leave +0.8\u202f%\u00a0±\u00a01.4\u202f%.", "At a power factor of 0.90 a phase",
	} {
		if !strings.Contains(words, want) {
			t.Errorf("%q is not in\n%s", want, words)
		}
	}
	r.Amps.Factor = 1
	if words := strings.Join(r.Reach(5, 1).Words, "\n"); !strings.Contains(words, "which is not that") {
		t.Error(words)
	}
}

func TestReachWithoutVolts(t *testing.T) {
	r := Read(Checks{Legs: []Leg{current("A", "20.4/20.0")}}, Options{}).Reach(3, 1)
	if r.Left != 3 || r.LeftExpanded != 1 || r.Explains != "" || r.Words != nil || r.Current != 0 {
		t.Errorf("%+v", r)
	}
	// A monitor that counted nothing leaves no gain to speak of.
	if r := known(1, 0.1).Reach(-100, 1); r.Current != 0 || r.Explains != VoltsRight {
		t.Errorf("%+v", r)
	}
}

func TestPowerFactorTyped(t *testing.T) {
	for _, c := range []struct {
		typed   string
		want    float64
		assumed bool
	}{{"", 0.9, true}, {"0,85", 0.85, false}, {"1", 1, false}, {".1", 0.1, false}, {"0.09", 0.9, true}, {"90", 0.9, true}, {"-0.9", 0.9, true}, {"good", 0.9, true}} {
		r := Read(Checks{PowerFactor: c.typed}, Options{Path: "checks"})
		if c.typed != "" && c.assumed {
			wantSaid(t, r, "problem checks.power-factor")
		} else {
			wantSaid(t, r)
		}
		if r.PowerFactor != c.want || r.PowerFactorAssumed != c.assumed {
			t.Errorf("%q: %v, assumed %v", c.typed, r.PowerFactor, r.PowerFactorAssumed)
		}
	}
}

// The uncertainty of the gain on the current is what a small change of the
// error that is left makes of it, taken as far as that error's uncertainty.
func TestCurrentFollowsWhatIsLeft(t *testing.T) {
	for _, percent := range []float64{-30, -4, 6, 40} {
		r := known(1, 0.1).Reach(percent, 1.5)
		const step = 1e-4
		at := func(left float64) float64 { return 100 / (1 + left/100) }
		near(t, "gain", 100*r.Current, at(r.Left), 1e-9)
		near(t, "its uncertainty", r.CurrentExpanded, (at(r.Left-step)-at(r.Left+step))/(2*step)*r.LeftExpanded, 1e-6)
	}
}
