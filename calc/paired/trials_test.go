package paired

import (
	"fmt"
	"math"
	"testing"
)

// What is stated must hold as often as it says: the interval of the mean error,
// that of the drift, false alarms among days, and a pattern of the week where
// there is none.
func TestStatedChancesHold(t *testing.T) {
	for _, c := range []struct {
		days  int
		rho   float64
		tails bool
		low   float64 // percent of intervals that must hold
	}{
		{30, 0, false, 92},
		{30, 0.5, false, 88},
		{60, 0, true, 92},
		{60, 0.5, false, 90},
		{180, 0.7, true, 91},
		{365, 0.8, false, 90},
	} {
		t.Run(fmt.Sprintf("%d days, %g alike, long tails %v", c.days, c.rho, c.tails), func(t *testing.T) {
			const n = 300
			mean, drift, alarms, weeks, cuts := 0, 0, 0, 0, 0
			drifts := 0
			for seed := range uint64(n) {
				h := invent(seed, c.days)
				meter := ledgerOf(h.first, h.hours, 2, false)
				monitor := ledgerOf(h.first, seen(h.hours, 1.02, 0, 0.01, c.rho, c.tails, seed), 2, false)
				r, ok := Compare(monitor, meter, Options{Confidence: 0.95})
				if !ok || !r.Percent.Known {
					t.Fatal("nothing compared")
				}
				if math.Abs(r.Percent.Value-2) <= r.Percent.Expanded {
					mean++
				}
				if r.Drift.Known {
					drifts++
					if !r.Drift.Shows() {
						drift++
					}
				}
				if len(r.Odd) > 0 {
					alarms++
				}
				if r.Weekdays.Shows {
					weeks++
				}
				if r.Cut.Known {
					cuts++
				}
			}
			held := func(k, n int) float64 { return 100 * float64(k) / float64(max(1, n)) }
			t.Logf("mean held %.1f %%, drift held %.1f %% of %d, false alarms %.1f %%, weeks %.1f %%, cut %.1f %%",
				held(mean, n), held(drift, drifts), drifts, held(alarms, n), held(weeks, n), held(cuts, n))
			if held(mean, n) < c.low || held(drift, drifts) < c.low {
				t.Errorf("intervals hold too seldom, want %g %%", c.low)
			}
			if held(alarms, n) > 100*FalseAlarm+2.5 {
				t.Error("too many false alarms")
			}
			if held(weeks, n) > 3 || cuts > 1 {
				t.Error("patterns where there are none")
			}
		})
	}
}
