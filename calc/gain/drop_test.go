package gain

import (
	"math"
	"testing"

	"splittally/calc/uncertainty"
)

// A drop of up to 2 V at 120 V is 2/√3/120 = 0.9623 % in each leg, and the same
// in both together: no socket is known to be better.
func TestDrop(t *testing.T) {
	legs := []Leg{leg("A", "121.0/120.0", "121.0/120.0", "121.0/120.0"), leg("B", "121.0/120.0", "121.0/120.0", "121.0/120.0")}
	r := Read(Checks{Legs: legs, Voltmeter: exact, Drop: "2 V"}, Options{})
	wantSaid(t, r)
	drop := func(b uncertainty.Budget) uncertainty.Budget {
		return b.Only(func(p uncertainty.Part) bool { return p.Source == DropSource })
	}
	for _, b := range []uncertainty.Budget{r.Legs[0].Volts.Budget, r.Overall.Budget} {
		u, _ := drop(b).Combined()
		near(t, "drop", u, 0.96225, 1e-5)
	}
	if p := drop(r.Overall.Budget)[0]; p.Remedy != "measure at a socket whose circuit carries no load" || p.Assumed || p.Name == "" {
		t.Errorf("%+v", p)
	}
	// Between two legs it does not drop out: no two sockets lose the same.
	near(t, "between legs", r.Differ[0].Expanded, 1.959964*math.Sqrt2*math.Hypot(0.96225, math.Hypot(0.024257, 0.024056)), 2e-4)
	if r.Overall.Factor != Read(Checks{Legs: legs, Voltmeter: exact}, Options{}).Overall.Factor {
		t.Error("the drop is corrected, which it must not be")
	}
}

func TestDropTyped(t *testing.T) {
	for typed, wrong := range map[string]bool{"": false, "0": false, "1,5": false, "20 v": false, "20.1": true, "-1": true, "some": true} {
		r := Read(Checks{Drop: typed}, Options{Path: "checks"})
		if wrong {
			wantSaid(t, r, "problem checks.drop")
		} else {
			wantSaid(t, r)
		}
	}
}
