package pulse

import (
	"testing"

	"splittally/calc/remark/remarktest"
)

func TestConstantsAsPeopleTypeThem(t *testing.T) {
	for _, c := range []struct {
		shows, constant, per string
		each                 float64 // Wh of a pulse
	}{
		{"disc", "7.2", "", 7.2},
		{"disc", "Kh 7.2", "", 7.2},
		{"disc", "kh=7,2", "imp", 7.2},
		{"disc", "Kh: 3.6", "", 3.6},
		{"disc", ".6", "", 0.6},
		{"disc", "7.2 Wh/rev", "", 7.2},
		{"disc", "0.0072 kWh/rev", "", 7.2},
		{"disc", "375 rev/kWh", "", 1000. / 375},
		{"disc", "75 U/kWh", "", 1000. / 75},
		{"disc", "600 r/kWh", "", 1000. / 600},
		{"disc", "375", "imp", 1000. / 375},
		{"lamp", "1000", "", 1},
		{"", "1000 imp/kWh", "", 1},
		{"", "1000imp./kWh", "", 1},
		{"", "1 000 imp/kWh", "", 1},
		{"", "1,000 imp/kWh", "", 1},
		{"", "1.000 imp/kWh", "", 1},
		{"", "imp/kWh 3200", "", 0.3125},
		{"", "3200 impulses per kWh", "", 0.3125},
		{"", "10,000 pulses/kWh", "", 0.1},
		{"", "1600 flashes", "", 0.625},
		{"", "1 imp/Wh", "", 1},
		{"", "1 Wh", "", 1},
		{"", "0.1 Wh/imp", "", 0.1},
		{"", "Kt 1.8", "", 1.8},
		{"", "7.2", "wh", 7.2},
		{"", "１０００", "", 1},
		{"block", "1", "", 1},
		{"block", "1.0 Wh", "", 1},
		{"block", "500", "imp", 2},
	} {
		r := Read(Timing{Shows: c.shows, Constant: c.constant, Per: c.per}, Options{})
		if len(r.Problems)+len(r.Questions) > 0 {
			t.Errorf("%q: %v %v", c.constant, r.Problems, r.Questions)
		}
		near(t, c.constant, r.PerPulse, c.each, 1e-12*c.each)
	}
}

func TestConstantsThatAreNone(t *testing.T) {
	for _, constant := range []string{
		"Kh", "seven", "Rr 13 8/9", "13.89 register ratio", "1000 imp/kvarh", "CL 200", "TA 30", "240 V", "60 Hz", "0", "-7.2",
		"7.2 horses", "1e9", "7.2 CL200", "0.001",
	} {
		r := Read(Timing{Shows: "disc", Constant: constant}, Options{})
		remarktest.Want(t, remarktest.Said(r.Problems, r.Questions, r.Notices), "problem timing.constant")
		if r.PerPulse != 0 {
			t.Errorf("%q gives %v Wh", constant, r.PerPulse)
		}
	}
}

func TestAConstantThatIsUnusualIsAskedAbout(t *testing.T) {
	for _, c := range []struct {
		timing     Timing
		taken      string
		wh, imp    string
		each, then float64 // provisionally, and if the other is chosen
		other      string
	}{
		{Timing{Shows: "disc", Constant: "Kh 1000"}, "imp", "360,000 W", "", 1, 1000, "wh"},
		{Timing{Constant: "7.2 imp/kWh"}, "wh", "", "", 7.2, 1000 / 7.2, "imp"},
		{Timing{Shows: "disc", Constant: "375"}, "imp", "", "", 1000. / 375, 375, "wh"},
		{Timing{Constant: "1"}, "wh", "", "", 1, 1000, "imp"},
	} {
		r := Read(c.timing, Options{})
		remarktest.Want(t, remarktest.Said(r.Problems, r.Questions, r.Notices), "question timing.constant = "+c.taken)
		near(t, c.timing.Constant, r.PerPulse, c.each, 1e-9)
		r = Read(c.timing, Options{Answers: map[string]string{"timing.constant": c.other}})
		near(t, c.timing.Constant+", answered", r.PerPulse, c.then, 1e-9)
		if !r.Questions[0].Answered {
			t.Errorf("%s is not answered", c.timing.Constant)
		}
	}
	// What each would give is told of the first run that can be worked out.
	q := Read(Timing{Shows: "disc", Constant: "1000", Runs: []Run{{}, {Turns: "10", Seconds: "36"}}}, Options{}).Questions[0]
	if a, b := q.Choices[0].Gives, q.Choices[1].Gives; a != "1000000\u202fW in run 2" || b != "1000\u202fW in run 2" {
		t.Errorf("the choices give %q and %q", a, b)
	}
	q = Read(Timing{Shows: "disc", Constant: "1000"}, Options{}).Questions[0]
	if want := "one turn in 10\u202fs would be 360\u202fW"; q.Choices[1].Gives != want {
		t.Errorf("the choice gives %q, want %q", q.Choices[1].Gives, want)
	}
}

// A mark that can be of decimals or of thousands is asked about where both make
// sense; where one does it is taken, and told.
func TestAConstantThatCanBeTwoNumbers(t *testing.T) {
	const path = "timing.constant"
	for _, c := range []struct {
		timing      Timing
		said        string
		each, other float64 // Wh, provisionally and if the second is chosen
	}{
		{Timing{Constant: "100,000 imp/kWh"}, "question timing.constant-number = 1", 10, 0.01},
		{Timing{Constant: "640.000"}, "question timing.constant-number = 1", 1000. / 640, 1000. / 640_000},
		{Timing{Shows: "disc", Constant: "75,000 U/kWh"}, "question timing.constant-number = 1", 1000. / 75, 1. / 75},
		{Timing{Constant: "1,000 imp/kWh"}, "notice constant-number timing.constant", 1, 1},
		{Timing{Constant: "10.000 imp/kWh"}, "notice constant-number timing.constant", 0.1, 0.1},
		{Timing{Shows: "disc", Constant: "Kh 7.200"}, "notice constant-number timing.constant", 7.2, 7.2},
	} {
		r := Read(c.timing, Options{})
		remarktest.Want(t, remarktest.Said(r.Problems, r.Questions, r.Notices), c.said)
		near(t, c.timing.Constant, r.PerPulse, c.each, 1e-9)
		r = Read(c.timing, Options{Answers: map[string]string{path + "-number": "2"}})
		near(t, c.timing.Constant+", answered", r.PerPulse, c.other, 1e-9)
	}
	q := Read(Timing{Constant: "100,000 imp/kWh", Runs: []Run{{Turns: "10", Seconds: "36"}}}, Options{}).Questions[0]
	if q.Choices[0].Gives != "10000\u202fW in run 1" || q.Choices[1].Gives != "10.0\u202fW in run 1" {
		t.Errorf("%+v", q.Choices)
	}
	// Which of both it is comes first.
	r := Read(Timing{Shows: "disc", Constant: "375.000"}, Options{})
	remarktest.Want(t, remarktest.Said(r.Problems, r.Questions, r.Notices), "question timing.constant = imp", "question timing.constant-number = 1")
	near(t, "375.000", r.PerPulse, 1000./375, 1e-9)
	r = Read(Timing{Shows: "disc", Constant: "375.000"}, Options{Answers: map[string]string{path: "wh"}})
	near(t, "375.000 as Wh", r.PerPulse, 375, 1e-9)
}

// A multiplier is read with or without a constant, and it is what a run waits
// for if it is wrong.
func TestAWrongMultiplierIsSaidSo(t *testing.T) {
	for constant, waits := range map[string]string{"": "missing: the meter constant", "Kh": "missing: the meter constant", "1 Wh": "missing: a multiplier that can be read"} {
		r := Read(Timing{Constant: constant, Multiplier: "forty", Runs: []Run{{Turns: "10", Seconds: "36"}}}, Options{})
		if r.Runs[0].Waits != waits {
			t.Errorf("with the constant %q it waits for %q", constant, r.Runs[0].Waits)
		}
		if p := r.Problems; len(p) == 0 || p[0].Path != "timing.multiplier" {
			t.Errorf("with the constant %q: %+v", constant, p)
		}
	}
}

func TestAUnitThatIsTypedCounts(t *testing.T) {
	r := Read(Timing{Constant: "1000 imp/kWh", Per: "wh"}, Options{})
	remarktest.Want(t, remarktest.Said(r.Problems, r.Questions, r.Notices), "notice constant-unit timing.constant")
	near(t, "1000 imp/kWh", r.PerPulse, 1, 0)
}

func TestMultipliers(t *testing.T) {
	for text, want := range map[string]float64{
		"": 1, "1": 1, "40": 40, "x40": 40, "× 40": 40, "200/5": 40, "200:5": 40, "CTR 200:5": 40, "CT 200 / 5 A": 40, "200A:5A": 40,
		"7/2": 3.5, "1200:5": 240, "1,200:5": 240, "2,5": 2.5, "2,000:1,000": 2, "2.000/1.000": 2,
		"1,200.5:1": 1200.5,
	} {
		r := Read(Timing{Constant: "1 Wh", Multiplier: text}, Options{})
		if len(r.Problems)+len(r.Questions) > 0 {
			t.Errorf("%q: %v %v", text, r.Problems, r.Questions)
		}
		near(t, text, r.PerPulse, want, 1e-12*want)
	}
	for _, text := range []string{"5:200", "0", "-4", "forty", "200:0", "200:", ":200", "5/", "/", "1e7", "Kh 40"} {
		r := Read(Timing{Constant: "1 Wh", Multiplier: text}, Options{})
		remarktest.Want(t, remarktest.Said(r.Problems, r.Questions, r.Notices), "problem timing.multiplier")
		if r.PerPulse != 0 {
			t.Errorf("with a multiplier %q a pulse is %v Wh", text, r.PerPulse)
		}
	}
	r := Read(Timing{Constant: "1 Wh", Multiplier: "1,200"}, Options{})
	remarktest.Want(t, remarktest.Said(r.Problems, r.Questions, r.Notices), "question timing.multiplier = 1200")
}

// A pulse of a third of a watt-hour is no decimal; the energy of 3 000 is a
// whole kilowatt-hour all the same, as it is rounded once.
func TestEnergyIsRoundedOnce(t *testing.T) {
	r := Read(Timing{Constant: "3000", Runs: []Run{{Turns: "3000", Seconds: "3600"}, {Turns: "1", Seconds: "3.6"}}}, Options{})
	if e := r.Runs[0].Energy; e != 1_000_000_000 {
		t.Errorf("3000 pulses are %d µWh", e)
	}
	if e := r.Runs[1].Energy; e != 333_333 {
		t.Errorf("one pulse is %d µWh", e)
	}
}
