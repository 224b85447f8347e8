// Package pulse turns the pulses of the utility's meter into watts, and sets
// the monitor's watts of the same minutes against them.
//
//	P = 3600 · W · n / t
//
// with W the watt-hours of a pulse (Kh of a disc, or 1000 over imp/kWh, times
// the ratio of instrument transformers), n the intervals between n + 1 marks
// and t the seconds between the first and the last.
//
// The step before is a text: what was typed of a count by the watch, or marks,
// which were tapped or found in a recording, as Format writes them. Package
// rhythm says which of these count. The step after shows the Result, or looks
// for why monitor and meter differ.
//
// # What is not known
//
// The power is the mean over the run, exactly, however the load went: what is
// not known of it is the time of the first and of the last pulse, the clock,
// and the count where pulses may lack. A steady load matters for the monitor
// alone, whose few readings must stand for the whole run: how well they do,
// they show themselves, and so do the intervals between marks. Where the load
// moved and readings have times, each is set beside the meter's own power then.
//
// All that is not known of the time stands on the meter's side of a
// comparison, as the run lasted as long for both.
package pulse

import (
	"splittally/calc/compare"
	"splittally/calc/energy"
	"splittally/calc/fit"
	"splittally/calc/remark"
	"splittally/calc/rhythm"
	"splittally/calc/uncertainty"
)

// Timing is all that was timed at the meter, every field as typed; "" is not given.
type Timing struct {
	Shows      string // what is counted: "disc", "lamp" or "block"; "" is the lamp
	Constant   string // the figure on the meter
	Per        string // "wh": watt-hours for each (Kh); "imp": for each kWh; "" by Shows
	Multiplier string // ratio of instrument transformers, 1 if blank
	Hand       string // seconds, the standard deviation of a hand at the watch or at a tap; assumed if blank
	Runs       []Run
}

// Run is one stretch of counting.
type Run struct {
	How     string // "" by the watch, "taps", "sound"
	Turns   string // by the watch: how many, such as 10 or 4.25
	Seconds string // by the watch: seconds, or minutes:seconds
	Marks   string // taps or what a recording came to, as Marks writes it
	Watts   string // the monitor's watts meanwhile: one a line, each with its time if it has one
	Begins  string // clock time at which the run began, if the watts have clock times
}

// Marks is what was tapped, or found in a recording.
type Marks struct {
	By                   string  // "taps" or "sound"
	File                 string  // of a recording
	Format               string  // in words
	Read, Promised, Lost float64 // seconds
	Timing               float64 // standard uncertainty of a mark's time, in seconds; 0 if not known
	Above                float64 // dB above the noise
	Marks                []rhythm.Mark
	Breaks               []float64
	Says                 []string
}

// Options say where the timing stands in the case and what else is known.
type Options struct {
	Path       string            // "timing"
	Answers    map[string]string // by question
	Confidence float64           // a fraction
	// Class and Accuracy are what meter and monitor promise, in percent, for
	// compare.Amount.AddOfReading. They carry the sources that bills have too.
	Class, Accuracy uncertainty.Part
	// ReadMarks gives what the function of that name gives, from a memory if the
	// caller has one. nil is ReadMarks itself.
	ReadMarks func(text string) (Marks, rhythm.Result, error)
}

// Figure is a result with its uncertainty.
type Figure struct {
	Value, Standard, DoF, Expanded float64
	Budget                         uncertainty.Budget
}

// Found is what one run came to.
type Found struct {
	Waits   string // what still lacks, in words; "" if there are watts
	Given   bool   // something was typed, tapped or read
	Marks   Marks
	Rhythm  rhythm.Result // of taps that keep no pace: each counts
	Count   float64       // of turns, flashes or steps
	Seconds float64
	Energy  energy.Energy // that the meter counted
	Watts   Figure        // by the meter, in W
	// Monitor is the mean of the monitor's watts over the run, if HasMonitor.
	Monitor    Figure
	Readings   []Reading
	HasMonitor bool
	// Compared judges the monitor's energy against the meter's.
	Compared   compare.Comparison
	IsCompared bool
	Longer     []Longer
	Last       float64 // watts by the last interval alone, 0 if there is none
}

// Reading is one figure of the monitor's watts.
type Reading struct {
	At    float64 // seconds from the first mark
	Timed bool
	Watts float64
	Line  int // of the text
}

// Longer says how long to count, at the load of the run, for an interval of
// ± Percent of the power by the meter.
type Longer struct {
	Percent  float64
	Seconds  float64 // in all, up to a whole pulse
	Possible bool    // false if something that time does not mend is larger
	// Readings is how many of the monitor's readings, in all and spread over the
	// run as these are, hold its mean to ± Percent as well: 0 if none was typed,
	// or if more of them do not mend it.
	Readings int
}

// Point is a run on the line through several loads.
type Point struct {
	Run                      int
	Meter, Monitor           float64 // W
	MeterDoubt, MonitorDoubt float64 // standard
}

// Result is what all runs come to.
type Result struct {
	Given    bool
	PerPulse float64 // Wh, with the multiplier; 0 if not known
	Runs     []Found
	// Pooled takes the runs with monitor's watts together, if IsPooled: if there
	// are two or more.
	Pooled   compare.Comparison
	IsPooled bool
	// Consistent says whether the runs' errors are one error (a chi-squared test).
	Consistent compare.Test
	// Line is monitor = offset + gain · meter in watts, if IsLined: with three or
	// more runs whose loads differ.
	Line    fit.Line
	IsLined bool
	Points  []Point

	Problems  []remark.Problem
	Questions []remark.Question
	Notices   []remark.Notice
}

// Leading is the judgement of all runs together, or of the one that there is.
func (r Result) Leading() (c compare.Comparison, ok bool) {
	if r.IsPooled {
		return r.Pooled, true
	}
	for _, run := range r.Runs {
		if run.IsCompared {
			return run.Compared, true
		}
	}
	return c, false
}

// Differ says that the runs do not show one percentage error.
func (r Result) Differ() bool { return r.IsPooled && r.Consistent.Done && !r.Consistent.Passes }
