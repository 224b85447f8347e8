package pulse

import (
	"fmt"
	"math"
	"testing"

	"splittally/calc/compare"
	"splittally/calc/remark/remarktest"
	"splittally/calc/rhythm"
	"splittally/calc/uncertainty"
)

var (
	class    = uncertainty.Part{Source: "class of the meter", Name: "Class", HalfWidth: 1, Distribution: uncertainty.Rectangular, Promise: true}
	accuracy = uncertainty.Part{Source: "accuracy of monitor 0", Name: "Accuracy", HalfWidth: 2, Distribution: uncertainty.Rectangular, Promise: true}
	promised = Options{Class: class, Accuracy: accuracy}
)

// steadily gives a run of 600 s at a power of the meter and one of the monitor.
func steadily(meter, monitor float64) Run {
	return Run{
		Turns: fmt.Sprint(math.Round(meter / 6)), Seconds: "600.0",
		Watts: fmt.Sprintf("1:00 %.0f\n3:00 %.0f\n5:00 %.0f\n7:00 %.0f\n9:00 %.0f", monitor, monitor+1, monitor, monitor-1, monitor),
	}
}

func TestVerdicts(t *testing.T) {
	for _, c := range []struct {
		monitor float64
		want    compare.Verdict
	}{{1500, compare.Agree}, {1525, compare.Agree}, {1600, compare.DifferHigh}, {1400, compare.DifferLow}} {
		f := Read(Timing{Constant: "1000", Runs: []Run{steadily(1500, c.monitor)}}, promised).Runs[0]
		if !f.IsCompared || f.Compared.Verdict != c.want {
			t.Errorf("%v W beside 1500 W: %v, %v %% ± %v %%", c.monitor, f.Compared.Verdict, f.Compared.Percent, f.Compared.Expanded)
		}
		near(t, "the error", f.Compared.Percent.InexactFloat64(), 100*(c.monitor/1500-1), 1e-6)
		if f.Compared.Reference.Energy != f.Energy || f.Energy != 250_000_000 {
			t.Errorf("the reference is %v", f.Compared.Reference.Energy)
		}
	}
}

// What is not known of the time is there once, on the meter's side.
func TestTimeIsCountedOnce(t *testing.T) {
	f := Read(Timing{Constant: "1000", Runs: []Run{{Turns: "10", Seconds: "36.000", Watts: "1000.000\n1000.000\n1000.000"}}}, Options{}).Runs[0]
	near(t, "relative", f.Compared.Standard, 100*f.Watts.Standard/f.Watts.Value, 1e-3)
}

func TestOneTooMany(t *testing.T) {
	for _, c := range []struct {
		turns, watts string
		want         []string
	}{
		{"10", "648", []string{"notice one-off timing.runs.0.turns"}}, // nine turns are 648 W
		{"10", "792", []string{"notice one-off timing.runs.0.turns"}},
		{"10", "720", nil},
		{"10", "690", nil}, // neither nor
		{"200", "14328", nil},
	} {
		r := Read(Timing{Shows: "disc", Constant: "7.2", Runs: []Run{{Turns: c.turns, Seconds: "360.0", Watts: c.watts}}}, promised)
		remarktest.Want(t, remarktest.Said(r.Problems, r.Questions, r.Notices), c.want...)
	}
}

func TestRunsPooled(t *testing.T) {
	r := Read(Timing{Constant: "1000", Runs: []Run{steadily(600, 618), {}, steadily(1800, 1854), steadily(3000, 3090)}}, promised)
	if !r.IsPooled || !r.Consistent.Done || !r.Consistent.Passes {
		t.Fatalf("%+v", r.Consistent)
	}
	near(t, "the error", r.Pooled.Percent.InexactFloat64(), 3, 1e-6)
	if want := r.Runs[0].Energy + r.Runs[2].Energy + r.Runs[3].Energy; r.Pooled.Reference.Energy != want {
		t.Errorf("pooled %v, want %v", r.Pooled.Reference.Energy, want)
	}
	// The promises do not shrink, nor does the clock.
	for _, source := range []string{class.Source, accuracy.Source, WatchSource} {
		of := func(c compare.Comparison) float64 {
			u, _ := c.Budget.Only(func(p uncertainty.Part) bool { return p.Source == source }).Combined()
			return u
		}
		near(t, source, of(r.Pooled), of(r.Runs[0].Compared), 1e-9)
	}
	if r := Read(Timing{Constant: "1000", Runs: []Run{steadily(600, 690), steadily(1800, 1854), steadily(3000, 3000)}}, promised); r.Consistent.Passes {
		t.Errorf("%+v", r.Consistent)
	}
	if Read(Timing{Constant: "1000", Runs: []Run{steadily(600, 690)}}, promised).IsPooled {
		t.Error("one run is pooled")
	}
}

func TestLineThroughSeveralLoads(t *testing.T) {
	timing := Timing{Constant: "1000"}
	for _, w := range []float64{300, 900, 1800, 3000} {
		timing.Runs = append(timing.Runs, steadily(w, 40+1.03*w))
	}
	r := Read(timing, promised)
	if !r.IsLined || len(r.Points) != 4 || r.Points[3].Run != 3 || r.Points[3].Meter != 3000 {
		t.Fatalf("%+v", r.Line)
	}
	near(t, "the offset", r.Line.Offset.Value, 40, 2)
	near(t, "the gain", r.Line.Gain.Value, 1.03, 0.002)
	// The class of the meter moves the gain and not the offset.
	exact := Read(timing, Options{})
	near(t, "the offset's", r.Line.Offset.Standard, exact.Line.Offset.Standard, 1e-9)
	near(t, "the gain's", r.Line.Gain.Standard, math.Hypot(exact.Line.Gain.Standard, 1.03*0.01/math.Sqrt(3)), 1e-4)
	for _, w := range [][]float64{{300, 900}, {1500, 1510, 1520, 1530}} {
		timing.Runs = nil
		for _, w := range w {
			timing.Runs = append(timing.Runs, steadily(w, w))
		}
		if Read(timing, promised).IsLined {
			t.Errorf("a line through %v W", w)
		}
	}
}

// To count for as long as that gives what was wanted, and a little less does
// not; what the clock hides no time brings back.
func TestHowLongToCount(t *testing.T) {
	at := func(pulses float64) Found {
		return Read(Timing{Constant: "1000", Runs: []Run{{Turns: fmt.Sprintf("%.0f", pulses), Seconds: fmt.Sprintf("%.3f", 2.4*pulses)}}}, Options{}).Runs[0]
	}
	f := at(20)
	if len(f.Longer) != len(wantedPercents) {
		t.Fatalf("%+v", f.Longer)
	}
	for _, l := range f.Longer {
		if !l.Possible || l.Readings != 0 {
			t.Fatalf("%+v", l)
		}
		n := math.Round(l.Seconds / 2.4)
		long, short := at(n), at(n-1)
		if w := l.Percent / 100 * long.Watts.Value; long.Watts.Expanded > w*1.0001 || short.Watts.Expanded < w*0.9999 {
			t.Errorf("± %g %%: %v pulses give ± %v W, one less ± %v W, of %v W", l.Percent, n, long.Watts.Expanded, short.Watts.Expanded, long.Watts.Value)
		}
	}
	if l := f.For(0.004, 0.95); l.Possible || l.Seconds != 0 {
		t.Errorf("%+v beyond the clock", l)
	}
	if l := f.For(50, 0.95); l.Seconds != 2.4 {
		t.Errorf("± 50 %% takes %v s", l.Seconds)
	}
}

func TestHowManyReadings(t *testing.T) {
	f := beside("0:10 1200\n0:20 1280\n0:30 1240\n0:40 1210\n0:50 1260\n1:00 1240\n1:10 1225\n1:20 1250", "").Runs[0]
	l := f.For(2, 0.95)
	if had := 100 * f.Monitor.Expanded / f.Monitor.Value; l.Readings < 2 || (l.Readings > 8) != (had > 2) {
		t.Errorf("± %v %% with 8, ± 2 %% wants %d", had, l.Readings)
	}
	if more := f.For(1, 0.95).Readings; more <= l.Readings {
		t.Errorf("± 1 %% wants %d, ± 2 %% %d", more, l.Readings)
	}
	if n := f.For(0.01, 0.95).Readings; n != 0 {
		t.Errorf("± 0.01 %% wants %d in spite of the rounding", n)
	}
}

func BenchmarkRead(b *testing.B) {
	m := tapped(201, 2, 0.05)
	text := Format(m)
	marks, h, _ := allCount(text)
	timing := Timing{Constant: "1000", Runs: []Run{{How: "taps", Marks: text, Watts: steadily(1800, 1820).Watts}}}
	kept := promised
	kept.ReadMarks = func(string) (Marks, rhythm.Result, error) { return marks, h, nil }
	b.Run("marks kept", func(b *testing.B) {
		for b.Loop() {
			Read(timing, kept)
		}
	})
	b.Run("marks read", func(b *testing.B) {
		for b.Loop() {
			Read(timing, promised)
		}
	})
	b.Run("72,000 marks kept", func(b *testing.B) {
		text := Format(tapped(72_000, 0.05, 0.001))
		marks, h, _ := allCount(text)
		long := Timing{Constant: "1000", Runs: []Run{{How: "taps", Marks: text, Watts: steadily(1800, 1820).Watts}}}
		kept := kept
		kept.ReadMarks = func(string) (Marks, rhythm.Result, error) { return marks, h, nil }
		for b.Loop() {
			Read(long, kept)
		}
	})
	b.Run("parsing 72,000 marks", func(b *testing.B) {
		text := Format(tapped(72_000, 0.05, 0.001))
		for b.Loop() {
			Parse(text)
		}
	})
}
