package compare

import (
	"testing"

	"splittally/calc/energy"
)

func day(e energy.Energy) DayEnergy { return DayEnergy{e, true} }

func TestShifts(t *testing.T) {
	// Bill 300 kWh; the monitor counted 310 from a first day of 10 kWh that the
	// bill does not hold.
	w, r := month(310*kWh, 300*kWh, 20) // U is 9.5 %, the promise 1.3 %
	c := Judge(w, r, 0.95)
	shifts, best := c.Shifts(Ends{Before: day(14 * kWh), First: day(10 * kWh), Last: day(12 * kWh), After: day(9 * kWh)})
	want := []struct {
		start, end int
		percent    string
		vanishes   bool
	}{
		{-1, 0, "8", false}, // 324
		{1, 0, "0", true},   // 300
		{0, -1, "-0.66666666666", true},
		{0, 1, "6.33333333333", false},
		{-1, -1, "4", false}, // 312
		{1, 1, "3", false},   // 309
	}
	if len(shifts) != len(want) || best != 1 {
		t.Fatalf("%d shifts, best %d", len(shifts), best)
	}
	for i, s := range shifts {
		if s.Start != want[i].start || s.End != want[i].end || s.Percent.Truncate(11).String() != want[i].percent || s.Vanishes != want[i].vanishes {
			t.Errorf("shift %d: %+d %+d gives %s %%, vanishes %v; want %+v", i, s.Start, s.End, s.Percent, s.Vanishes, want[i])
		}
	}
}

func TestShiftsLeaveOutWhatIsNotKnown(t *testing.T) {
	w, r := month(310*kWh, 300*kWh, 0)
	c := Judge(w, r, 0.95)
	for _, x := range []struct {
		name string
		ends Ends
		want int
		best int
	}{
		{"no day known", Ends{}, 0, -1},
		{"only the days inside", Ends{First: day(10 * kWh), Last: day(10 * kWh)}, 2, 0},
		{"only the days outside", Ends{Before: day(10 * kWh), After: day(10 * kWh)}, 2, -1},
		{"only the start", Ends{Before: day(10 * kWh), First: day(10 * kWh)}, 2, 1},
	} {
		if shifts, best := c.Shifts(x.ends); len(shifts) != x.want || best != x.best {
			t.Errorf("%s: %d shifts, best %d; want %d and %d", x.name, len(shifts), best, x.want, x.best)
		}
	}
	nothing := Judge(w, Amount{Missing: true}, 0.95)
	if shifts, best := nothing.Shifts(Ends{Before: day(kWh)}); shifts != nil || best != -1 {
		t.Errorf("nothing to compare, but %v, %d", shifts, best)
	}
}
