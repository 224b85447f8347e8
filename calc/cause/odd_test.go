package cause

import (
	"math"
	"strings"
	"testing"

	"splittally/calc/uncertainty"
)

// A clamp that is turned round shows in its own readings: that form of the
// cause has nothing unknown.
func TestALegBelowZero(t *testing.T) {
	s := bills(func(_ int, kWh float64) float64 { return 0.4 * kWh }, 12, 20)
	s.Legs = 2
	for i := range s.Periods { // 0.7 and −0.3 of the truth
		p := &s.Periods[i]
		kWh := p.Compared.Reference.Energy.KilowattHours()
		p.Legs, p.LegDays = []float64{0.7 * kWh, -0.3 * kWh}, len(p.Days)
	}
	w := Weigh(s)
	if w.Causes[0].ID != Clamp {
		t.Errorf("%s is first: %s", w.Causes[0].ID, w.Words)
	}
}

// A bill over which the monitor counted nothing says nothing of its promise.
func TestABillWithoutAnythingCounted(t *testing.T) {
	for _, none := range [][]int{{0}, {1}, {0, 1}} {
		w := Weigh(bills(func(p int, kWh float64) float64 {
			for _, at := range none {
				if p == at {
					return 0
				}
			}
			return kWh
		}, 12, 20))
		if !w.Done || math.IsNaN(w.Fit) {
			t.Errorf("nothing counted in %v: done %v, fit %v", none, w.Done, w.Fit)
		}
	}
}

// A doubt without limit is no normal distribution: nothing is said then.
func TestADoubtWithoutLimit(t *testing.T) {
	s := bills(func(_ int, kWh float64) float64 { return 1.06 * kWh }, 12, 20, 31, 18)
	s.Periods[2].Compared.Indicated.Add(uncertainty.Part{HalfWidth: math.Inf(1), Distribution: uncertainty.Normal})
	if w := Weigh(s); w.Done || len(w.Causes) > 0 {
		t.Errorf("%+v", w)
	}
}

// A monitor that counts more than a bill, and less than the next by as much,
// says that the read between them was too low.
func TestWhichWayAGuessWasOff(t *testing.T) {
	for _, c := range []struct {
		off  float64
		want string
	}{{55, "too low; bill 4 made up for it"}, {-55, "too high; bill 4 made up for it"}} {
		w := Weigh(bills(func(p int, kWh float64) float64 { return kWh + []float64{0, 0, c.off, -c.off, 0}[p] }, 20, 21, 20, 22, 20))
		if how := w.Causes[0].How; w.Causes[0].ID != Estimated || !strings.HasPrefix(how, "The read that ends bill 3 was about 5") || !strings.Contains(how, c.want) {
			t.Errorf("%+g kWh: %s: %s", c.off, w.Causes[0].ID, how)
		}
	}
}
