package gain

import (
	"math"
	"strings"

	"splittally/calc/figure"
	"splittally/calc/uncertainty"
)

// Difference is the leg with the largest gain of a kind against the one with
// the smallest.
type Difference struct {
	Kind      Basis // ByVolts, ByAmps or ByPower
	High, Low int   // indexes of the legs with the largest and the smallest gain
	// Percent is 100 · (largest gain − smallest), and Expanded its uncertainty.
	// The reference instrument's own accuracy drops out of it.
	Percent, Expanded float64
	Significant       bool  // the legs differ
	Off               []int // the legs whose own correction is significant
	Words             string
}

// compareLegs says of each kind whether the legs differ.
func (s *sheet) compareLegs() {
	for _, k := range []struct {
		kind Basis
		of   func(LegResult) Found
		noun string
	}{
		{ByVolts, func(l LegResult) Found { return l.Volts }, "volts"},
		{ByAmps, func(l LegResult) Found { return l.Amps }, "amperes"},
		{ByPower, func(l LegResult) Found { return l.Power }, "watts of the load steps"},
	} {
		if d, ok := s.differ(k.of); ok {
			d.Kind = k.kind
			d.Words = s.differWords(d, k.noun, k.of)
			s.out.Differ = append(s.out.Differ, d)
		}
	}
}

// differ takes the largest and the smallest gain of a kind; ok is false if
// fewer than two legs have it. Of three legs the two that differ most were
// picked from three pairs, and chance makes such a pick look larger; so each
// pair is judged at a confidence of 1 − (1 − c)/3 (Bonferroni).
func (s *sheet) differ(of func(LegResult) Found) (d Difference, ok bool) {
	count := 0
	for i, l := range s.out.Legs {
		f := of(l)
		if !f.Given {
			continue
		}
		if count == 0 {
			d.High, d.Low = i, i
		}
		if f.Factor > of(s.out.Legs[d.High]).Factor {
			d.High = i
		}
		if f.Factor <= of(s.out.Legs[d.Low]).Factor {
			d.Low = i
		}
		if f.Significant {
			d.Off = append(d.Off, i)
		}
		count++
	}
	if count < 2 || d.High == d.Low {
		return d, false
	}
	high, low := of(s.out.Legs[d.High]), of(s.out.Legs[d.Low])
	b := uncertainty.Weighted([]float64{1, -1}, []uncertainty.Budget{withoutCommonDrop(high.Budget), withoutCommonDrop(low.Budget)})
	pairs := float64(count*(count-1)) / 2
	d.Percent = 100 * (high.Factor - low.Factor)
	d.Expanded, _ = b.Expanded(1 - (1-s.confidence)/pairs)
	d.Significant = d.Percent > d.Expanded
	return d, true
}

func (s *sheet) differWords(d Difference, noun string, of func(LegResult) Found) string {
	high, low := s.out.Legs[d.High].Name, s.out.Legs[d.Low].Name
	apart := figure.Between(d.Percent, d.Expanded, "%")
	if !d.Significant {
		return "The gains of the legs’ " + noun + " differ by " + apart + ": no more than chance may make, so nothing shows that the legs are not alike. " + s.whichIsOff(d, of)
	}
	return "The gains of the legs’ " + noun + " differ by " + apart + ": " + high + " reads lower than " + low + ". The reference instrument’s own accuracy has no part in that, being the same on both. " + s.whichIsOff(d, of)
}

// whichIsOff names the legs that are off by more than the look can err.
func (s *sheet) whichIsOff(d Difference, of func(LegResult) Found) string {
	if len(d.Off) == 0 {
		if d.Significant {
			return "Which of them is off can’t be told: each alone is off by no more than its uncertainty."
		}
		return "Nor is any of them off by more than its uncertainty."
	}
	var names []string
	for _, i := range d.Off {
		f := of(s.out.Legs[i])
		way := "high"
		if f.Percent > 0 {
			way = "low"
		}
		// The monitor's own error is that of 1/g.
		names = append(names, s.out.Legs[i].Name+" reads "+way+" by "+figure.Percent(figure.Interval(math.Abs(100*(1/f.Factor-1)))))
	}
	return strings.Join(names, ", ") + "; for what was measured that is more than it can be off by."
}
