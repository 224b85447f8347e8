package pulse

import (
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func FuzzParse(f *testing.F) {
	f.Add(written)
	f.Add("pulses 1\nmarks 0\n")
	f.Add("pulses 1\nbreaks\nmarks 3\n1 2x\n3j9+\n")
	f.Fuzz(func(t *testing.T, text string) {
		m, err := Parse(text)
		if err != nil {
			if p := err.(*Misread); p.Line < 1 || p.Column < 1 || p.Line > 2+strings.Count(text, "\n") {
				t.Errorf("%+v", p)
			}
			return
		}
		again, err := Parse(Format(m))
		if err != nil {
			t.Fatalf("%v of\n%s", err, Format(m))
		}
		if d := cmp.Diff(m.Marks, again.Marks); d != "" {
			t.Errorf("(-want +got):\n%s", d)
		}
		for i, k := range m.Marks {
			if k.At < 0 || k.At > MostSeconds || i > 0 && k.At < m.Marks[i-1].At || !(k.Sure >= 0 && k.Sure <= 1) {
				t.Errorf("mark %d: %+v", i, k)
			}
		}
	})
}

func FuzzRead(f *testing.F) {
	f.Add("disc", "Kh 7.2", "", "200:5", "0.1", "2 1/4", "2:05.4", "0:30 1240\n1.24 kW", "19:04:10", "1240", written)
	f.Add("", "1,000", "imp", "1,200", "", "1,250", "1,250", "19:04:30 1,240 W; 90 s 1240 W", "7:04 pm", "1.2", "pulses 1\nmarks 3\n1 20000 20000\n")
	f.Add("block", "１", "wh", "×", "−1", "½", "2'05\"", "0:30,1240\n30 240", "24:00", "-5\n1e9", "pulses 1\nmarks 1\n5")
	f.Fuzz(func(t *testing.T, shows, constant, per, multiplier, hand, turns, seconds, watts, begins, more, marks string) {
		r := Read(Timing{Shows: shows, Constant: constant, Per: per, Multiplier: multiplier, Hand: hand, Runs: []Run{
			{Turns: turns, Seconds: seconds, Watts: watts, Begins: begins},
			{How: "taps", Marks: marks, Watts: watts, Begins: begins},
			{How: "sound", Marks: marks, Watts: more},
			{Turns: seconds, Seconds: turns, Watts: more},
			{Turns: turns, Seconds: "100", Watts: more},
		}}, Options{})
		wantSound(t, r)
	})
}

// wantSound holds what is true of every result, however it was typed.
func wantSound(t *testing.T, r Result) {
	t.Helper()
	finite := func(what string, figures ...float64) {
		for _, v := range figures {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				t.Errorf("%s is %v", what, v)
			}
		}
	}
	for i, f := range r.Runs {
		if (f.Waits == "") != (f.Watts.Value > 0) {
			t.Errorf("run %d has %v W and waits for %q", i, f.Watts.Value, f.Waits)
		}
		finite("a figure", f.Count, f.Seconds, f.Watts.Value, f.Watts.Expanded, f.Monitor.Value, f.Monitor.Expanded, f.Last)
		for _, k := range f.Readings {
			finite("a reading", k.At, k.Watts)
			if k.Timed && (k.At < 0 || k.At > 1.001*f.Seconds && len(f.Rhythm.Stretches) < 2) {
				t.Errorf("a reading at %v of %v s", k.At, f.Seconds)
			}
		}
		for _, l := range f.Longer {
			finite("how long", l.Seconds)
			if l.Possible != (l.Seconds > 0) {
				t.Errorf("%+v", l)
			}
		}
	}
	for _, p := range r.Problems {
		if !strings.HasPrefix(p.Path, "timing.") || p.Wanted == "" {
			t.Errorf("%+v", p)
		}
	}
	for _, q := range r.Questions {
		taken := 0
		for _, c := range q.Choices {
			if c.ID == q.Taken {
				taken++
			}
			if c.Label == "" || c.Gives == "" {
				t.Errorf("%+v", q)
			}
		}
		if !strings.HasPrefix(q.ID, "timing.") || len(q.Choices) < 2 || taken != 1 || !strings.HasSuffix(q.Asks, "?") {
			t.Errorf("%+v", q)
		}
	}
	for _, n := range r.Notices {
		if !strings.HasPrefix(n.Path, "timing.") || n.Text == "" || n.Code == "" {
			t.Errorf("%+v", n)
		}
	}
}
