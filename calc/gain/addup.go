package gain

import (
	"math"

	"splittally/calc/uncertainty"
)

// side says whose volts are added up.
type side uint8

const (
	reference side = iota
	monitor
)

// angleOff is how far two phases may be from 120° apart, in degrees: what an
// unbalance of the network's volts of 2 % makes of it (common practice, no
// source). Half a turn of a split phase is exact, being one winding.
const angleOff = 1.0

// addUp holds the volts between two lines against the legs', by the same
// instrument. How far that instrument is off in percent drops out where both
// were on one range, as its last digit shows; its digits, the rounding, and
// what the volts did between the looks do not. Of the monitor that is all,
// because its own accuracy is what is in question.
func (s *sheet) addUp(by side, l line, legs []int) Agreement {
	found, count := l.side(by)
	var v []float64
	for _, i := range legs {
		v = append(v, s.sideOf(by, s.samples[i][volts]).mean)
	}
	between, slopes := s.fromLegs(v)
	b := s.looks(by, found, count, 1)
	sameRange := true
	for k, i := range legs {
		m := s.sideOf(by, s.samples[i][volts])
		sameRange = sameRange && m.count == count
		b = append(b, s.looks(by, m.mean, m.count, -slopes[k])...)
		if m.n > 1 {
			// In place of the wander that is assumed of a single look.
			b[len(b)-1] = uncertainty.Evaluate(uncertainty.Part{HalfWidth: m.deviation / math.Sqrt(m.n), Distribution: uncertainty.Student, DoF: m.n - 1, Sensitivity: -slopes[k]})
		}
		if by == reference {
			b = append(b, s.percentPart(m.mean, -slopes[k], VoltmeterSource))
		}
	}
	if by == reference {
		source := "line-accuracy"
		if sameRange {
			source = VoltmeterSource
		}
		b = append(b, s.percentPart(found, 1, source))
	}
	if s.out.Service != Split {
		b = append(b, anglePart(v, between))
	}
	return s.agreement(found, between, found-between, b)
}

// looks is what one look of an instrument is in doubt by, besides its percent:
// rounding, digits, drop, and last the wander between looks.
func (s *sheet) looks(by side, value, count, slope float64) uncertainty.Budget {
	part := func(halfWidth float64) uncertainty.Part {
		return uncertainty.Evaluate(uncertainty.Part{HalfWidth: halfWidth, Distribution: uncertainty.Rectangular, Sensitivity: slope})
	}
	b := uncertainty.Budget{part(count / 2)}
	if by == reference {
		b = append(b, part(s.accuracy[volts].digits*count), part(s.drop.volts))
	}
	return append(b, part(kinds[volts].wander.halfWidth/100*value))
}

func (s *sheet) percentPart(value, slope float64, source string) uncertainty.Part {
	return uncertainty.Evaluate(uncertainty.Part{
		Source: source, HalfWidth: s.accuracy[volts].percent / 100 * value,
		Distribution: uncertainty.Rectangular, Sensitivity: slope,
	})
}

// anglePart is the angle between two phases: V12² = V1² + V2² − 2·V1·V2·cos θ,
// so dV12/dθ = V1·V2·sin θ / V12.
func anglePart(v []float64, between float64) uncertainty.Part {
	return uncertainty.Evaluate(uncertainty.Part{
		HalfWidth: angleOff * math.Pi / 180, Distribution: uncertainty.Rectangular,
		Sensitivity: v[0] * v[1] * math.Sqrt(3) / 2 / between,
	})
}

// gainBetween holds the gain between the lines against the legs', each of which
// counts by its part of the volts between the lines.
func (s *sheet) gainBetween(l line, legs []int) Agreement {
	one := sample{reference: l.reference.value, monitor: l.monitor.value, referenceCount: l.referenceCount, monitorCount: l.monitorCount}
	lines := s.found(volts, []sample{one}, func(m means) []uncertainty.Part { return s.dropParts(m.monitor) })
	var v []float64
	for _, i := range legs {
		v = append(v, s.out.Legs[i].Volts.Monitor)
	}
	_, slopes := s.fromLegs(v)
	whole := 0.0
	for k := range v {
		whole += slopes[k] * v[k]
	}
	fromLegs := 0.0
	weights, budgets := []float64{1}, []uncertainty.Budget{withoutCommonDrop(lines.Budget)}
	for k, i := range legs {
		weight := slopes[k] * v[k] / whole
		fromLegs += weight * s.out.Legs[i].Volts.Factor
		weights = append(weights, -weight)
		budgets = append(budgets, withoutCommonDrop(s.out.Legs[i].Volts.Budget))
	}
	return s.agreement(lines.Factor, fromLegs, 100*(lines.Factor-fromLegs), uncertainty.Weighted(weights, budgets))
}

// side gives the volts between the lines by one instrument, and one count of
// their last digit.
func (l line) side(by side) (value, count float64) {
	if by == reference {
		return l.reference.value, l.referenceCount
	}
	return l.monitor.value, l.monitorCount
}

// spread is the volts of one leg by one instrument.
type spread struct{ mean, deviation, count, n float64 }

func (s *sheet) sideOf(by side, samples []sample) (m spread) {
	m.n = float64(len(samples))
	pick := func(p sample) (value, count float64) {
		if by == reference {
			return p.reference, p.referenceCount
		}
		return p.monitor, p.monitorCount
	}
	for _, p := range samples {
		value, count := pick(p)
		m.mean += value / m.n
		m.count = max(m.count, count)
	}
	for _, p := range samples {
		value, _ := pick(p)
		m.deviation += (value - m.mean) * (value - m.mean) / max(1, m.n-1)
	}
	m.deviation = math.Sqrt(m.deviation)
	return m
}
