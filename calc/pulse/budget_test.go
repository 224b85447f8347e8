package pulse

import (
	"math"
	"math/rand/v2"
	"testing"

	"splittally/calc/remark/remarktest"
	"splittally/calc/rhythm"
	"splittally/calc/uncertainty"
)

// tapped gives n taps at a pace in seconds, each early or late by a normal
// scatter.
func tapped(n int, pace, scatter float64) Marks {
	r := rand.New(rand.NewPCG(3, 4))
	m := Marks{By: "taps"}
	for i := range n {
		m.Marks = append(m.Marks, rhythm.Mark{At: 1 + pace*float64(i) + scatter*r.NormFloat64(), Sure: 1})
	}
	return m
}

// marked works out one run of marks of 1 Wh each; change makes the rhythm what
// a test wants.
func marked(t *testing.T, how string, m Marks, watts string, change func(*rhythm.Result), answers ...string) Result {
	t.Helper()
	m.By = how
	o := Options{Answers: map[string]string{}, ReadMarks: func(text string) (Marks, rhythm.Result, error) {
		m, h, err := allCount(text)
		if change != nil {
			change(&h)
		}
		return m, h, err
	}}
	for i := 0; i+1 < len(answers); i += 2 {
		o.Answers[answers[i]] = answers[i+1]
	}
	r := Read(Timing{Constant: "1000", Runs: []Run{{How: how, Marks: Format(m), Watts: watts}}}, o)
	wantSound(t, r)
	return r
}

func part(t *testing.T, b uncertainty.Budget, name string) uncertainty.Part {
	t.Helper()
	for _, p := range b {
		if p.Name == name {
			return p
		}
	}
	t.Errorf("no part %q in %+v", name, b)
	return uncertainty.Part{}
}

func TestTapsShowTheirScatter(t *testing.T) {
	r := marked(t, "taps", tapped(101, 2, 0.05), "", nil)
	p := part(t, r.Runs[0].Watts.Budget, markNamed)
	near(t, "the scatter", p.HalfWidth, 0.05, 0.01)
	near(t, "its degrees of freedom", p.DoF, 49.5, 1)
	near(t, "its part", -p.Standard, r.Runs[0].Watts.Value*p.HalfWidth*math.Sqrt2/r.Runs[0].Seconds, 1e-9)
	if p.Assumed || p.Remedy != longer {
		t.Errorf("%+v", p)
	}
	// A handful shows nothing.
	if p := part(t, marked(t, "taps", tapped(6, 2, 0.01), "", nil).Runs[0].Watts.Budget, handNamed); p.HalfWidth != assumedHand || !p.Assumed {
		t.Errorf("%+v", p)
	}
	// A load that changes from tap to tap is not the hand's.
	m := tapped(41, 20, 0.05)
	for i := range m.Marks {
		m.Marks[i].At += math.Sin(float64(i)) * 2
	}
	p = part(t, marked(t, "taps", m, "", func(h *rhythm.Result) { h.Jitter = 0.05 }).Runs[0].Watts.Budget, handNamed)
	if p.HalfWidth != assumedHand {
		t.Errorf("%+v", p)
	}
}

func TestRecordingsStateTheirTiming(t *testing.T) {
	clicks := tapped(101, 2, 0.0003)
	clicks.Timing = 0.0005
	p := part(t, marked(t, "sound", clicks, "", nil).Runs[0].Watts.Budget, markNamed)
	near(t, "stated", p.HalfWidth, 0.0005, 2e-6)
	if p.Assumed {
		t.Error("what is stated is assumed")
	}
	clicks.Timing = 0
	if p := part(t, marked(t, "sound", clicks, "", nil).Runs[0].Watts.Budget, markNamed); !p.Assumed || math.Abs(p.HalfWidth-assumedSound) > 1e-6 {
		t.Errorf("%+v", p)
	}
	// A pencil that tapped along scatters as the hand does.
	pencil := tapped(101, 2, 0.06)
	pencil.Timing = 0.0005
	near(t, "a pencil", part(t, marked(t, "sound", pencil, "", nil).Runs[0].Watts.Budget, markNamed).HalfWidth, 0.06, 0.012)
	pencil.Marks = pencil.Marks[:6]
	near(t, "few taps of a pencil", part(t, marked(t, "sound", pencil, "", nil).Runs[0].Watts.Budget, markNamed).HalfWidth, assumedHand, 0)
}

func TestEachStretchHasTwoEnds(t *testing.T) {
	m := tapped(41, 2, 0.05)
	m.Breaks = []float64{40}
	r := marked(t, "sound", m, "", func(h *rhythm.Result) {
		h.Stretches = []rhythm.Stretch{{First: 0, Last: 19, Intervals: 19, Seconds: 38}, {First: 20, Last: 40, Intervals: 20, Seconds: 40}}
		h.Intervals, h.Least, h.Most, h.Heard, h.Seconds = 39, 39, 39, 39, 78
	})
	if p := part(t, r.Runs[0].Watts.Budget, markNamed); p.Repeats != 4 {
		t.Errorf("%d ends", p.Repeats)
	}
	near(t, "the power", r.Runs[0].Watts.Value, 3600*39./78, 1e-9)
}

func TestADoubtfulCountIsAskedAbout(t *testing.T) {
	doubtful := func(h *rhythm.Result) {
		h.Missing = []rhythm.Missing{{After: 50, Count: 1, Chance: 0.8}}
		h.Intervals, h.Least, h.Most, h.Heard = 101, 100, 101, 100
	}
	r := marked(t, "taps", tapped(101, 2, 0.05), "", doubtful)
	remarktest.Want(t, remarktest.Said(r.Problems, r.Questions, r.Notices), "question timing.runs.0.missing = mended")
	f := r.Runs[0]
	if f.Count != 101 || part(t, f.Watts.Budget, "Count, where pulses are missing or doubtful").HalfWidth != 1 {
		t.Errorf("%+v", f.Watts.Budget)
	}
	if got, want := r.Questions[0].Choices[1].Gives, "100 flashes, 1800\u202fW"; got != want {
		t.Errorf("as heard it gives %q, want %q", got, want)
	}
	f = marked(t, "taps", tapped(101, 2, 0.05), "", doubtful, "timing.runs.0.missing", "heard").Runs[0]
	if f.Count != 100 || len(f.Watts.Budget) != 2 {
		t.Errorf("%v %+v", f.Count, f.Watts.Budget)
	}
	// One of many is not worth a question.
	r = marked(t, "taps", tapped(3001, 2, 0.05), "", func(h *rhythm.Result) { h.Least, h.Most, h.Heard = 2999, 3001, 2999 })
	if len(r.Questions) > 0 || part(t, r.Runs[0].Watts.Budget, "Count, where pulses are missing or doubtful").HalfWidth != 1 {
		t.Errorf("%+v", r.Questions)
	}
	// Where it is certain the person may know better all the same.
	certain := func(h *rhythm.Result) { doubtful(h); h.Least = 101 }
	r = marked(t, "taps", tapped(101, 2, 0.05), "", certain)
	remarktest.Want(t, remarktest.Said(r.Problems, r.Questions, r.Notices), "question timing.runs.0.missing = mended")
	if why := r.Questions[0].Why; r.Runs[0].Count != 101 || why != "By the pace of the marks 1 flash is missing." {
		t.Errorf("%v, as %q", r.Runs[0].Count, why)
	}
	if f := marked(t, "taps", tapped(101, 2, 0.05), "", certain, "timing.runs.0.missing", "heard").Runs[0]; f.Count != 100 {
		t.Errorf("none is missing, but %v are counted", f.Count)
	}
	r = marked(t, "taps", tapped(3001, 2, 0.05), "", func(h *rhythm.Result) { h.Heard = 2999 })
	remarktest.Want(t, remarktest.Said(r.Problems, r.Questions, r.Notices))
}

// What gives no energy of a home is told of a field that is there to see.
func TestACountWithoutEnergy(t *testing.T) {
	for how, field := range map[string]string{"": "turns", "taps": "marks"} {
		run := Run{How: how, Turns: "200", Seconds: "600", Marks: Format(tapped(201, 3, 0.01))}
		r := Read(Timing{Shows: "disc", Constant: "900000", Multiplier: "100000", Runs: []Run{run}}, Options{ReadMarks: allCount, Answers: map[string]string{"timing.constant": "wh"}})
		if len(r.Problems) != 1 || r.Problems[0].Path != "timing.runs.0."+field {
			t.Errorf("%q: %+v", how, r.Problems)
		}
	}
}

func TestTheLastIntervalAlone(t *testing.T) {
	m := Marks{}.Tap(0).Tap(4).Tap(8).Tap(10)
	near(t, "one", marked(t, "taps", m, "", nil).Runs[0].Last, 1800, 1e-9)
	r := marked(t, "taps", m, "", func(h *rhythm.Result) { h.Missing = []rhythm.Missing{{After: 2, Count: 1}} })
	near(t, "one that lacks", r.Runs[0].Last, 3600, 1e-9)
	r = marked(t, "taps", m, "", func(h *rhythm.Result) { h.Uses[2] = rhythm.Extra })
	near(t, "one that is extra", r.Runs[0].Last, 600, 1e-9)
}

func TestTapsWithoutAPaceAreCounted(t *testing.T) {
	m := Marks{}.Tap(0).Tap(4).Tap(4.5).Tap(30).Tap(31).With(rhythm.Struck, 2)
	r := marked(t, "taps", m, "", func(h *rhythm.Result) { *h = rhythm.Result{Why: rhythm.NoRhythm} })
	remarktest.Want(t, remarktest.Said(r.Problems, r.Questions, r.Notices), "notice no-pace timing.runs.0.marks")
	near(t, "the power", r.Runs[0].Watts.Value, 3600*3/31., 1e-9)
	r = marked(t, "sound", m, "", func(h *rhythm.Result) { *h = rhythm.Result{Why: rhythm.NoRhythm} })
	if r.Runs[0].Waits == "" {
		t.Error("a recording without a pace gives watts")
	}
}

// Times beside the watts of a recording count from its beginning, those of
// taps from the first one.
func TestWhereTimesCountFrom(t *testing.T) {
	m := tapped(101, 2, 0)
	for i := range m.Marks {
		m.Marks[i].At += 9
	}
	for how, want := range map[string]float64{"sound": 20, "taps": 30} {
		f := marked(t, how, m, "0:30 1800", nil).Runs[0]
		near(t, how, f.Readings[0].At, want, 1e-9)
	}
}

// A load that doubles half way is no trouble for readings that are all of its
// second half: each is set beside the meter's own power at its time.
func TestReadingsArePairedWithThePower(t *testing.T) {
	m := Marks{}
	at := 0.0
	for i := range 121 {
		m = m.Tap(at)
		at += 2
		if i < 60 {
			at += 2
		}
	}
	r := marked(t, "taps", m, "5:00 1835\n5:20 1837\n5:40 1836\n5:50 1836\n", nil)
	remarktest.Want(t, remarktest.Said(r.Problems, r.Questions, r.Notices), "notice paired-readings timing.runs.0.watts")
	near(t, "the error", r.Runs[0].Compared.Percent.InexactFloat64(), 2, 0.1)
	if u := r.Runs[0].Compared.Expanded; u > 2.5 {
		t.Errorf("± %v %%", u)
	}
}

func TestOneReading(t *testing.T) {
	p := beside("1240", "").Runs[0].Monitor.Budget[0]
	if !p.Assumed || p.HalfWidth != 0.02*1240 || p.Remedy != spreadRemedy {
		t.Errorf("%+v", p)
	}
	// Quick pulses show that the load is steady.
	p = marked(t, "taps", tapped(101, 2, 0.01), "1800", nil).Runs[0].Monitor.Budget[0]
	if p.HalfWidth != 0.005*1800 {
		t.Errorf("%+v", p)
	}
}
