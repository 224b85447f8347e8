package gain

import (
	"math"
	"strings"
	"testing"
)

// stepped makes a leg of load steps written as "before/after/load".
func stepped(name string, rows ...string) Leg {
	l := Leg{Name: name}
	for _, row := range rows {
		f := strings.Split(row, "/")
		l.Steps = append(l.Steps, Step{f[0], f[1], f[2]})
	}
	return l
}

// Worked by hand: loads of 4440 W in all over rises of 4345 W are 1.0218642. The
// differences −1.703, −1.747 and 3.450 W, s = 2.988 W, over √3 and 1448.33 W
// 0.11910 %. The plug-in meter: 2 % of 1480 W and 2 W are 31.6 W, over √3
// 1.25967 %. Two roundings of 0.5 W: 0.02880 %; the plug-in meter's 0.01993 %.
// 3 V lost of 120 V are 37 W: 1.47493 %.
func TestStepsByHand(t *testing.T) {
	c := Checks{Legs: []Leg{stepped("A", "400/1850/1480", "410/1862/1482", "395/1838/1478")}, Plugmeter: Accuracy{"2", "2"}, Drop: "3"}
	r := Read(c, Options{})
	wantSaid(t, r)
	f := r.Legs[0].Power
	near(t, "factor", f.Factor, 1.0218642, 1e-7)
	for i, want := range []float64{1.25967, 0.11910, 0.02880, 0.01993, 1.47493} {
		near(t, f.Budget[i].Name, math.Abs(f.Budget[i].Standard), want, 6e-6)
	}
	near(t, "rise", f.Monitor, 1448.3333, 1e-4)
	near(t, "load", f.Reference, 1480, 1e-9)
	if l := r.Legs[0]; l.Basis != ByPower || !r.Power.Complete || r.Volts.Given || f.Pairs != 3 {
		t.Errorf("%+v", l)
	}
	// At 240 V on the leg the same drop is half of it.
	c.Legs[0].Pairs = leg("", "240.0/240.0", "240.0/240.0", "240.0/240.0").Pairs
	c.Voltmeter = exact
	r = Read(c, Options{})
	near(t, "loss at 240 V", r.Legs[0].Power.Budget[4].HalfWidth, 18.5, 1e-9)
}

func TestStepsThatCantBeUsed(t *testing.T) {
	at, one := "gain.legs.0.steps.1.", "notice one-step gain.legs.0.steps"
	for _, c := range []struct {
		step, waits string
		said        []string
	}{
		{"400/400/1480", "", []string{"problem " + at + "after", one}},
		{"1850/400/1480", "", []string{"problem " + at + "after", one}},
		{"400/1850/19", "", []string{"problem " + at + "load", one}},
		{"400/1850/20000", "", []string{"problem " + at + "load", one}},
		{"some/1850/1480", "", []string{"problem " + at + "before", one}},
		{"400/100001/1480", "", []string{"problem " + at + "after", one}},
		{"400//1480", "the monitor's watts after of step 2 are missing", []string{one}},
		{"/1850/", "the monitor's watts before and the watts of the load of step 2 are missing", []string{one}},
		{"some//", "the monitor's watts after and the watts of the load of step 2 are missing", []string{"problem " + at + "before", one}},
		{"//", "", []string{one}},
		{"-1200/250/1480", "", nil}, // feeding in
		{"400/680/290", "", []string{"notice small-step gain.legs.0.steps.1"}},
		{"400/1100/1480", "", nil},
	} {
		r := Read(Checks{Legs: []Leg{stepped("A", "400/1850/1480", c.step)}, Plugmeter: exact, Drop: "0"}, Options{})
		said := c.said
		if c.step == "400/1100/1480" {
			said = []string{"notice gain-implausible gain.legs.0.steps"}
		}
		wantSaid(t, r, said...)
		if r.Legs[0].Waits != c.waits {
			t.Errorf("%s waits %q, want %q", c.step, r.Legs[0].Waits, c.waits)
		}
	}
}

// Marks that can be for decimals or for thousands are settled by the load.
func TestWattsAsPeopleWriteThem(t *testing.T) {
	for _, c := range []struct {
		step       string
		factor     float64
		resolution float64
	}{
		{"400 W/1,850 W/1,480 W", 1480. / 1450, 1},
		{"1,012/2,462/1480", 1480. / 1450, 1},
		{"1.012/2.462/1480", 1480. / 1450, 1},
		{"0.40 kW/1.85 kW/1.480kW", 1480. / 1450, 10},
		{"400,5/1850,5/1480,0", 1480. / 1450, 0.1},
		{"0/23,412/23,456", 23.456 / 23.412, 0.001},
	} {
		r := Read(Checks{Legs: []Leg{stepped("A", c.step, c.step, c.step)}, Plugmeter: exact, Drop: "0"}, Options{})
		near(t, c.step, r.Legs[0].Power.Factor, c.factor, 1e-9)
		near(t, "resolution of "+c.step, r.Legs[0].Power.Resolution, c.resolution, 1e-12)
	}
}

// One step: 50 W to either side of the rise, and up to 2 % lost in the wires.
func TestOneStepAssumesTheRest(t *testing.T) {
	r := Read(Checks{Legs: []Leg{stepped("A", "400/1850/1480")}}, Options{})
	wantSaid(t, r, "notice one-step gain.legs.0.steps", "notice plugmeter-assumed gain.plugmeter.percent")
	b := r.Legs[0].Power.Budget
	near(t, "wander", math.Abs(b[1].Standard), 100*50/math.Sqrt(3)*1480/1450/1450, 1e-9)
	near(t, "loss", b[4].HalfWidth, 29.6, 1e-9)
	if !b[1].Assumed || !b[4].Assumed || !b[0].Assumed || b[4].Remedy == "" {
		t.Errorf("not marked as assumed: %+v", b)
	}
}

// With all three, the steps rule, and the notice says whether they are the
// product of volts and amperes.
func TestStepsAgainstVoltsAndAmps(t *testing.T) {
	at := " gain.legs.0.steps"
	for _, c := range []struct{ after, code, words string }{
		{"1837", "power-agrees", "They agree within their joint uncertainty of "},
		{"1737", "power-differs", "pairs of volts and amperes do not see it"},
	} {
		row := "400/" + c.after + "/1480"
		l := stepped("A", row, row, row)
		l.Pairs = leg("", "121.2/120.0", "121.2/120.0", "121.2/120.0").Pairs
		l.Amps = current("", "20.4/20.0", "20.4/20.0", "20.4/20.0").Amps
		r := Read(Checks{Legs: []Leg{l}, Voltmeter: Accuracy{"0.5", "2"}, Clampmeter: Accuracy{"1", "2"}, Plugmeter: Accuracy{"1", "1"}}, Options{})
		wantSaid(t, r, "notice "+c.code+at)
		if text := r.Notices[0].Text; !strings.Contains(text, c.words) || r.Legs[0].Basis != ByPower {
			t.Errorf("%s: %s", r.Legs[0].Basis, text)
		}
	}
}
