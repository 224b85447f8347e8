package calc_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"splittally/calc"
)

// TestDailyLinesHoldTheTruth draws days of a home that a monitor counts 4 % high
// plus 1 kWh, give or take what nobody stated, and wants the stated intervals of
// offset and gain to hold the truth as often as they say, over few days too.
func TestDailyLinesHoldTheTruth(t *testing.T) {
	random := rand.New(rand.NewPCG(8, 3))
	for _, days := range []int{3, 6, 12, 40} {
		const homes = 1200
		held := [2]int{}
		for range homes {
			var meter, monitor strings.Builder
			for d := range days {
				date := fmt.Sprintf("2025-%02d-%02d", 3+d/28, 1+d%28)
				use := 8 + 20*random.Float64()
				fmt.Fprintf(&meter, "%s %.2f\n", date, use)
				fmt.Fprintf(&monitor, "%s %.2f\n", date, 1+1.04*use+0.3*random.NormFloat64())
			}
			f := calc.Work(calc.Case{
				Today:    "2025-06-01",
				Monitors: []calc.Monitor{{Readings: monitor.String()}},
				Meter:    calc.Meter{Class: "0", Readings: meter.String()},
			})
			inst := f.Instruments[0]
			if !inst.IsDaily || !inst.Daily.Line.Known {
				t.Fatalf("no line through %d days", days)
			}
			for k, v := range []struct{ value, truth, expanded float64 }{
				{inst.Daily.Line.Offset.Value, 1, inst.Daily.Line.Offset.Expanded},
				{inst.Daily.Line.Gain.Value, 1.04, inst.Daily.Line.Gain.Expanded},
			} {
				if off := v.value - v.truth; off <= v.expanded && off >= -v.expanded {
					held[k]++
				}
			}
		}
		for k, what := range []string{"offset", "gain"} {
			share := 100 * float64(held[k]) / homes
			t.Logf("%d days: the interval of the %s holds the truth in %.1f of 100", days, what, share)
			if share < 93 || share > 97 {
				t.Errorf("%d days: the interval of the %s holds the truth in %.1f of 100, want 93 to 97", days, what, share)
			}
		}
	}
}
