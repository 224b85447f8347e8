package rhythm

import (
	"math"
	"testing"
)

func TestLn(t *testing.T) {
	for x := 1e-9; x < 1e9; x *= 1.0137 {
		if got, want := ln(x), math.Log(x); math.Abs(got-want) > 5e-4 {
			t.Fatalf("ln(%g) = %g, want %g", x, got, want)
		}
	}
}
