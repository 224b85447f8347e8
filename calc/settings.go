package calc

import (
	"fmt"
	"slices"
	"strings"

	"splittally/calc/fill"
	"splittally/calc/number"
	"splittally/calc/remark"
)

// What is assumed where a field is blank. The budget marks them as assumed.
const (
	// assumedAccuracy is what a maker of clamp-on monitors commonly states, in
	// percent of reading (common practice, no source).
	assumedAccuracy = 2.0
	// assumedClass is a class 1 meter, ±1 % of reading: IEC 62053-21, from
	// memory. Newer meters are often of class 0.5 (ANSI C12.20), so this errs
	// to the wide side.
	assumedClass = 1.0
	// assumedConfidence is what intervals are stated at, in percent.
	assumedConfidence = 95.0
)

// settings are the figures of the case that are not readings.
type settings struct {
	accuracy []percentage // of each monitor, as is method
	class    percentage   // of the meter
	method   []fill.Method
}

// percentage is a figure in percent; Assumed if the field was blank or wrong.
type percentage struct {
	value   float64
	assumed bool
}

func (w *work) readSettings() {
	w.f.Confidence = w.percent("confidence", w.c.Confidence, assumedConfidence, 50, 99.9).value / 100
	w.settings.class = w.percent("meter.class", w.c.Meter.Class, assumedClass, 0, 20)
	for i, m := range w.c.Monitors {
		path := fmt.Sprintf("monitors.%d.", i)
		w.settings.accuracy = append(w.settings.accuracy, w.percent(path+"accuracy", m.Accuracy, assumedAccuracy, 0, 50))
		if method := fill.Method(m.Method); method != fill.Choose && !slices.Contains(fill.Methods(), method) {
			w.problem(path+"method", m.Method, "one of the ways to fill, or blank to choose by trial")
			m.Method = string(fill.Choose)
		}
		w.settings.method = append(w.settings.method, fill.Method(m.Method))
	}
}

// percent reads a field that holds a percentage, such as "2", "2,5 %" or "±1%".
func (w *work) percent(path, text string, assumed, low, high float64) percentage {
	bare := strings.TrimSpace(text)
	if bare == "" {
		return percentage{assumed, true}
	}
	bare = strings.TrimSuffix(strings.TrimPrefix(bare, "±"), "%")
	ways := number.Readings(bare)
	if len(ways) > 0 {
		// A percentage with a thousand in it is none: of two readings the first
		// takes the mark as decimal.
		if v := ways[0].Value.InexactFloat64(); v >= low && v <= high {
			return percentage{v, false}
		}
	}
	w.problem(path, text, fmt.Sprintf("a percentage from %g to %g, such as %g", low, high, assumed))
	return percentage{assumed, true}
}

func (w *work) problem(path, found, wanted string) {
	w.f.Problems = append(w.f.Problems, remark.Problem{Path: path, Found: found, Wanted: wanted})
}
