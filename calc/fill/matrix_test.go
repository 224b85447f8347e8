package fill

import (
	"math"
	"testing"
)

// A matrix times its inverse is the identity, for every remainder modulo four.
func TestInverse(t *testing.T) {
	for n := 1; n <= 13; n++ {
		k, l := newLower(n), newLower(n)
		for i := range n {
			for j := range k.row(i) {
				k.row(i)[j] = math.Pow(0.8, float64(i-j)) / float64(1+j%3)
			}
			k.row(i)[i] = 2
		}
		copy(l.a, k.a)
		if !l.factor() {
			t.Fatalf("order %d: not positive definite", n)
		}
		inv := l.inverse()
		at := func(m lower, i, j int) float64 { return m.row(max(i, j))[min(i, j)] }
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
		l.solve(b)
		l.solveTransposed(b)
		for i, x := range b {
			if math.Abs(x-at(inv, i, n-1)) > 1e-12 {
				t.Errorf("order %d: solution %d = %g, want %g", n, i, x, at(inv, i, n-1))
			}
		}
	}
	m := newLower(2)
	copy(m.a, []float64{1, 2, 1})
	if m.factor() {
		t.Error("a matrix that is not positive definite was factored")
	}
}
