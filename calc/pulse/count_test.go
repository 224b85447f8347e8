package pulse

import (
	"math"
	"strings"
	"testing"

	"splittally/calc/remark/remarktest"
)

func TestCountsAndTimesAsPeopleTypeThem(t *testing.T) {
	for _, c := range []struct {
		shows, turns, seconds string
		n, t                  float64
	}{
		{"disc", "10", "125.4", 10, 125.4},
		{"disc", "10 turns", "125,4", 10, 125.4},
		{"disc", "4.25", "2:05.4", 4.25, 125.4},
		{"disc", "4,25", "2:05,4", 4.25, 125.4},
		{"disc", "2 1/4", "125.4 s", 2.25, 125.4},
		{"disc", "2¼", "125.4 sec.", 2.25, 125.4},
		{"disc", "½", "1:02:05", 0.5, 3725},
		{"disc", "1/3", "60", 1 / 3., 60},
		{"disc", "3 turns", "2 min 5.4 s", 3, 125.4},
		{"", "100", "2m05s", 100, 125},
		{"", "100 flashes", "2'05\"", 100, 125},
		{"", "100", "5 min", 100, 300},
		{"", "100", "1.5 minutes", 100, 90},
		{"", "100", "1 h 2 min", 100, 3720},
		{"", "100", "2 min 05", 100, 125},
		{"", "1,250", "600", 1250, 600},
		{"block", "1 000", "600", 1000, 600},
	} {
		f := at(t, c.shows, "1 Wh", c.turns, c.seconds)
		near(t, c.turns, f.Count, c.n, 1e-11)
		near(t, c.seconds, f.Seconds, c.t, 1e-9)
	}
}

func TestCountsAndTimesThatAreNone(t *testing.T) {
	for _, c := range []struct{ shows, turns, seconds, path string }{
		{"disc", "ten", "60", "turns"},
		{"disc", "-1", "60", "turns"},
		{"disc", "0", "60", "turns"},
		{"disc", "2 1/0", "60", "turns"},
		{"", "4.25", "60", "turns"},
		{"", "½", "60", "turns"},
		{"", "2000000", "60", "turns"},
		{"", "10", "soon", "seconds"},
		{"", "10", "0", "seconds"},
		{"", "10", "-5", "seconds"},
		{"", "10", "2:75", "seconds"},
		{"", "10", "1:2:3:4", "seconds"},
		{"", "10", "90000", "seconds"},
		{"", "10", "5 s 2 min", "seconds"},
		{"", "10", "NaN", "seconds"},
		{"", "10", "Inf", "seconds"},
		{"", "10", "0x1p3", "seconds"},
		{"", "10", "0x1p3:10", "seconds"},
		{"", "10", "1e1:10", "seconds"},
		{"", "10", "2:05 pm", "seconds"},
		{"", "10", "2:05:10am", "seconds"},
		{"", "10", "90000 min", "seconds"},
		{"", "0x1p3", "60", "turns"},
		{"", "inf", "60", "turns"},
	} {
		r := Read(Timing{Shows: c.shows, Constant: "1 Wh", Runs: []Run{{Turns: c.turns, Seconds: c.seconds}}}, Options{})
		remarktest.Want(t, remarktest.Said(r.Problems, r.Questions, r.Notices), "problem timing.runs.0."+c.path)
		if r.Runs[0].Waits == "" || r.Runs[0].Watts.Value != 0 {
			t.Errorf("%+v: %v W", c, r.Runs[0].Watts.Value)
		}
	}
}

func TestANumberThatCanBeTwoIsAskedAbout(t *testing.T) {
	timing := Timing{Constant: "1 Wh", Runs: []Run{{Turns: "500", Seconds: "1,250"}}}
	r := Read(timing, Options{})
	remarktest.Want(t, remarktest.Said(r.Problems, r.Questions, r.Notices), "question timing.runs.0.seconds = 2")
	near(t, "the power", r.Runs[0].Watts.Value, 1440, 1e-9)
	if got := r.Questions[0].Choices[0].Gives; got != "1440000\u202fW" {
		t.Errorf("1.25 s give %q", got)
	}
	r = Read(timing, Options{Answers: map[string]string{"timing.runs.0.seconds": "1"}})
	near(t, "the power", r.Runs[0].Watts.Value, 1_440_000, 1e-6)
}

// Who writes 2.5 min looked at tenths of a minute; who writes 5 min, at the
// seconds.
func TestDigitsOfATime(t *testing.T) {
	for text, want := range map[string]float64{
		"2.5 min": 6, "2.50 min": 0.6, "1.5 h": 360, "1,5 h": 360, "5 min": 1, "2 h": 1, "2 min 5.4 s": 0.1, "2 min 05": 1, "1.5": 0.1, "2:05.4": 0.1, "90 s": 1,
	} {
		p := part(t, at(t, "", "1000", "100", text).Watts.Budget, "Last digit of the seconds")
		near(t, text, p.HalfWidth, want, 1e-12)
	}
}

func TestATimeWithItsUnitIsAskedAboutToo(t *testing.T) {
	timing := Timing{Constant: "1 Wh", Runs: []Run{{Turns: "500", Seconds: "1,250 min"}}}
	r := Read(timing, Options{})
	remarktest.Want(t, remarktest.Said(r.Problems, r.Questions, r.Notices), "question timing.runs.0.seconds = 1")
	q := r.Questions[0]
	if q.Choices[0].Label != "75\u202fs" || q.Choices[1].Label != "75000\u202fs" || q.Choices[0].Gives != "24000\u202fW" {
		t.Errorf("%+v", q.Choices)
	}
	near(t, "the time", r.Runs[0].Seconds, 75, 0)
	// A day and more is no time of counting, so that only one is left.
	near(t, "2,500 min", at(t, "", "1 Wh", "500", "2,500 min").Seconds, 150, 0)
}

func TestATimeOfTheClockIsNoLength(t *testing.T) {
	r := Read(Timing{Constant: "1 Wh", Runs: []Run{{Turns: "10", Seconds: "2:05 pm"}}}, Options{})
	if len(r.Problems) != 1 || !strings.Contains(r.Problems[0].Wanted, "this is a time of the clock") {
		t.Errorf("%+v", r.Problems)
	}
}

func TestWhatARunWaitsFor(t *testing.T) {
	for _, c := range []struct {
		timing Timing
		waits  string
		given  bool
	}{
		{Timing{Runs: []Run{{}}}, "missing: how many flashes there were and the seconds that they took", false},
		{Timing{Runs: []Run{{Turns: "3"}}}, "missing: the seconds that they took", true},
		{Timing{Shows: "disc", Runs: []Run{{Seconds: "3"}}}, "missing: how many turns there were", true},
		{Timing{Runs: []Run{{Turns: "3", Seconds: "9"}}}, "missing: the meter constant", true},
		{Timing{Runs: []Run{{How: "taps"}}}, "missing: taps", false},
		{Timing{Runs: []Run{{How: "sound", Watts: "1240"}}}, "missing: a recording", true},
		{Timing{Constant: "1000", Runs: []Run{{How: "taps", Marks: Format(Marks{}.Tap(1))}}}, "missing: a second flash", true},
	} {
		r := Read(c.timing, Options{})
		if f := r.Runs[0]; f.Waits != c.waits || f.Given != c.given {
			t.Errorf("%+v waits for %q, given %v; want %q, %v", c.timing, f.Waits, f.Given, c.waits, c.given)
		}
	}
	if Read(Timing{}, Options{}).Given || !Read(Timing{Constant: "7"}, Options{}).Given {
		t.Error("what is given is wrong")
	}
}

func TestTheHand(t *testing.T) {
	for text, want := range map[string]float64{"": 0.1, "0.2": 0.2, "0,05 s": 0.05, "0": 0} {
		r := Read(Timing{Constant: "1000", Hand: text, Runs: []Run{{Turns: "100", Seconds: "360"}}}, Options{})
		p := r.Runs[0].Watts.Budget[0]
		near(t, "the hand", math.Abs(p.Standard), want*math.Sqrt2*1000/360, 1e-9)
		if p.Assumed != (text == "") || p.Name != handNamed {
			t.Errorf("%q: %+v", text, p)
		}
	}
	for _, text := range []string{"quick", "-1", "60"} {
		r := Read(Timing{Hand: text}, Options{})
		remarktest.Want(t, remarktest.Said(r.Problems, r.Questions, r.Notices), "problem timing.hand")
	}
}
