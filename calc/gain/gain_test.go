package gain

import (
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"splittally/calc/remark/remarktest"
	"splittally/calc/uncertainty"
)

// leg makes a leg of pairs written as "reference/monitor".
func leg(name string, pairs ...string) Leg {
	l := Leg{Name: name}
	for _, p := range pairs {
		reference, monitor, _ := strings.Cut(p, "/")
		l.Pairs = append(l.Pairs, Pair{reference, monitor})
	}
	return l
}

// exact is a voltmeter without error, so that other parts stand alone.
var exact = Accuracy{Percent: "0", Digits: "0"}

func said(r Result) []string { return remarktest.Said(r.Problems, nil, r.Notices) }

func wantSaid(t *testing.T, r Result, want ...string) {
	t.Helper()
	remarktest.Want(t, said(r), want...)
}

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: %v, want %v within %v", what, got, want, within)
	}
}

// Worked by hand: gains 121/120, 122/120, 120/120, so a mean of 1.00833 and a
// deviation of 1/120, over √3 0.4811 %. The multimeter: 1 % of 121 V and 2
// digits of 0.1 V are 1.41 V, over √3 and 120 V 0.6784 %. The monitor's 0.1 V:
// 0.05 V over √3, times 1.00833 over 120 V, 0.02426 %. Together 0.8320 %, with
// 2 · (0.8320/0.4811)⁴ = 17.9 degrees of freedom.
func TestOneLegByHand(t *testing.T) {
	r := Read(Checks{Legs: []Leg{leg("A", "121.0/120.0", "122.0/120.0", "120.0/120.0")}, Voltmeter: Accuracy{"1.0", "2"}}, Options{})
	wantSaid(t, r)
	l := r.Legs[0]
	near(t, "factor", l.Factor, 1.0083333, 1e-7)
	near(t, "percent", l.Percent, 0.83333, 1e-5)
	for i, want := range []float64{0.6784, 0.4811, 0.02426, 0.02406} {
		near(t, l.Budget[i].Name, math.Abs(l.Budget[i].Standard), want, 5e-5)
	}
	near(t, "standard", l.Standard, 0.8324, 5e-5)
	near(t, "degrees of freedom", l.DoF, 17.9, 0.05)
	near(t, "coverage", l.Coverage, 2.10, 0.005) // between the 2.11 of 17 and the 2.10 of 18 in JCGM 100:2008 table G.2
	near(t, "expanded", l.Expanded, 0.8324*2.10, 0.005)
	near(t, "reference", l.Volts.Reference, 121, 1e-12)
	near(t, "monitor", l.Volts.Monitor, 120, 1e-12)
	near(t, "resolution", l.Volts.Resolution, 0.1, 1e-12)
	if l.Significant || l.Volts.Pairs != 3 || l.Share != 1 || !l.Given || l.Waits != "" {
		t.Errorf("%+v", l)
	}
	near(t, "overall", r.Overall.Factor, l.Factor, 1e-12)
	near(t, "overall standard", r.Overall.Standard, l.Standard, 1e-12)
}

// The multimeter is the same on both legs, so its accuracy adds up as it is;
// the spreads of the legs do not know of each other and add squared.
func TestSharedVoltmeter(t *testing.T) {
	steady := []Leg{leg("A", "121.0/120.0", "121.0/120.0"), leg("B", "121.0/120.0", "121.0/120.0")}
	r := Read(Checks{Legs: steady, Voltmeter: Accuracy{Percent: "1"}}, Options{})
	isMeter := func(p uncertainty.Part) bool { return p.Source == VoltmeterSource }
	one, _ := r.Legs[0].Budget.Only(isMeter).Combined()
	both, _ := r.Overall.Budget.Only(isMeter).Combined()
	near(t, "the meter on both legs", both, one, 1e-12)

	noisy := []Leg{leg("A", "121.0/120.0", "122.0/120.0"), leg("B", "121.0/120.0", "122.0/120.0")}
	r = Read(Checks{Legs: noisy, Voltmeter: exact}, Options{})
	near(t, "spread on both legs", r.Overall.Standard, r.Legs[0].Standard/math.Sqrt2, 1e-12)
}

func TestShares(t *testing.T) {
	for _, c := range []struct {
		name   string
		shares []string
		want   []float64
		said   []string
	}{
		{"half each", []string{"", ""}, []float64{0.5, 0.5}, nil},
		{"typed", []string{"60", "40 %"}, []float64{0.6, 0.4}, nil},
		{"one typed", []string{"70", ""}, []float64{0.7, 0.3}, nil},
		{"thirds, rounded", []string{"33.3", "33.3", "33.3"}, []float64{1. / 3, 1. / 3, 1. / 3}, nil},
		{"one of three", []string{"", "50", ""}, []float64{0.25, 0.5, 0.25}, nil},
		{"they leave some", []string{"30", "30"}, []float64{0.5, 0.5}, []string{"problem gain.legs.1.share"}},
		{"more than all", []string{"80", "80", ""}, []float64{0.5, 0.5, 0}, []string{"problem gain.legs.1.share"}},
		{"a little more than all", []string{"70", "50", ""}, []float64{0.7 / 1.2, 0.5 / 1.2, 0}, []string{"problem gain.legs.1.share"}},
		{"nonsense", []string{"most", ""}, []float64{0.5, 0.5}, []string{"problem gain.legs.0.share"}},
		{"below zero", []string{"-5", ""}, []float64{0.5, 0.5}, []string{"problem gain.legs.0.share"}},
		{"none", []string{"0", "0"}, []float64{0, 0}, []string{"problem gain.legs.1.share"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			var legs []Leg
			for _, share := range c.shares {
				l := leg("", "121.0/120.0", "121.1/120.0")
				l.Share = share
				legs = append(legs, l)
			}
			r := Read(Checks{Legs: legs, Voltmeter: exact}, Options{})
			for i, l := range r.Legs {
				near(t, l.Name, l.Share, c.want[i], 1e-12)
			}
			wantSaid(t, r, c.said...)
		})
	}
}

func TestWeightedFactor(t *testing.T) {
	a, b := leg("A", "121.2/120.0", "121.2/120.0"), leg("B", "118.8/120.0", "118.8/120.0")
	a.Share = "75"
	r := Read(Checks{Legs: []Leg{a, b}, Voltmeter: exact}, Options{})
	near(t, "0.75 · 1.01 + 0.25 · 0.99", r.Overall.Factor, 1.005, 1e-12)
}

func TestLegLeftOut(t *testing.T) {
	r := Read(Checks{Legs: []Leg{leg("A", "121.2/120.0", "121.2/120.0"), leg("B"), {}}, Voltmeter: exact}, Options{})
	wantSaid(t, r, "notice leg-not-measured gain.legs.1.pairs")
	near(t, "half corrected", r.Overall.Factor, 1.005, 1e-12)
	if r.Legs[1].Given || r.Legs[1].Waits == "" || r.Legs[2].Share != 0 {
		t.Errorf("%+v", r.Legs)
	}
}

func TestNothing(t *testing.T) {
	for _, legs := range [][]Leg{nil, {{}}, {leg("A", "/")}} {
		r := Read(Checks{Legs: legs, Voltmeter: Accuracy{}}, Options{})
		wantSaid(t, r)
		if r.Given {
			t.Errorf("%v is given", legs)
		}
		if e := r.Effect(2); e.After != 2 || e.Words != "" {
			t.Errorf("effect of nothing: %+v", e)
		}
	}
}

func TestPairsThatCantBeUsed(t *testing.T) {
	good := "121.0/120.0"
	for _, c := range []struct {
		name, pair, waits string
		said              []string
	}{
		{"half typed", "121.3/", "the monitor's volts of pair 3 are missing", nil},
		{"the other half", "/120.1", "the multimeter's volts of pair 3 are missing", nil},
		{"too low", "12.1/120", "", []string{"problem gain.legs.0.pairs.2.reference"}},
		{"just too high", "121/501", "", []string{"problem gain.legs.0.pairs.2.monitor"}},
		{"too high", "121/1200", "", []string{"problem gain.legs.0.pairs.2.monitor"}},
		{"no number", "a lot/120", "", []string{"problem gain.legs.0.pairs.2.reference"}},
		{"below zero", "121/-120", "", []string{"problem gain.legs.0.pairs.2.monitor"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := Read(Checks{Legs: []Leg{leg("A", good, good, c.pair)}, Voltmeter: exact}, Options{})
			wantSaid(t, r, c.said...)
			if l := r.Legs[0]; l.Volts.Pairs != 2 || l.Waits != c.waits {
				t.Errorf("%d pairs, waits %q; want 2, %q", l.Volts.Pairs, l.Waits, c.waits)
			}
		})
	}
}

func TestVoltsAsPeopleWriteThem(t *testing.T) {
	for _, c := range []struct{ pair, resolution string }{
		{"121.3 V/120.1V", "0.1"}, {"121,3/120,1", "0.1"}, {"１２１.３/120.1", "0.1"}, {"121.30/120.10", "0.01"}, {"121.300/120,100", "0.001"}, {"121/120", "1"},
	} {
		r := Read(Checks{Legs: []Leg{leg("A", c.pair, c.pair)}, Voltmeter: exact}, Options{})
		wantSaid(t, r)
		near(t, c.pair, r.Legs[0].Factor, 121.3/120.1, 0.002)
		near(t, "resolution of "+c.pair, r.Legs[0].Volts.Resolution, map[string]float64{"0.1": 0.1, "0.01": 0.01, "0.001": 0.001, "1": 1}[c.resolution], 1e-15)
	}
}

func TestOnePair(t *testing.T) {
	r := Read(Checks{Legs: []Leg{leg("A", "121.0/120.0")}, Voltmeter: exact}, Options{})
	wantSaid(t, r, "notice one-pair gain.legs.0.pairs")
	l := r.Legs[0]
	if p := l.Budget[1]; !p.Assumed {
		t.Errorf("the wander of the line is not marked as assumed: %+v", p)
	}
	near(t, "standard", l.Standard, math.Sqrt((0.4*0.4+math.Pow(5./120, 2)*(math.Pow(121./120, 2)+1))/3), 1e-9)
}

func TestVoltmeterAccuracy(t *testing.T) {
	for _, c := range []struct {
		meter     Accuracy
		halfWidth float64 // at 121.0 V
		assumed   bool
		said      []string
	}{
		{Accuracy{"0.5", "3"}, 0.605 + 0.3, false, nil},
		{Accuracy{"0,5 %", ""}, 0.605, false, nil},
		{Accuracy{"", "5"}, 0.5, false, nil},
		{Accuracy{}, 1.21 + 0.3, true, []string{"notice voltmeter-assumed gain.voltmeter.percent"}},
		{Accuracy{"good", ""}, 1.21 + 0.3, true, []string{"notice voltmeter-assumed gain.voltmeter.percent", "problem gain.voltmeter.percent"}},
		{Accuracy{"50", "3"}, 0.3, false, []string{"problem gain.voltmeter.percent"}},
	} {
		r := Read(Checks{Legs: []Leg{leg("A", "121.0/120.0", "121.0/120.0")}, Voltmeter: c.meter}, Options{})
		wantSaid(t, r, c.said...)
		p := r.Legs[0].Budget[0]
		near(t, "half-width", p.HalfWidth, c.halfWidth, 1e-9)
		if p.Assumed != c.assumed || !p.Promise {
			t.Errorf("%+v: assumed %v, promise %v", c.meter, p.Assumed, p.Promise)
		}
	}
}

func TestOddPair(t *testing.T) {
	r := Read(Checks{Legs: []Leg{leg("A", "121.0/120.0", "121.1/120.0", "112.1/120.0", "121.2/120.2")}, Voltmeter: exact}, Options{})
	wantSaid(t, r, "notice odd-pair gain.legs.0.pairs.2")
	if d := cmp.Diff([]int{2}, r.Legs[0].Volts.Odd); d != "" || r.Legs[0].Volts.Pairs != 4 {
		t.Errorf("odd %v of %d pairs", r.Legs[0].Volts.Odd, r.Legs[0].Volts.Pairs)
	}
	// A tenth of a volt among equal pairs is no odd pair.
	wantSaid(t, Read(Checks{Legs: []Leg{leg("A", "121.0/120.0", "121.0/120.0", "121.1/120.0")}, Voltmeter: exact}, Options{}))
}

func TestImplausible(t *testing.T) {
	r := Read(Checks{Legs: []Leg{leg("A", "241.0/120.0", "241.2/120.1")}, Voltmeter: exact}, Options{})
	wantSaid(t, r, "notice gain-implausible gain.legs.0.pairs")
	r = Read(Checks{Legs: []Leg{leg("A", "121.0/240.0", "121.2/240.1")}, Voltmeter: exact}, Options{})
	wantSaid(t, r, "notice gain-implausible gain.legs.0.pairs")
}

func TestEffect(t *testing.T) {
	low := Read(Checks{Legs: []Leg{leg("A", "121.2/120.0", "121.2/120.0")}, Voltmeter: exact}, Options{}) // 1.01
	for _, c := range []struct {
		name          string
		before, after float64
		better, worse bool
		words         string
	}{
		{"reads low", -2, -1.02, true, false, "Correcting the voltage would make the agreement better: −2.00 % would become −1.02 %."},
		{"reads high", 2, 3.02, false, true, "Correcting the voltage would make the agreement worse: +2.00 % would become +3.02 %. The voltage does not explain this error."},
		{"over the mark", -0.25, 0.7475, false, true, "Correcting the voltage would make the agreement worse: −0.25 % would become +0.75 %. The voltage does not explain this error."},
		{"as far on the other side", -0.51, 0.4849, false, false, "Correcting the voltage would leave the agreement as it is: −0.51 % would become +0.48 %."},
	} {
		t.Run(c.name, func(t *testing.T) {
			e := low.Effect(c.before)
			near(t, "after", e.After, c.after, 1e-9)
			near(t, "standard", e.Standard, low.Overall.Standard*(1+c.before/100), 1e-9)
			if e.Better != c.better || e.Worse != c.worse || e.Words != c.words {
				t.Errorf("better %v, worse %v: %s\nwant %s", e.Better, e.Worse, e.Words, c.words)
			}
		})
	}
}

func TestEffectOfAnInsignificantGain(t *testing.T) {
	r := Read(Checks{Legs: []Leg{leg("A", "121.2/120.0", "121.2/120.0")}, Voltmeter: Accuracy{"2", "3"}}, Options{})
	e := r.Effect(-2)
	if !strings.HasSuffix(e.Words, "so nothing shows yet that there is anything to correct.") || r.Overall.Significant {
		t.Errorf("significant %v: %s", r.Overall.Significant, e.Words)
	}
}

func TestConfidence(t *testing.T) {
	legs := []Leg{leg("A", "121.0/120.0", "122.0/120.0", "120.0/120.0")}
	wide, usual := Read(Checks{Legs: legs, Voltmeter: exact}, Options{Confidence: 0.99}), Read(Checks{Legs: legs, Voltmeter: exact}, Options{})
	if wide.Overall.Expanded <= usual.Overall.Expanded || wide.Overall.Standard != usual.Overall.Standard {
		t.Errorf("99 %%: %v, 95 %%: %v", wide.Overall.Expanded, usual.Overall.Expanded)
	}
}
