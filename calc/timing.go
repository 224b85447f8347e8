package calc

import (
	"fmt"
	"strconv"
	"strings"

	"splittally/calc/compare"
	"splittally/calc/pulse"
	"splittally/calc/remark"
	"splittally/calc/uncertainty"
)

// time turns the pulses of the utility's meter into watts and sets the
// monitor's watts of the same minutes against them.
func (w *work) time() {
	w.f.Timed = w.timedMonitor()
	w.f.Timing = pulse.Read(w.c.Timing, pulse.Options{
		Path: "timing", Answers: w.answers, Confidence: w.f.Confidence,
		Class: w.meterClass(), Accuracy: w.accuracy(w.f.Timed), ReadMarks: w.readMarks,
	})
	w.f.Problems = append(w.f.Problems, w.f.Timing.Problems...)
	w.f.Questions = append(w.f.Questions, w.f.Timing.Questions...)
	w.f.Notices = append(w.f.Notices, w.f.Timing.Notices...)
}

// accuracy is the doubt that a monitor's maker states.
func (w *work) accuracy(monitor int) uncertainty.Part {
	p := percentage{assumedAccuracy, true}
	if monitor < len(w.settings.accuracy) {
		p = w.settings.accuracy[monitor]
	}
	return uncertainty.Part{
		Source: accuracySource(monitor), Name: "Stated accuracy of the monitor",
		HalfWidth: p.value, Distribution: uncertainty.Rectangular, Promise: true, Assumed: p.assumed,
	}
}

// timedMonitor says whose watts were noted; with several monitors it is asked.
func (w *work) timedMonitor() int {
	q := remark.Question{
		ID: "timing.monitor", Path: "timing", Asks: "Which monitor’s watts are these?",
		Why: "There are several monitors, and each promises an accuracy of its own.",
	}
	for i := range w.c.Monitors {
		q.Choices = append(q.Choices, remark.Choice{
			ID: strconv.Itoa(i + 1), Label: w.instrumentName(i, "", 1),
			Gives: fmt.Sprintf("± %g %% of its figure", w.accuracy(i).HalfWidth),
		})
	}
	taken := q.Settle(w.answers, "1")
	for _, r := range w.c.Timing.Runs {
		if len(q.Choices) > 1 && strings.TrimSpace(r.Watts) != "" {
			w.f.Questions = append(w.f.Questions, q)
			break
		}
	}
	n, _ := strconv.Atoi(taken)
	return n - 1
}

// leadingTiming is what all timed runs together say of the monitor, or the one
// that there is.
func (w *work) leadingTiming(i int) (c compare.Comparison, ok bool) {
	if w.f.Instruments[i].Monitor != w.f.Timed {
		return c, false
	}
	return w.f.Timing.Leading()
}
