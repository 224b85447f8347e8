package say

import (
	"math"
	"strings"
	"testing"

	"splittally/calc/cause"
	"splittally/calc/fit"
	"splittally/calc/gain"
)

// plain takes the blanks that don't break for plain ones.
func plain(text string) string {
	return strings.NewReplacer(Thin, " ", "\u00a0", " ").Replace(text)
}

func check(t *testing.T, got, want string) {
	t.Helper()
	if plain(got) != want {
		t.Errorf("said  %q\n want %q", plain(got), want)
	}
}

func TestLine(t *testing.T) {
	l := fit.Line{Known: true, Gain: fit.Value{Value: 0.98231, Expanded: 0.0113}}
	check(t, Line(l, fit.Value{Value: -52.4, Expanded: 20.3}),
		"Offset −52 W ± 20 W, the same at all hours; gain 0.982 ± 0.011, what the monitor shows for each kWh of the meter.")
	check(t, Line(fit.Line{Why: fit.TooFew}, fit.Value{}), "No line can be laid: there are too few points.")
}

func TestLineMeans(t *testing.T) {
	for _, c := range []struct {
		offset, gain fit.Value
		want         string
	}{
		{fit.Value{Value: 1.2, Expanded: 0.5}, fit.Value{Value: 0.9, Expanded: 0.05}, "Both show"},
		{fit.Value{Value: -1.2, Expanded: 0.5}, fit.Value{Value: 0.96, Expanded: 0.05}, "The offset shows"},
		{fit.Value{Value: 0.4, Expanded: 0.5}, fit.Value{Value: 1.1, Expanded: 0.05}, "The gain shows"},
		{fit.Value{Value: 0.5, Expanded: 0.5}, fit.Value{Value: 0.96, Expanded: 0.05}, "each may be nothing, though perhaps not both"},
		{fit.Value{Value: 40, Expanded: math.Inf(1)}, fit.Value{Value: 9, Expanded: math.Inf(1)}, "each may be nothing"},
	} {
		if got := LineMeans(fit.Line{Known: true, Offset: c.offset, Gain: c.gain}); !strings.Contains(got, c.want) {
			t.Errorf("offset %v, gain %v: %q does not say %q", c.offset, c.gain, got, c.want)
		}
	}
	if got := LineMeans(fit.Line{}); got != "" {
		t.Errorf("no line means %q", got)
	}
}

func TestLineFits(t *testing.T) {
	l := fit.Line{Known: true, ChiSquared: 3.2, DoF: 1, P: 0.07}
	check(t, LineFits(l, 0.95, false), "The points lie on the line as well as their uncertainties let them (χ² = 3.2 with 1 degree of freedom, p = 0.070).")
	for _, c := range []struct {
		confidence float64
		widened    bool
		want       string
	}{
		{0.95, true, "as well as their uncertainties let them"},
		{0.90, true, "intervals are widened by as much"},
		{0.90, false, "the line or those uncertainties don’t fit"},
	} {
		if got := LineFits(l, c.confidence, c.widened); !strings.Contains(got, c.want) {
			t.Errorf("p = 0.07 at %g, widened %v: %q", c.confidence, c.widened, got)
		}
	}
	for _, l := range []fit.Line{{}, {Known: true}} {
		if got := LineFits(l, 0.95, false); got != "" {
			t.Errorf("%+v: %q", l, got)
		}
	}
}

// x and y mean nothing to who reads that there is no line.
func TestNoLineIsToldOfTheMeter(t *testing.T) {
	for _, why := range []fit.Reason{fit.TooFew, fit.Alike, fit.Uncertain, fit.Certain, fit.NoNumber} {
		if got := Line(fit.Line{Why: why}, fit.Value{}); strings.Contains(got, " x ") {
			t.Errorf("%q tells of x", got)
		}
	}
}

func TestShare(t *testing.T) {
	for p, want := range map[float64]string{0: "under 1 %", 0.002: "under 1 %", 0.006: "1 %", 0.724: "72 %", 0.994: "99 %", 0.9999: "over 99 %", 1: "over 99 %"} {
		check(t, Share(p), want)
	}
}

func TestRemaining(t *testing.T) {
	check(t, Remaining(cause.Remaining{Period: 1, Percent: -0.44, Expanded: 1.12}), "bill 2: −0.4 % ± 1.1 %")
}

func TestTold(t *testing.T) {
	list := []cause.Explanation{{Name: "A", Probability: 0.99}, {Name: "B", Probability: 0.006}, {Name: "C.", Probability: 0.003}, {Name: "D"}}
	for _, c := range []struct {
		causes []cause.Explanation
		open   int
		n      int
		want   string
	}{
		{nil, 0, 0, ""},
		{list[:2], 1, 2, ""},
		{list, 1, 2, "Also weighed, and explained far less well: C; D."},
		{list, 3, 3, "Also weighed, and explained far less well: D."}, // not told apart: never only named
		{list[3:], 1, 1, ""},
	} {
		if n, others := Told(cause.Weighed{Causes: c.causes, Open: c.open}); n != c.n || others != c.want {
			t.Errorf("%d causes, %d open: %d, %q, want %d, %q", len(c.causes), c.open, n, others, c.n, c.want)
		}
	}
}

func TestBills(t *testing.T) {
	for want, periods := range map[string][]int{"no bill": nil, "bill 3": {2}, "bills 1 and 2": {0, 1}, "bills 1, 2 and 4": {0, 1, 3}} {
		check(t, Bills(periods), want)
	}
}

func TestFound(t *testing.T) {
	c := gain.Correction{Factor: 0.97843, Percent: -2.157, Expanded: 0.452}
	f := gain.Found{Pairs: 3, Reference: 121.37, Monitor: 124.07, Correction: c}
	check(t, Found(f, "V"), "3 pairs, 121.4 V by the reference, 124.1 V by the monitor: × 0.9784 (−2.16 % ± 0.45 %)")
	f = gain.Found{Pairs: 1, Reference: 14.052, Monitor: 14.36, Correction: c}
	check(t, Found(f, "A"), "1 pair, 14.05 A by the reference, 14.36 A by the monitor: × 0.9784 (−2.16 % ± 0.45 %)")
	f = gain.Found{Pairs: 2, Reference: 1473.2, Monitor: 1505.8, Correction: c}
	check(t, Found(f, "W"), "2 steps, 1473 W by the reference, 1506 W by the monitor: × 0.9784 (−2.16 % ± 0.45 %)")
}

func TestEveryBasisHasWords(t *testing.T) {
	seen := map[string]gain.Basis{}
	for _, b := range []gain.Basis{gain.ByPower, gain.ByVoltsAndAmp, gain.ByVolts, gain.ByAmps, ""} {
		if other, twice := seen[Basis(b)]; twice {
			t.Errorf("%q and %q rest on %q alike", b, other, Basis(b))
		}
		seen[Basis(b)] = b
	}
}

func TestEveryServiceHasWords(t *testing.T) {
	seen := map[string]gain.Service{}
	for _, v := range []gain.Service{gain.Single, gain.Split, gain.Three, gain.TwoOfThree, ""} {
		said := Service(gain.Result{Service: v, ServiceFrom: "as typed"})
		if other, twice := seen[said]; twice || !strings.HasSuffix(said, "as typed.") {
			t.Errorf("%q and %q are both called %q", v, other, said)
		}
		seen[said] = v
	}
	check(t, Service(gain.Result{}), "")
}
