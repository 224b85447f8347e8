package load

import (
	"math"
	"testing"
)

// The percentile that the NIST/SEMATECH e-Handbook of Statistical Methods,
// section 7.2.6.2, notes as the other way in use, with the example that the
// article on percentiles at liquisearch.com works: the 40th percentile of five
// values is 29 (26 by the handbook's own way).
func TestPublishedQuantile(t *testing.T) {
	if got := Quantile([]float64{15, 20, 35, 40, 50}, 0.4); math.Abs(got-29) > 1e-12 {
		t.Errorf("got %g, want 29", got)
	}
}

// Order statistics around a median and their confidence, from a printed table of
// confidence intervals for the population median (table A.7 of an appendix, page
// 656, as stored at coursehero.com/file/5646626). Where the table offers several
// for one n, those are here that come to 95 % or just above.
func TestPublishedRanks(t *testing.T) {
	for _, c := range []struct {
		n, low, high int
	}{
		{6, 1, 6},
		{7, 1, 7},
		{8, 1, 8},
		{9, 2, 8},
		{10, 2, 9},
		{11, 2, 10},
		{12, 3, 10},
		{13, 3, 11},
		{14, 3, 12},
		{15, 4, 12},
		{16, 4, 13},
		{17, 5, 13},
		{18, 5, 14},
		{19, 5, 15},
		{20, 6, 15},
	} {
		if low, high, ok := ranks(c.n, 0.5, 0.95); !ok || low != c.low || high != c.high {
			t.Errorf("n = %d: %d to %d (%t), want %d to %d", c.n, low, high, ok, c.low, c.high)
		}
	}
	if _, _, ok := ranks(5, 0.5, 0.95); ok { // 93.8 % is the most that five values give
		t.Error("n = 5 has an interval")
	}
}
