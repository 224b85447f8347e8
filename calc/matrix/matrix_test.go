package matrix

import (
	"math"
	"testing"
)

// A matrix times its inverse is the identity, for every remainder modulo four.
func TestInverse(t *testing.T) {
	for n := 1; n <= 13; n++ {
		k, l := New(n), New(n)
		for i := range n {
			for j := range k.Row(i) {
				k.Row(i)[j] = math.Pow(0.8, float64(i-j)) / float64(1+j%3)
			}
			k.Row(i)[i] = 2
		}
		copy(l.a, k.a)
		if !l.Factor() {
			t.Fatalf("order %d: not positive definite", n)
		}
		inv := l.Inverse()
		at := func(m Lower, i, j int) float64 { return m.Row(max(i, j))[min(i, j)] }
		for i := range n {
			for j := range n {
				sum, want := 0.0, 0.0
				for h := range n {
					sum += at(k, i, h) * at(inv, h, j)
				}
				if i == j {
					want = 1
				}
				if math.Abs(sum-want) > 1e-12 {
					t.Errorf("order %d: product at %d,%d = %g", n, i, j, sum)
				}
			}
		}
		b := make([]float64, n)
		b[n-1] = 1
		l.Solve(b)
		l.SolveTransposed(b)
		for i, x := range b {
			if math.Abs(x-at(inv, i, n-1)) > 1e-12 {
				t.Errorf("order %d: solution %d = %g, want %g", n, i, x, at(inv, i, n-1))
			}
		}
	}
}

// What the factor answers, by the definitions.
func TestAnswers(t *testing.T) {
	a := New(3) // {4 2 0}, {2 5 1}, {0 1 3}: det = 4·(15−1) − 2·6 = 44
	copy(a.a, []float64{4, 2, 5, 0, 1, 3})
	l := a.Clone()
	if !l.Factor() {
		t.Fatal("not positive definite")
	}
	if a.Row(1)[1] != 5 {
		t.Error("Clone shares its numbers")
	}
	if got := math.Exp(l.LogDet()); math.Abs(got-44) > 1e-12 {
		t.Errorf("determinant = %g, want 44", got)
	}
	b := []float64{8, 15, 11} // A·(1, 2, 3)
	for i, x := range l.Solved(b) {
		if math.Abs(x-float64(i+1)) > 1e-14 {
			t.Errorf("solution %d = %g, want %d", i, x, i+1)
		}
	}
	if got := l.Quadratic(b); math.Abs(got-71) > 1e-12 { // 8·1 + 15·2 + 11·3
		t.Errorf("quadratic form = %g, want 71", got)
	}
	if b[0] != 8 || b[1] != 15 || b[2] != 11 {
		t.Errorf("b has become %v", b)
	}
}

func TestRefusals(t *testing.T) {
	third := 1.0 / 3
	for _, c := range []struct {
		name  string
		n     int
		lower []float64
		exact bool // Factor refuses it too
	}{
		{"zero", 1, []float64{0}, true},
		{"two that are one", 2, []float64{1, 1, 1}, true},
		{"two that are nearly one", 2, []float64{1, 1, 1 + 1e-13}, false},
		{"a sum without doubt, but for rounding", 2, []float64{third * third, -0.1 * third, 0.1 * 0.1 * (1 + 1e-15)}, false},
		{"a difference without doubt", 2, []float64{4, 2, 1}, true},
		{"indefinite", 2, []float64{1, 2, 1}, true},
		{"negative", 1, []float64{-1}, true},
		{"without limit", 1, []float64{math.Inf(1)}, true},
		{"no number", 2, []float64{1, 0, math.NaN()}, true},
	} {
		m := New(c.n)
		copy(m.a, c.lower)
		if ok := m.Clone().Factor(); ok == c.exact {
			t.Errorf("%s: Factor is %v", c.name, ok)
		}
		if m.FactorWithin(1e-12) {
			t.Errorf("%s: FactorWithin took it", c.name)
		}
	}
	m := New(2)
	copy(m.a, []float64{1, 1, 1 + 1e-11})
	if !m.FactorWithin(1e-12) {
		t.Error("a small doubt that is more than rounding was refused")
	}
}
