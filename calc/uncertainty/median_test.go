package uncertainty

import (
	"math"
	"slices"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"
)

func TestMedian(t *testing.T) {
	for _, c := range []struct {
		of   []float64
		want float64
	}{{nil, 0}, {[]float64{3}, 3}, {[]float64{9, 1}, 5}, {[]float64{9, 1, 2}, 2}, {[]float64{4, 9, 1, 2}, 3}} {
		of := slices.Clone(c.of)
		if got := Median(of); got != c.want || !slices.Equal(of, c.of) {
			t.Errorf("Median(%v) = %v, want %v; then %v", c.of, got, c.want, of)
		}
	}
	// Half of a normal distribution lies within its quartiles.
	if want := 1 / distuv.UnitNormal.Quantile(0.75); math.Abs(MedianDeviation-want) > 1e-5 {
		t.Errorf("MedianDeviation is %v, want %v", MedianDeviation, want)
	}
}
