package gain

import (
	"math"
	"strconv"

	"splittally/calc/figure"
)

// readShares gives every leg its share of the energy: as typed; else of what
// the typed ones leave, in the proportion in which the readings show the legs;
// else in equal parts. Shares that don't add up are taken in their proportion,
// beside a problem. A leg of which nothing is typed has none; a leg that the
// service has but nobody entered keeps its part.
func (s *sheet) readShares(legs []Leg, shown []float64) {
	total, last := 0.0, -1
	weights := make([]float64, len(legs)) // of the legs without a typed share
	open := 0.0                           // all that share in the rest, the missing ones too
	whence := make([]Whence, len(legs))
	shown = s.usable(shown, legs)
	for i, l := range legs {
		percent, ok := s.limit(s.field(i, "share"), l.Share, 100, "the share of the energy on this leg in percent, from 0 to 100")
		switch {
		case ok:
			whence[i], s.out.Legs[i].Share = ShareTyped, percent/100
			total += percent / 100
			last = i
		case l.empty():
			if shown != nil {
				open += shown[i] // nobody entered what was measured there
			}
		case shown != nil:
			whence[i], weights[i] = ShareReadings, shown[i]
		default:
			whence[i], weights[i] = ShareEqual, 1
		}
		open += weights[i]
	}
	for _, weight := range shown[min(len(legs), len(shown)):] {
		open += weight
	}
	if shown == nil {
		open += float64(s.missing)
	}
	s.judgeShares(legs, last, total, open)
	s.settleShares(whence, weights, total, open)
}

func (s *sheet) judgeShares(legs []Leg, last int, total, open float64) {
	rest := 1 - total
	if last >= 0 && (rest < -0.005 || open == 0 && math.Abs(rest) > 0.005) {
		s.problem(s.field(last, "share"), legs[last].Share, "shares of all legs that add up to 100 %; these add up to "+strconv.FormatFloat(100*total, 'f', -1, 64))
	}
}

func (s *sheet) settleShares(whence []Whence, weights []float64, total, open float64) {
	rest := 1 - total
	for i := range whence {
		leg := &s.out.Legs[i]
		leg.ShareFrom = whence[i]
		switch {
		case whence[i] == ShareTyped && total > 0 && (open == 0 || rest < 0):
			leg.Share /= total
		case weights[i] > 0:
			leg.Share = max(0, rest) * weights[i] / open
		}
	}
}

// usable gives the shares that the readings show, one for each leg entered and
// perhaps more for legs that were not, or nil if they can't be the legs'.
func (s *sheet) usable(shown []float64, legs []Leg) []float64 {
	if len(shown) == 0 {
		return nil
	}
	sum := 0.0
	for _, v := range shown {
		if !(v >= 0) || math.IsInf(v, 1) {
			return nil
		}
		sum += v
	}
	entered := 0
	for i, l := range legs {
		if !l.empty() {
			entered = i + 1
		}
	}
	if !(sum > 0) || entered == 0 {
		return nil
	}
	if entered > len(shown) || len(shown) != s.out.LegCount {
		s.notice(s.path+".legs", "shares-unused", "The readings show "+figure.Counted(len(shown), "leg", "legs")+", and here there are "+strconv.Itoa(max(entered, s.out.LegCount))+". The shares of the readings are not used.")
		return nil
	}
	return append(append([]float64(nil), shown...), make([]float64, max(0, len(legs)-len(shown)))...)
}
