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

func drawSteps(t *rapid.T) (rows []Step) {
	for range rapid.IntRange(1, 5).Draw(t, "steps") {
		before := rapid.IntRange(-2000, 5000).Draw(t, "before")
		rise := rapid.IntRange(400, 2500).Draw(t, "rise")
		load := rapid.IntRange(400, 2500).Draw(t, "load")
		rows = append(rows, Step{strconv.Itoa(before), strconv.Itoa(before + rise), strconv.Itoa(load)})
	}
	return rows
}

// A base load that is the same before and after drops out of every step, and
// the monitor's watts in kW are the same watts.
func TestBaseLoadDropsOut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rows := drawSteps(t)
		base := rapid.IntRange(-3000, 3000).Draw(t, "base")
		var moved, kilo []Step
		for _, s := range rows {
			before, _ := strconv.Atoi(s.Before)
			after, _ := strconv.Atoi(s.After)
			moved = append(moved, Step{strconv.Itoa(before + base), strconv.Itoa(after + base), s.Load})
			kilo = append(kilo, Step{strconv.FormatFloat(float64(before)/1000, 'f', 3, 64) + " kW", strconv.FormatFloat(float64(after)/1000, 'f', 3, 64) + " kW", s.Load + " W"})
		}
		find := func(s []Step) Found { return Read(Checks{Legs: []Leg{{Steps: s}}}, Options{}).Legs[0].Power }
		one := find(rows)
		for _, other := range []Found{find(moved), find(kilo)} {
			if math.Abs(one.Factor-other.Factor) > 1e-12 || math.Abs(one.Standard-other.Standard) > 1e-9 {
				t.Fatalf("%v ± %v, and %v ± %v", one.Factor, one.Standard, other.Factor, other.Standard)
			}
		}
	})
}

// What Reach leaves is mended by the factor that it gives for the current, and
// volts that read low never come out as the cause of energy that reads high.
func TestReachIsConsistent(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := Read(Checks{Legs: []Leg{drawLeg(t, "a")}}, Options{})
		reach := r.Reach(rapid.Float64Range(-50, 50).Draw(t, "error"), rapid.Float64Range(0, 10).Draw(t, "uncertainty"))
		if reach.Current != 0 {
			if after := ((1+reach.Left/100)*reach.Current - 1) * 100; math.Abs(after) > 1e-9 {
				t.Fatalf("%v %% left becomes %v %%", reach.Left, after)
			}
		}
		same := (reach.Percent > 0) == (r.Volts.Percent > 0)
		switch reach.Explains {
		case All, Partly, Beyond:
			if same {
				t.Fatalf("%s of %v %% by volts off by %v %%", reach.Explains, reach.Percent, r.Volts.Percent)
			}
		case Opposite:
			if !same || math.Abs(reach.Left) < math.Abs(reach.Percent) {
				t.Fatalf("%+v", reach)
			}
		case "":
			t.Fatal("nothing is said")
		}
	})
}

// A larger drop, a worse instrument and fewer counts never make the doubt less.
func TestDoubtGrows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		legs := []Leg{drawLeg(t, "a"), drawLeg(t, "b")}
		at := func(drop, percent int) float64 {
			return Read(Checks{Legs: legs, Drop: strconv.Itoa(drop), Voltmeter: Accuracy{strconv.Itoa(percent), "2"}}, Options{}).Overall.Standard
		}
		drop, percent := rapid.IntRange(0, 9).Draw(t, "drop"), rapid.IntRange(0, 9).Draw(t, "percent")
		if at(drop+1, percent) < at(drop, percent) || at(drop, percent+1) < at(drop, percent) {
			t.Fatal("the doubt became less")
		}
	})
}
