package gain

import (
	"math"
	"strings"
	"testing"
)

func FuzzRead(f *testing.F) {
	f.Add("A", "60", "121.3", "120.1", "121,3 V", "119", "1.0", "3")
	f.Add("", "", "12", "", "1,234", "120,125", "", "")
	f.Add("both", "50 %", "1e2", "5.", "−120", "１２０", "0,5 %", "200")
	f.Fuzz(func(t *testing.T, name, share, r1, m1, r2, m2, percent, digits string) {
		legs := []Leg{
			{Name: name, Share: share, Pairs: []Pair{{r1, m1}, {r2, m2}}},
			{Share: percent, Pairs: []Pair{{m1, r2}}},
			{},
		}
		r := Read(Checks{Legs: legs, Voltmeter: Accuracy{percent, digits}}, Options{})
		for _, l := range r.Legs {
			if !l.Given && l.Waits == "" {
				t.Errorf("%s is not given and does not say why", l.Name)
			}
			if l.Share < 0 || l.Share > 1 {
				t.Errorf("%s has a share of %v", l.Name, l.Share)
			}
		}
		if r.Given {
			for _, v := range []float64{r.Overall.Factor, r.Overall.Standard, r.Overall.Expanded, r.Effect(1).After} {
				if math.IsNaN(v) || math.IsInf(v, 0) {
					t.Errorf("no number: %+v", r.Overall)
				}
			}
		}
		for _, problem := range r.Problems {
			if !strings.HasPrefix(problem.Path, "gain.") || problem.Wanted == "" {
				t.Errorf("problem without place or words: %+v", problem)
			}
		}
	})
}
