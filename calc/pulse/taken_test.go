package pulse

import (
	"strings"
	"testing"

	"splittally/calc/rhythm"
)

// Marks that came about in another way than the run is by are not made into
// watts: how they are judged and timed hangs on it.
func TestMarksOfAnotherKindWait(t *testing.T) {
	tapped := Marks{}.Tap(0).Tap(2)
	noise := Marks{By: "sound", Timing: 0.0005}
	for _, at := range []float64{1, 1.1, 4, 9, 9.3, 17} {
		noise = noise.Insert(at)
	}
	unsaid := tapped
	unsaid.By = ""
	for _, c := range []struct {
		how   string
		marks Marks
		waits string
	}{
		{"taps", tapped, ""},
		{"sound", tapped, "missing: a recording. What is there was tapped"},
		{"taps", noise, "missing: taps. What is there is of a recording"},
		{"taps", unsaid, "missing: taps. What is there does not say whether it was tapped or recorded"},
	} {
		r := Read(Timing{Constant: "1000", Runs: []Run{{How: c.how, Marks: Format(c.marks), Watts: "1240"}}}, Options{})
		f := r.Runs[0]
		if f.Waits != c.waits || !f.Given || len(r.Problems)+len(r.Questions)+len(r.Notices) > 0 {
			t.Errorf("%s waits for %q; %+v %+v", c.how, f.Waits, r.Problems, r.Notices)
		}
		if c.waits != "" && (f.Watts.Value != 0 || f.Count != 0 || f.HasMonitor || len(f.Marks.Marks) > 0) {
			t.Errorf("%s, waiting, comes to %+v", c.how, f)
		}
	}
}

// Beyond some hundred thousand marks in all, the runs wait and are not judged.
func TestMarksOfAllRunsAreBounded(t *testing.T) {
	text := Format(tapped(100_000, 0.05, 0.001))
	judged := 0
	o := Options{ReadMarks: func(text string) (Marks, rhythm.Result, error) {
		judged++
		return allCount(text)
	}}
	few := Format(tapped(101, 2, 0.05))
	timing := Timing{Constant: "1000"}
	for _, text := range []string{text, text, text, few, text} {
		timing.Runs = append(timing.Runs, Run{How: "taps", Marks: text})
	}
	r := Read(timing, o)
	if judged != 3 {
		t.Errorf("%d runs are judged, want 3", judged)
	}
	for i, waits := range []bool{false, false, true, false, true} {
		if f := r.Runs[i]; (f.Waits != "") != waits || waits && (!f.Given || !strings.Contains(f.Waits, "100000 marks are too many beside")) {
			t.Errorf("run %d waits for %q", i+1, f.Waits)
		}
	}
	for text, want := range map[string]int{
		few: 101, strings.ReplaceAll(few, "\n", "\r\n"): 101, written: 5, "pulses 1\nsays \nmarks x\n": 0, "": 0, "pulses 1\nby marks 9\nmarks 2\n1 2\n": 2,
	} {
		if got := announced(text); got != want {
			t.Errorf("%.40q announces %d, want %d", text, got, want)
		}
	}
}
