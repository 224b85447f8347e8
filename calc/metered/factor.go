package metered

import "math"

// Factors that are no losses are round: a current transformer's ratio, or kWh
// for Wh. Losses of homes are printed as some percent.
const (
	leastLoss = 1.01
	mostLoss  = 1.15
)

// factor looks for one factor between all bills that differ and their record.
// One bill alone shows a round factor only.
func (s *sheet) factor() {
	var at []int
	for i, r := range s.rows {
		if r.open() && r.Billed > 0 && r.metered > 0 {
			at = append(at, i)
		}
	}
	if len(at) == 0 || s.agreed() > 0 { // a factor would be in all
		return
	}
	billed, counted := 0.0, 0.0
	for _, i := range at {
		billed += float64(s.rows[i].Billed)
		counted += float64(s.rows[i].metered)
	}
	factor, kind := billed/counted, Kind("")
	switch round := nearRound(factor); {
	case round > 0 && s.share(at, round):
		factor, kind = round, Multiplier
	case factor >= leastLoss && factor <= mostLoss && len(at) > 1 && s.share(at, factor):
		kind = Losses
	default:
		return
	}
	f := Finding{Kind: kind, Sure: true, Factor: factor}
	for _, i := range at {
		s.rows[i].kind = kind
		f.Bills = append(f.Bills, s.rows[i].Index)
	}
	f.Words = factorWords(f)
	s.found = append(s.found, f)
}

func (s *sheet) agreed() int {
	n := 0
	for _, r := range s.rows {
		if r.kind == Agrees {
			n++
		}
	}
	return n
}

// nearRound gives the whole factor above 1, or its inverse, that is within half
// a percent; 0 if there is none.
func nearRound(f float64) float64 {
	const near = 0.005
	if f < 1 {
		if n := nearRound(1 / f); n > 0 {
			return 1 / n
		}
		return 0
	}
	if n := math.Round(f); n > 1 && math.Abs(f/n-1) <= near {
		return n
	}
	return 0
}

// share says that all these rows have the factor, to within their rounding.
func (s *sheet) share(at []int, factor float64) bool {
	for _, i := range at {
		r := s.rows[i]
		if math.Abs(float64(r.Billed)-factor*float64(r.metered)) > float64(r.within)*max(1, factor) {
			return false
		}
	}
	return true
}
