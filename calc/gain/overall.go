package gain

import (
	"math"

	"splittally/calc/uncertainty"
)

// combine works out the correction of the whole home, and of each kind alone:
//
//	F = 1 + Σ w_i · (g_i − 1)
//
// with w_i the share of the monitor's energy on leg i. A reference instrument's
// accuracy is one cause in all legs and adds up linearly, the rest squared. A
// leg that was not measured is left as it is, g = 1, and said so.
func (s *sheet) combine() {
	best := s.whole(func(l LegResult) (Correction, bool) { return l.Correction, l.Given })
	s.out.Volts = s.whole(func(l LegResult) (Correction, bool) { return l.Volts.Correction, l.Volts.Given })
	s.out.Amps = s.whole(func(l LegResult) (Correction, bool) { return l.Amps.Correction, l.Amps.Given })
	s.out.Power = s.whole(func(l LegResult) (Correction, bool) { return l.Power.Correction, l.Power.Given })
	s.out.Given, s.out.Overall = best.Given, best.Correction
	if !best.Given {
		return
	}
	for i, leg := range s.out.Legs {
		if !leg.Given && leg.Share > 0 {
			s.notice(s.field(i, "pairs"), "leg-not-measured", leg.Name+" was not measured. It is left as it is.")
		}
	}
	if s.missing > 0 {
		s.notice(s.path+".legs", "legs-missing", "The home has "+legCounted(s.out.LegCount)+", and what was measured is of "+legCounted(s.out.LegCount-s.missing)+". The rest is left as it is.")
	}
}

// whole takes one gain of each leg together.
func (s *sheet) whole(gain func(LegResult) (Correction, bool)) (w Whole) {
	var weights []float64
	var budgets []uncertainty.Budget
	factor, shares := 1.0, 0.0
	for _, leg := range s.out.Legs {
		if c, ok := gain(leg); ok {
			factor += leg.Share * (c.Factor - 1)
			shares += leg.Share
			weights = append(weights, leg.Share)
			budgets = append(budgets, c.Budget)
		}
	}
	if len(weights) == 0 {
		return Whole{}
	}
	budget := append(uncertainty.Weighted(weights, budgets), s.shareParts(gain)...)
	return Whole{Given: true, Complete: shares > 1-1e-9, Correction: s.judged(factor, budget)}
}

// Shares that nobody knows are taken as equal; each is assumed to lie within
// this portion of itself, such as 30 to 70 % for one of two legs (common
// practice, no source).
const equalWithin = 0.4

// shareParts is the doubt of shares taken as equal: energy moved from the leg
// of the smallest gain to that of the largest. Legs that are alike make none.
func (s *sheet) shareParts(gain func(LegResult) (Correction, bool)) []uncertainty.Part {
	low, high, share := math.Inf(1), math.Inf(-1), 0.0
	for _, leg := range s.out.Legs {
		if leg.ShareFrom != ShareEqual {
			continue
		}
		factor := 1.0
		if c, ok := gain(leg); ok {
			factor = c.Factor
		}
		low, high, share = min(low, factor), max(high, factor), leg.Share
	}
	if s.missing > 0 {
		low, high = min(low, 1), max(high, 1)
	}
	if !(high > low) || share == 0 {
		return nil
	}
	return []uncertainty.Part{uncertainty.Evaluate(uncertainty.Part{
		Name: "Shares of the legs, taken as equal", HalfWidth: equalWithin * share * 100 * (high - low), Unit: "%",
		Distribution: uncertainty.Rectangular, Assumed: true,
		Reducible: true, Remedy: "say which share of the energy is on each leg",
	})}
}
