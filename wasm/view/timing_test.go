package view

import (
	"html"
	"math"
	"reflect"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"splittally/calc"
	"splittally/calc/chart"
	"splittally/calc/chart/markup"
	"splittally/calc/compare"
	"splittally/calc/energy"
	"splittally/calc/fit"
	"splittally/calc/pulse"
	"splittally/calc/remark"
	"splittally/calc/rhythm"
	"splittally/calc/uncertainty"
)

// uneven are marks of which each that can be wrong is: the third flash lacks,
// one is doubled, one unsure, one faint, one struck out and one set by hand.
func uneven() ([]rhythm.Mark, rhythm.Result) {
	marks := []rhythm.Mark{
		{At: 2, Sure: 1},
		{At: 5, Sure: 1},
		{At: 11, Sure: 1},
		{At: 11.05, Sure: 0.8},
		{At: 14, Sure: 0.5},
		{At: 15.5, Sure: 0.3},
		{At: 17, Sure: 1, Told: rhythm.Added},
		{At: 18, Sure: 0.9, Told: rhythm.Struck},
		{At: 20, Sure: 1},
	}
	c, x := rhythm.Counted, rhythm.Extra
	return marks, rhythm.Result{
		Uses:      []rhythm.Use{c, c, c, x, c, rhythm.Doubted, c, rhythm.Out, c},
		Chances:   []float64{1, 1, 0.99, 0.1, 0.72, 0.3, 1, 0, 1},
		Missing:   []rhythm.Missing{{After: 1, Count: 1, Chance: 0.95}},
		Stretches: []rhythm.Stretch{{First: 0, Last: 8, Intervals: 6, Seconds: 18}},
		Intervals: 6, Seconds: 18, Least: 5, Most: 6, Heard: 8,
	}
}

// timed is a case with a run of each kind: one that is compared, a recording,
// and one that waits.
func timed() (calc.Case, calc.Findings) {
	c := calc.Case{Monitors: []calc.Monitor{{Name: "Hall <clamp>"}, {Name: "Attic & clamp"}}}
	c.Timing.Runs = []pulse.Run{{How: "taps", Watts: "0:05 1262\n0:10 x"}, {How: "sound"}, {}, {}, {}}
	marks, judged := uneven()
	watts := pulse.Figure{Value: 1200, Standard: 6, DoF: math.Inf(1), Expanded: 12, Budget: uncertainty.Budget{uncertainty.Evaluate(uncertainty.Part{Name: "Hand", HalfWidth: 6, Unit: "W", Distribution: uncertainty.Normal})}}
	taps := pulse.Found{
		Given: true, Marks: pulse.Marks{By: "taps", Marks: marks}, Rhythm: judged, Count: 6, Seconds: 18, Watts: watts, Last: 1210,
		Monitor: pulse.Figure{Value: 1262, Expanded: 9}, HasMonitor: true, Readings: []pulse.Reading{{At: 5, Timed: true, Watts: 1262, Line: 1}},
		Longer: []pulse.Longer{{Percent: 1, Seconds: 18, Possible: true}, {Percent: 0.5, Seconds: 61, Possible: true, Readings: 4}, {Percent: 0.1}},
	}
	indicated, reference := compare.Amount{Energy: 6310 * energy.KilowattHour / 1e6}, compare.Amount{Energy: 6 * energy.KilowattHour / 1000}
	indicated.AddOfReading(uncertainty.Part{Source: "accuracy", Name: "Stated accuracy of the monitor", HalfWidth: 1, Distribution: uncertainty.Rectangular, Promise: true})
	taps.Compared, taps.IsCompared = compare.Judge(indicated, reference, 0.95), true
	heard := taps
	heard.Marks.By, heard.Marks.File, heard.Marks.Format, heard.Marks.Read, heard.Marks.Says = "sound", "cellar & hum.mp3", "MP3, 32 kbit/s, mono", 21, []string{"A mains hum of 60 Hz lies under it."}
	heard.HasMonitor, heard.IsCompared, heard.Longer = false, false, nil
	watched := taps
	watched.Marks, watched.Rhythm, watched.Last, watched.Longer = pulse.Marks{}, rhythm.Result{}, 0, nil
	f := calc.Findings{
		Confidence: 0.95,
		Problems:   []remark.Problem{{Path: "timing.runs.0.watts", Line: 2, Column: 6, Found: "x", Wanted: "watts, such as 1240"}},
		Questions:  []remark.Question{{ID: "timing.monitor", Path: "timing", Asks: "Which monitor’s watts are these?", Taken: "2", Choices: []remark.Choice{{ID: "1", Label: "Hall"}, {ID: "2", Label: "Attic"}}}},
		Notices:    []remark.Notice{{Path: "timing.runs.1.marks", Text: "The clock of a sound card is assumed."}},
		Timed:      1,
		Timing: pulse.Result{
			Given: true, PerPulse: 1, Runs: []pulse.Found{taps, heard, {Given: true, Waits: "missing: the meter constant"}, {}, watched},
			Pooled: taps.Compared, IsPooled: true, Consistent: compare.Test{Done: true, ChiSquared: 0.2, DoF: 1, P: 0.65, Passes: true},
			Line:    fit.Line{Known: true, Offset: fit.Value{Value: 14, Expanded: 6}, Gain: fit.Value{Value: 1.005, Expanded: 0.004}, P: 1},
			IsLined: true, Points: []pulse.Point{{Run: 0, Meter: 1200, Monitor: 1262, MeterDoubt: 6, MonitorDoubt: 4}, {Run: 1, Meter: 400, Monitor: 410}},
		},
	}
	return c, f
}

// timingSlots are those that tell of the timing.
func timingSlots(d Drawing) Drawing {
	for slot := range d.Slots {
		if !strings.HasPrefix(slot, "timing") {
			delete(d.Slots, slot)
		}
	}
	return d
}

func TestTimingGolden(t *testing.T) {
	d := timingSlots(all(timed()))
	for _, slot := range []string{"timing", "timing.questions", "timing.runs.0.live", "timing.runs.0.found", "timing.runs.1.found", "timing.runs.2.live"} {
		if d.Slots[slot] == "" {
			t.Errorf("nothing in %s", slot)
		}
	}
	if d.Slots["timing.runs.3.live"]+d.Slots["timing.runs.3.found"] != "" {
		t.Error("a run that nobody began says something")
	}
	golden(t, "timing.html", d)
}

// Each run has words for the monitor that the answer names, and what the meter
// lacks stands where it is counted.
func TestTimingSays(t *testing.T) {
	d := all(timed())
	for slot, want := range map[string][]string{
		"timing":              {"Attic &amp; clamp reads high", "waits: the meter constant", "from a recording, 6 flashes in 0:18.0", "Run 5, 1200", "2 runs together"},
		"timing.runs.0.live":  {"<strong>1200\u202fW</strong>", "the last interval alone 1210", "For ±\u00a00.5\u202f% count for 1:01"},
		"timing.runs.0.found": {"Flash 2, about 0:08.0, seems to be missing (95\u202f% sure)", "At 0:11.05 something comes between two flashes", "may be a flash (30\u202f% sure)", "The flash at 0:14.00 is counted, though not certain (72\u202f% sure)", "from 5 to 6", "What you changed: 2 pulses", "Line 2, column 6"},
		"timing.runs.2.live":  {"Missing: the meter constant."},
		"notices":             {"Run 2: The clock"},
	} {
		for _, w := range want {
			if !strings.Contains(d.Slots[slot], w) {
				t.Errorf("%q is not in %s: %s", w, slot, d.Slots[slot])
			}
		}
	}
	if strings.Contains(d.Slots["timing.runs.0.live"], "For ±\u00a01\u202f%") {
		t.Error("it says how long to count for what it has reached")
	}
}

// A recording of hundreds of doubtful pulses has a short list.
func TestDoubtsAreBounded(t *testing.T) {
	c, f := timed()
	r := &f.Timing.Runs[0]
	for i := range 50 {
		r.Marks.Marks = append(r.Marks.Marks, rhythm.Mark{At: 30 + float64(i)})
		r.Rhythm.Uses, r.Rhythm.Chances = append(r.Rhythm.Uses, rhythm.Doubted), append(r.Rhythm.Chances, 0.2)
	}
	r.Marks.Marks = append(r.Marks.Marks, rhythm.Mark{At: 90}, rhythm.Mark{At: 91})
	r.Rhythm.Uses, r.Rhythm.Chances = append(r.Rhythm.Uses, rhythm.Doubted, rhythm.Doubted), append(r.Rhythm.Chances, 0.02, 0.04)
	got := all(c, f).Slots["timing.runs.0.found"]
	if !strings.Contains(got, "2 more sounds may be a flash, but hardly") {
		t.Error(got)
	}
	if n := strings.Count(got, "<li><span>At"); n > mostDoubts+2 || !strings.Contains(got, "And 42 more, later in the run.") {
		t.Errorf("%d in the list: %s", n, got)
	}
}

func TestGather(t *testing.T) {
	b := gather(uneven())
	want := beats{
		first: 2, last: 20,
		beats: []chart.Placed{
			{At: 0, Beat: chart.Counts},
			{At: 3, Beat: chart.Counts},
			{At: 6, Beat: chart.Lacks},
			{At: 9, Beat: chart.Counts},
			{At: 9.05, Beat: chart.Between},
			{At: 12, Beat: chart.Counts},
			{At: 13.5, Beat: chart.Unsure},
			{At: 15, Beat: chart.Set},
			{At: 16, Beat: chart.Struck},
			{At: 18, Beat: chart.Counts},
		},
		holds: []chart.Hold{{From: 0, To: 3, Value: 3}, {From: 3, To: 9, Value: 3, Lacks: true}, {From: 9, To: 12, Value: 3}, {From: 12, To: 15, Value: 3}, {From: 15, To: 18, Value: 3}},
		gaps:  []gap{{Missing: rhythm.Missing{After: 1, Count: 1, Chance: 0.95}, at: []float64{8}, zero: 2}},
	}
	near := cmp.Comparer(func(a, b float64) bool { return math.Abs(a-b) < 1e-9 })
	if diff := cmp.Diff(want, b, cmp.AllowUnexported(beats{}, gap{}), near); diff != "" {
		t.Error(diff)
	}
	if got, want := b.told(), "Pulses: 6 counted, 1 missing but counted, 1 between two that count, 1 too unsure, 1 struck out."; got != want {
		t.Errorf("%s, want %s", got, want)
	}
}

// Across a break nothing is an interval.
func TestGatherAcrossABreak(t *testing.T) {
	marks := []rhythm.Mark{{At: 0}, {At: 1}, {At: 7}, {At: 8}}
	c := rhythm.Counted
	b := gather(marks, rhythm.Result{Uses: []rhythm.Use{c, c, c, c}, Stretches: []rhythm.Stretch{{First: 0, Last: 1}, {First: 2, Last: 3}}})
	if want := []chart.Hold{{From: 0, To: 1, Value: 1}, {From: 7, To: 8, Value: 1}}; !cmp.Equal(b.holds, want) {
		t.Errorf("%v, want %v", b.holds, want)
	}
	// What nobody judged yet counts.
	if b := gather(marks, rhythm.Result{}); len(b.holds) != 3 || b.count()[chart.Counts] != 4 {
		t.Errorf("%+v", b)
	}
}

// Whatever marks and files say, it stays text.
func TestHostileTiming(t *testing.T) {
	for _, bad := range hostile {
		c, f := timed()
		poison(reflect.ValueOf(&f.Timing).Elem(), bad)
		c.Monitors[0].Name, c.Monitors[1].Name = bad, bad
		d := timingSlots(all(c, f))
		for slot, drawn := range d.Slots {
			checkMarkup(t, bad+" in "+slot, drawn)
		}
		for _, slot := range []string{"timing", "timing.runs.2.live"} {
			if !strings.Contains(d.Slots[slot], html.EscapeString(markup.Plain(bad))) && !strings.Contains(d.Slots[slot], html.EscapeString(capital(bad))) {
				t.Errorf("%s is not in %s: the test has no grip", bad, slot)
			}
		}
	}
}
