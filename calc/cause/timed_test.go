package cause

import "testing"

// TestTimingTellsGainFromTheBill has one bill that is off by 6 %: alone it may be
// the monitor's gain or the bill. Ten minutes at the meter say which.
func TestTimingTellsGainFromTheBill(t *testing.T) {
	off := bills(func(_ int, kWh float64) float64 { return 1.06 * kWh }, 20)
	if Weigh(off).Asserted {
		t.Error("one bill alone tells a cause")
	}
	off.Timed = Timed{Given: true, High: 6.1, Standard: 0.3, Watts: 2100}
	w := Weigh(off)
	if id := w.Causes[0].ID; id != Gain {
		t.Errorf("timed 6.1 %% high: %s is first, want the gain", id)
	}
	live := map[ID]bool{Gain: true, Clamp: true, Other: true} // what a timing would show too
	for _, e := range w.Causes[1:] {
		if !live[e.ID] && e.Probability > 0.05 {
			t.Errorf("timed 6.1 %% high: %s still has %.3f", e.ID, e.Probability)
		}
	}
	off.Timed.High = 0.1
	for _, e := range Weigh(off).Causes {
		if live[e.ID] && e.ID != Other && e.Probability > 0.001 {
			t.Errorf("timed 0.1 %% high: %s still has %.3f", e.ID, e.Probability)
		}
	}
}

// TestTimingTellsOffsetFromGain has a monitor that counts 60 W too much, which
// is 6 % of these bills but 3 % of the load that was timed.
func TestTimingTellsOffsetFromGain(t *testing.T) {
	s := bills(func(_ int, kWh float64) float64 { return kWh + 30*24*0.060 }, 24)
	s.Timed = Timed{Given: true, High: 3, Standard: 0.25, Watts: 2000}
	if id := Weigh(s).Causes[0].ID; id != Offset {
		t.Errorf("first is %s, want the constant power", id)
	}
	s.Timed.High = 6
	if id := Weigh(s).Causes[0].ID; id != Gain {
		t.Errorf("first is %s, want the gain", id)
	}
}

// TestTimingIsDoneOnce has the step of timing the meter among those that decide,
// until it is done.
func TestTimingIsDoneOnce(t *testing.T) {
	s := bills(func(_ int, kWh float64) float64 { return 1.06 * kWh }, 20)
	f := newFrame(s)
	open := []Explanation{{ID: Gain, Probability: 0.6}, {ID: Hour, Probability: 0.4}}
	before := f.decide(open).Words
	f.Timed.Given = true
	if after := f.decide(open).Words; after == before {
		t.Errorf("%q both before and after it was done", after)
	}
}
