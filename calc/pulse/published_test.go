package pulse

import (
	"math"
	"strconv"
	"testing"

	"splittally/calc/uncertainty"
)

// Values that other people have printed, read in copies of the sources and
// typed by hand. Each says where it stands.

// at gives the watts of a count by the watch.
func at(t *testing.T, shows, constant, turns, seconds string) Found {
	t.Helper()
	r := Read(Timing{Shows: shows, Constant: constant, Runs: []Run{{Turns: turns, Seconds: seconds}}}, Options{})
	if len(r.Problems)+len(r.Questions) > 0 || r.Runs[0].Waits != "" {
		t.Fatalf("%s, %s in %s: %v %v %q", constant, turns, seconds, r.Problems, r.Questions, r.Runs[0].Waits)
	}
	return r.Runs[0]
}

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s is %v, want %v within %g", what, got, want, within)
	}
}

func TestPublishedTimings(t *testing.T) {
	for _, c := range []struct {
		source                          string
		shows, constant, turns, seconds string
		watts                           float64
	}{
		// T01. Lawrence Berkeley National Laboratory, Standby Power, on using an
		// electromechanical meter: https://standby.lbl.gov/measure/in-home/electrometer/
		{"one turn in 600 s", "disc", "Kh 7.2", "1", "600", 43.2},
		// T08. Web article on reading the disc (2007), secondary:
		// http://www.smartenergytoday.com/2007/08/27/how-to-determine-electricity-usage-from-the-electric-meter/
		{"one turn in 27 s", "disc", "7.2", "1", "27", 960},
		// T10. Utility education page "Determining kWh use", of which the method
		// and Kh are printed and the count of 10 is ours:
		// http://c03.apogee.net/contentplayer/?coursetype=foe&utilityid=demo&layout=landelement&id=4590
		{"six minutes", "disc", "7.2", "10", "6:00", 720},
		// T11. Reference.com on the blinking segment, and T. Murphy, UCSD Physics
		// 12, hand-out (1 Wh each time): https://www.reference.com/home-garden/read-information-digital-electric-meter-9272d266c124a98c
		// and http://tmurphy.physics.ucsd.edu/phys12/ec.txt
		{"a block of 1 Wh", "block", "1 Wh", "1", "3", 1200},
		// T05. S. S. Brown, Student-Run Computing Facility, Cambridge: 4.5 kW over
		// the seconds of a flash at 800 imp/kWh: https://ssb22.user.srcf.net/elec/imp.html
		{"800 imp/kWh", "lamp", "800 imp/kWh", "1", "1", 4500},
		// T06. REUK education page on the flashing lamp of an electronic meter:
		// 3.6 s at 1 kW, 1.2 s at 3 kW: http://www.reuk.co.uk/Flashing-LED-on-Electricity-Meter.htm
		{"1 kW", "", "1000", "1", "3.6", 1000},
		{"3 kW", "", "1000", "1", "1.2", 3000},
	} {
		f := at(t, c.shows, c.constant, c.turns, c.seconds)
		near(t, c.source, f.Watts.Value, c.watts, 1e-9*c.watts)
	}
	if e := at(t, "disc", "7.2", "10", "6:00").Energy; wattHours(e) != 72 {
		t.Errorf("ten turns of Kh 7.2 are %v, want 72 Wh (T10)", e)
	}
}

// T03. S. S. Brown, the same page: table for 1000 imp/kWh, first part.
func TestPublishedTableOfFlashes(t *testing.T) {
	want := []float64{3600, 2400, 1800, 1200, 900, 720, 600}
	for i, seconds := range []float64{1, 1.5, 2, 3, 4, 5, 6} {
		f := at(t, "lamp", "1000 imp/kWh", "1", strconv.FormatFloat(seconds, 'f', -1, 64))
		near(t, "the power", f.Watts.Value, want[i], 1e-9)
	}
}

// JCGM 100:2008, 5.1.2 (10): u²(P) = Σ (∂P/∂x)²·u²(x). For P = 3600·W·n/t that
// is (u(t)/t)² + (u(n)/n)² relative, worked out here with figures of our own:
// 2.25 turns of Kh 7.2 in 100 s are 583.2 W. The two ends of the hand, 0.1 s
// each, are 0.141421 s; a last digit of 1 s, triangular, 1/√6 s (4.3.9); ± 50
// ppm, rectangular, 0.0028868 s (4.3.7); ± 0.02 turns, rectangular, 0.0115470.
func TestPublishedCombination(t *testing.T) {
	f := at(t, "disc", "7.2", "2 1/4", "100")
	seconds := math.Sqrt(0.141421*0.141421 + 1.0/6 + 0.0028868*0.0028868)
	want := 583.2 * math.Hypot(seconds/100, 0.0115470/2.25)
	near(t, "u", f.Watts.Standard, want, 1e-4)
	near(t, "U", f.Watts.Expanded, 1.959964*want, 1e-3)
	// 5.2.2 (16): what two runs have from one clock adds up and does not square.
	r := Read(Timing{Constant: "1000", Hand: "0", Runs: []Run{
		{Turns: "100", Seconds: "360.000000", Watts: "1000.000"}, {Turns: "100", Seconds: "360.000000", Watts: "1000.000"},
	}}, Options{})
	clock := r.Pooled.Budget.Only(func(p uncertainty.Part) bool { return p.Source == WatchSource })
	u, _ := clock.Combined()
	near(t, "the clock of two runs", u, 50e-6/math.Sqrt(3)*100, 1e-9)
}
