package gain

import (
	"math"
	"strconv"
	"strings"

	"splittally/calc/number"
	"splittally/calc/uncertainty"
)

// readShares gives every leg its share of the energy. Legs without one share
// equally what the others leave. Shares that don't add up are taken in their
// proportion, beside a problem. A leg of which nothing is typed has none.
func (s *sheet) readShares(legs []Leg) {
	total, open := 0.0, 0
	last := -1
	states := make([]shareState, len(legs))
	for i, l := range legs {
		percent, ok := s.limit(s.field(i, "share"), strings.TrimSuffix(number.Trim(l.Share), "%"), 100, "the share of the energy on this leg in percent, from 0 to 100")
		switch {
		case ok:
			states[i], s.out.Legs[i].Share = shareTyped, percent/100
			total += percent / 100
			last = i
		case !l.empty():
			states[i] = shareOpen
			open++
		}
	}
	rest := 1 - total
	if last >= 0 && (rest < -0.005 || open == 0 && math.Abs(rest) > 0.005) {
		s.problem(s.field(last, "share"), legs[last].Share, "shares of all legs that add up to 100 %; these add up to "+strconv.FormatFloat(100*total, 'f', -1, 64))
	}
	for i, state := range states {
		switch leg := &s.out.Legs[i]; {
		case state == shareOpen:
			leg.Share = max(0, rest) / float64(open)
		case state == shareTyped && total > 0 && (open == 0 || rest < 0):
			leg.Share /= total
		}
	}
}

// shareState says where a leg's share comes from; the zero value is a leg that
// has none.
type shareState uint8

const (
	shareOpen  shareState = iota + 1 // an equal part of what the others leave
	shareTyped                       // as typed
)

func (l Leg) empty() bool {
	for _, p := range l.Pairs {
		if !number.IsBlank(p.Reference) || !number.IsBlank(p.Monitor) {
			return false
		}
	}
	return number.IsBlank(l.Name) && number.IsBlank(l.Share)
}

// combine works out the correction of the whole home:
//
//	F = Σ w_i · g_i
//
// with w_i the share of the monitor's energy on leg i. The multimeter's
// accuracy is one cause in all legs and adds up linearly, the rest squared. A
// leg that was not measured is left as it is, g = 1, and said so.
func (s *sheet) combine() {
	var weights []float64
	var budgets []uncertainty.Budget
	factor := 0.0
	for i := range s.out.Legs {
		leg := &s.out.Legs[i]
		if !leg.Given {
			factor += leg.Share
			continue
		}
		s.out.Given = true
		factor += leg.Share * leg.Factor
		weights = append(weights, leg.Share)
		budgets = append(budgets, leg.Budget)
	}
	if !s.out.Given {
		return
	}
	for i, leg := range s.out.Legs {
		if !leg.Given && leg.Share > 0 {
			s.notice(s.field(i, "pairs"), "leg-not-measured", leg.Name+" was not measured. It is left as it is.")
		}
	}
	s.out.Overall = s.judged(factor, uncertainty.Weighted(weights, budgets))
	s.out.Volts = Whole{Given: true, Complete: len(weights) == len(s.out.Legs), Correction: s.out.Overall}
}

// Effect is what correcting the voltage would do to the error of a period.
type Effect struct {
	Before, After float64 // percentage errors
	// Standard is the standard uncertainty that the correction brings into
	// After, in percentage points.
	Standard      float64
	Better, Worse bool // neither where the two are within 0.05 of each other in size
	Words         string
}

// sameWithin is the difference in size of two percentage errors that is not
// worth a word.
const sameWithin = 0.05

// Effect works out what multiplying the monitor's energy with the overall
// factor F would do to a percentage error e on the meter's base:
//
//	e' = ((1 + e/100) · F − 1) · 100
//
// It is without effect while no leg is given.
func (r Result) Effect(percentError float64) Effect {
	e := Effect{Before: percentError, After: percentError}
	if !r.Given {
		return e
	}
	e.After = ((1+percentError/100)*r.Overall.Factor - 1) * 100
	e.Standard = math.Abs(1+percentError/100) * r.Overall.Standard
	gained := math.Abs(e.Before) - math.Abs(e.After)
	e.Better, e.Worse = gained > sameWithin, gained < -sameWithin
	change := signed(e.Before) + " would become " + signed(e.After) + "."
	switch {
	case e.Worse:
		e.Words = "Correcting the voltage would make the agreement worse: " + change + " The voltage does not explain this error."
	case e.Better:
		e.Words = "Correcting the voltage would make the agreement better: " + change
	default:
		e.Words = "Correcting the voltage would leave the agreement as it is: " + change
	}
	if !r.Overall.Significant {
		e.Words += " But the correction is no larger than its own uncertainty (±" + strconv.FormatFloat(r.Overall.Expanded, 'f', 2, 64) + " %), so nothing shows yet that there is anything to correct."
	}
	return e
}

// signed gives a percentage with its sign, such as "+2.10 %".
func signed(percent float64) string {
	text := strconv.FormatFloat(math.Abs(percent), 'f', 2, 64)
	switch {
	case text == "0.00":
		return "0.00 %"
	case percent < 0:
		return "−" + text + " %"
	}
	return "+" + text + " %"
}
