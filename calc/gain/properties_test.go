package gain

import (
	"math"
	"strconv"
	"testing"

	"pgregory.net/rapid"
)

func drawLeg(t *rapid.T, label string) Leg {
	l := Leg{Name: label}
	for range rapid.IntRange(1, 6).Draw(t, label+" pairs") {
		reference := rapid.IntRange(1100, 1300).Draw(t, "reference")
		monitor := rapid.IntRange(1100, 1300).Draw(t, "monitor")
		l.Pairs = append(l.Pairs, Pair{tenths(reference), tenths(monitor)})
	}
	return l
}

func tenths(n int) string { return strconv.FormatFloat(float64(n)/10, 'f', 1, 64) }

// The order of pairs and of legs does not matter.
func TestOrderDoesNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := drawLeg(t, "a"), drawLeg(t, "b")
		a.Share, b.Share = "50", "50 %"
		one := Read(Checks{Legs: []Leg{a, b}, Voltmeter: Accuracy{}}, Options{})
		a.Pairs = rapid.Permutation(a.Pairs).Draw(t, "order")
		two := Read(Checks{Legs: []Leg{b, a}, Voltmeter: Accuracy{}}, Options{})
		for _, c := range [][2]float64{
			{one.Overall.Factor, two.Overall.Factor},
			{one.Overall.Standard, two.Overall.Standard},
			{one.Overall.Expanded, two.Overall.Expanded},
		} {
			if math.Abs(c[0]-c[1]) > 1e-9*math.Abs(c[0]) {
				t.Fatalf("one way %v, the other %v", c[0], c[1])
			}
		}
	})
}

// A monitor whose error is its voltage alone has none after the correction; and
// the overall factor lies between those of the legs.
func TestCorrectionUndoesItsOwnError(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		legs := []Leg{drawLeg(t, "a"), drawLeg(t, "b")}
		legs[0].Share = strconv.Itoa(rapid.IntRange(0, 100).Draw(t, "share"))
		r := Read(Checks{Legs: legs, Voltmeter: Accuracy{}}, Options{})
		own := 100 * (1/r.Overall.Factor - 1)
		if after := r.Effect(own).After; math.Abs(after) > 1e-9 {
			t.Fatalf("%v %% becomes %v %%", own, after)
		}
		low := min(r.Legs[0].Factor, r.Legs[1].Factor)
		high := max(r.Legs[0].Factor, r.Legs[1].Factor)
		if r.Overall.Factor < low-1e-12 || r.Overall.Factor > high+1e-12 {
			t.Fatalf("overall %v outside %v to %v", r.Overall.Factor, low, high)
		}
	})
}

// Better and worse follow the sizes of the errors, never both.
func TestEffectIsConsistent(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := Read(Checks{Legs: []Leg{drawLeg(t, "a")}, Voltmeter: Accuracy{}}, Options{})
		e := r.Effect(rapid.Float64Range(-50, 50).Draw(t, "error"))
		switch {
		case e.Better && e.Worse,
			e.Better && math.Abs(e.After) >= math.Abs(e.Before),
			e.Worse && math.Abs(e.After) <= math.Abs(e.Before),
			e.Words == "":
			t.Fatalf("%+v", e)
		}
	})
}
