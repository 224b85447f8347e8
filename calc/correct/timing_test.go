package correct

import (
	"strings"
	"testing"

	"splittally/calc/compare"
	"splittally/calc/energy"
	"splittally/calc/uncertainty"
)

// minutes are 85 Wh by the meter and what a monitor makes of them, in mWh.
func minutes(monitor energy.Energy) compare.Comparison {
	w := compare.Amount{Energy: monitor}
	w.AddOfReading(uncertainty.Part{Source: "monitor", HalfWidth: 2, Distribution: uncertainty.Rectangular, Promise: true})
	r := compare.Amount{Energy: 85_000_000}
	r.AddOfReading(uncertainty.Part{Source: "clock", HalfWidth: 0.2, Distribution: uncertainty.Normal})
	return compare.Judge(w, r, 0.95)
}

// TestTimingByHand has a monitor that counts 87.55 Wh where the meter counts
// 85: F = 85/87.55 = 0.970874, and its doubt is that of the time, 0.2 % of it,
// without what the monitor promises.
func TestTimingByHand(t *testing.T) {
	in := input(month{w: 309, r: 300}, month{w: 412, r: 400})
	c, ok := FromTiming(Timed{
		Compared: minutes(87_550_000), Accuracy: "monitor", Periods: in.Periods,
		Confidence: 0.95, Setting: in.Setting, History: in.History,
	})
	if !ok || c.Basis != FromPulses || len(c.Found) > 0 {
		t.Fatalf("ok %v, basis %q, found on %v", ok, c.Basis, c.Found)
	}
	near(t, "factor", c.Factor, 0.970874, 1e-6)
	near(t, "its standard uncertainty", c.Standard, 0.002*0.970874, 1e-6)
	for i, j := range c.Judged {
		near(t, "the error before", j.Before, 3, 0.01)
		near(t, "the error after", j.After, 0, 0.01)
		if !j.HeldOut {
			t.Errorf("bill %d does not judge a factor that was not found on it", i+1)
		}
	}
	if !strings.HasPrefix(c.Words, "Found by timing the meter, on no bill") {
		t.Errorf("it says %q", c.Words)
	}
}

// TestNoTiming has nothing to compare, and a factor that is none.
func TestNoTiming(t *testing.T) {
	if _, ok := FromTiming(Timed{Confidence: 0.95}); ok {
		t.Error("a correction from nothing")
	}
	if _, ok := FromTiming(Timed{Compared: minutes(85), Confidence: 0.95}); ok {
		t.Error("a factor of a million")
	}
}
