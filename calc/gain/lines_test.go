package gain

import (
	"math"
	"strings"
	"testing"
)

func TestLinesAddUp(t *testing.T) {
	split := []Leg{steady("A", "121.0/120.0"), steady("B", "119.0/118.0")}
	three := []Leg{steady("L1", "230.0/228.0"), steady("L2", "232.0/230.0"), steady("L3", "228.0/226.0")}
	between := func(a, b float64) float64 { return math.Sqrt(a*a + b*b + a*b) }
	for _, c := range []struct {
		name, service string
		legs          []Leg
		lines         []Pair
		at            int
		label         string
		fromLegs      [2]float64 // reference, monitor
		agrees        [3]bool    // reference, monitor, gain
	}{
		{"split", "", split, []Pair{{"240.1", "238.2"}}, 0, "A to B", [2]float64{240, 238}, [3]bool{true, true, true}},
		{"the multimeter was off its points", "split", split, []Pair{{"225.0", "238.2"}}, 0, "A to B", [2]float64{240, 238}, [3]bool{false, true, false}},
		{"the monitor's lines are set apart", "", split, []Pair{{"240.0", "250.0"}}, 0, "A to B", [2]float64{240, 238}, [3]bool{true, false, false}},
		{"two of three", "", split, []Pair{{"208.0", "206.0"}}, 0, "A to B", [2]float64{between(121, 119), between(120, 118)}, [3]bool{true, true, true}},
		{"three, one line", "", three, []Pair{{"398.4", "395.0"}}, 0, "Line to line", [2]float64{230 * math.Sqrt(3), 228 * math.Sqrt(3)}, [3]bool{true, true, true}},
		{"three, L1 to L2", "", three, []Pair{{"400.1", "396.6"}, {"398.4", "395.0"}, {"396.6", "393.2"}}, 0, "L1 to L2", [2]float64{between(230, 232), between(228, 230)}, [3]bool{true, true, true}},
		{"three, L3 to L1", "", three, []Pair{{"400.1", "396.6"}, {"398.4", "395.0"}, {"396.6", "393.2"}}, 2, "L3 to L1", [2]float64{between(228, 230), between(226, 228)}, [3]bool{true, true, true}},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := Read(Checks{Service: c.service, Legs: c.legs, Lines: c.lines, Voltmeter: Accuracy{"0.5", "2"}}, Options{})
			l := r.Lines[c.at]
			near(t, "reference", l.Reference.FromLegs, c.fromLegs[0], 1e-9)
			near(t, "monitor", l.Monitor.FromLegs, c.fromLegs[1], 1e-9)
			near(t, "difference", l.Reference.Difference, l.Reference.Found-c.fromLegs[0], 1e-9)
			if got := [3]bool{l.Reference.Agrees, l.Monitor.Agrees, l.Gain.Agrees}; got != c.agrees || l.Name != c.label || l.Waits != "" || len(l.Words) != 3 {
				t.Errorf("%s agree %v, want %v\n%s", l.Name, got, c.agrees, strings.Join(l.Words, "\n"))
			}
		})
	}
}

// A multimeter that showed all on one range is off by the same percentage in
// the legs and between the lines, so 5 % of it do not matter; on another range,
// which has another last digit, they do.
func TestAccuracyDropsOutOnOneRange(t *testing.T) {
	legs := []Leg{steady("A", "121.0/120.0"), steady("B", "119.0/118.0")}
	at := func(percent, line string) float64 {
		r := Read(Checks{Legs: legs, Lines: []Pair{{Reference: line}}, Voltmeter: Accuracy{percent, "0"}}, Options{})
		return r.Lines[0].Reference.Expanded
	}
	near(t, "one range", at("5", "240.0"), at("0", "240.0"), 1e-9)
	if other := at("5", "240"); other < 5 {
		t.Errorf("on another range ± %v V", other)
	}
}

func TestLinesThatWait(t *testing.T) {
	a, b := steady("A", "121.0/120.0"), steady("B", "119.0/118.0")
	for _, c := range []struct {
		name  string
		legs  []Leg
		line  Pair
		waits string
		said  []string
	}{
		{"one side", []Leg{a, b}, Pair{"", "238.0"}, "", nil},
		{"single", []Leg{a}, Pair{"240.0", ""}, "a single-phase service has no volts between lines", nil},
		{"one leg measured", []Leg{a, {Name: "B"}}, Pair{"240.0", ""}, "the volts of two legs are missing", []string{"notice leg-not-measured gain.legs.1.pairs"}},
		{"wrong", []Leg{a, b}, Pair{"24", "x"}, "the volts between two lines are missing", []string{"problem gain.lines.0.monitor", "problem gain.lines.0.reference"}},
	} {
		if r := Read(Checks{Legs: c.legs, Lines: []Pair{{" ", ""}}, Voltmeter: exact}, Options{}); len(r.Lines) > 0 {
			t.Errorf("a blank line is checked: %+v", r.Lines)
		}
		r := Read(Checks{Legs: c.legs, Lines: []Pair{c.line}, Voltmeter: exact}, Options{})
		wantSaid(t, r, c.said...)
		if l := r.Lines[0]; l.Waits != c.waits || (l.Waits == "") != (len(l.Words) > 0) {
			t.Errorf("%s waits %q, want %q: %q", c.name, l.Waits, c.waits, l.Words)
		}
	}
	// A line alone is reason enough to ask how good the multimeter is.
	wantSaid(t, Read(Checks{Lines: []Pair{{Reference: "240"}}}, Options{}), "notice voltmeter-assumed gain.voltmeter.percent")
}
