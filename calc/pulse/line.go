package pulse

import (
	"math"

	"splittally/calc/fit"
	"splittally/calc/uncertainty"
)

// Fewest runs for a line, since two leave nothing over to test it, and how much
// of the largest load the loads must span.
const (
	fewestRuns = 3
	leastSpan  = 0.2
)

// lay lays monitor = offset + gain · meter through the runs, in W.
//
// What the two instruments promise is left out of the points: the monitor's
// accuracy is what the line measures, and the meter's class moves the gain as a
// whole, to which it is added afterwards.
func (s *sheet) lay() {
	var points []Point
	var x, y []float64
	var bx, by []uncertainty.Budget
	least, most := math.Inf(1), math.Inf(-1)
	for i, r := range s.runs {
		if !r.IsCompared {
			continue
		}
		points = append(points, Point{
			Run: i, Meter: r.Watts.Value, MeterDoubt: r.Watts.Standard,
			Monitor: r.Monitor.Value, MonitorDoubt: r.Monitor.Standard,
		})
		x, y = append(x, r.Watts.Value), append(y, r.Monitor.Value)
		bx, by = append(bx, r.Watts.Budget), append(by, r.Monitor.Budget)
		least, most = min(least, r.Watts.Value), max(most, r.Watts.Value)
	}
	if len(x) < fewestRuns || most-least < leastSpan*most {
		return
	}
	line := fit.Both(x, y, fit.Covariances(bx, by), s.Confidence)
	if !line.Known {
		return
	}
	class := uncertainty.Evaluate(s.Class).Standard / 100 * line.Gain.Value
	line.Gain.Standard = math.Hypot(line.Gain.Standard, class)
	line.Gain.Expanded = math.Hypot(line.Gain.Expanded, class*uncertainty.Coverage(s.Confidence, math.Inf(1)))
	s.out.Line, s.out.IsLined, s.out.Points = line, true, points
}
