package gain

import (
	"math"
	"strconv"

	"splittally/calc/figure"
	"splittally/calc/uncertainty"
)

// workLeg finds the gains of a leg and what its energy is to be multiplied with.
func (s *sheet) workLeg(i int) {
	leg, samples := &s.out.Legs[i], s.samples[i]
	if len(samples[volts]) > 0 {
		leg.Volts = s.found(volts, samples[volts], func(m means) []uncertainty.Part { return s.dropParts(m.monitor) })
	}
	if len(samples[amps]) > 0 {
		leg.Amps = s.found(amps, samples[amps], func(means) []uncertainty.Part { return nil })
	}
	if len(samples[steps]) > 0 {
		leg.Power = s.found(steps, samples[steps], func(m means) []uncertainty.Part {
			return s.lossParts(m.reference, m.monitor, s.legVolts(i))
		})
	}
	s.settleLeg(leg)
	for k, f := range [kindCount]Found{leg.Volts, leg.Amps, leg.Power} {
		s.remarkFound(i, kinds[k], f)
	}
	s.remarkSteps(i)
	s.judgeBand(i)
	s.judgeProduct(i)
}

// legVolts is the volts of a leg as far as is known: its own, another's, or the
// lowest that is usual, at which a drop weighs most.
func (s *sheet) legVolts(i int) float64 {
	if own := s.samples[i][volts]; len(own) > 0 {
		return meansOf(own).reference
	}
	for _, other := range s.samples {
		if len(other[volts]) > 0 {
			return meansOf(other[volts]).reference
		}
	}
	return 120
}

// settleLeg takes the weightiest gain that was found.
func (s *sheet) settleLeg(leg *LegResult) {
	switch {
	case leg.Power.Given:
		leg.Basis, leg.Correction = ByPower, leg.Power.Correction
	case leg.Volts.Given && leg.Amps.Given:
		leg.Basis, leg.Correction = ByVoltsAndAmp, s.product(leg.Volts, leg.Amps)
	case leg.Volts.Given:
		leg.Basis, leg.Correction = ByVolts, leg.Volts.Correction
	case leg.Amps.Given:
		leg.Basis, leg.Correction = ByAmps, leg.Amps.Correction
	default:
		return
	}
	leg.Given = true
}

// product is the gain of power from those of volts and amperes, g = v · a, so
// that ∂g/∂v = a and ∂g/∂a = v. The phase between the two is taken as right.
func (s *sheet) product(v, a Found) Correction {
	return s.judged(v.Factor*a.Factor, uncertainty.Weighted(
		[]float64{a.Factor, v.Factor}, []uncertainty.Budget{v.Budget, a.Budget}))
}

// remarkFound points out what stands out in one kind.
func (s *sheet) remarkFound(i int, k kind, f Found) {
	name, path := s.out.Legs[i].Name, s.field(i, k.list)
	if f.Pairs == 1 {
		s.notice(path, k.wander.code, name+": "+k.wander.words)
	}
	for _, at := range f.Odd {
		s.notice(path+"."+strconv.Itoa(at), "odd-pair", name+": "+k.noun+" "+strconv.Itoa(at+1)+" stands apart from the others. It is used; is it typed right, and were both read at the same time?")
	}
	if f.Given && (f.Factor < 0.8 || f.Factor > 1.25) {
		s.notice(path, "gain-implausible", name+": "+k.implausible)
	}
}

// judgeProduct says whether the gain by load steps is that of volts and amperes.
//
// A plain heater's current is in step with the volts, where a phase
// displacement of the clamp does next to nothing; so steps of a heater do not
// see it any more than pairs do. With a motor the steps see it.
func (s *sheet) judgeProduct(i int) {
	leg := s.out.Legs[i]
	if !leg.Power.Given || !leg.Volts.Given || !leg.Amps.Given {
		return
	}
	p := s.product(leg.Volts, leg.Amps)
	d := s.judged(1+leg.Power.Factor-p.Factor, uncertainty.Weighted([]float64{1, -1},
		[]uncertainty.Budget{withoutCommonDrop(leg.Power.Budget), withoutCommonDrop(p.Budget)}))
	said := leg.Name + ": the load steps give " + times(leg.Power.Correction) + ", volts and amperes multiplied " + times(p) + ". "
	if !d.Significant {
		s.notice(s.field(i, "steps"), "power-agrees", said+"They agree within their joint uncertainty of "+figure.Percent(figure.Interval(d.Expanded))+". The figures rest on the steps.")
		return
	}
	way := "A phase displacement of the clamp can do that, if the load was no plain heater: pairs of volts and amperes do not see it. "
	s.notice(s.field(i, "steps"), "power-differs", said+"They differ by "+figure.Percent(figure.Interval(math.Abs(d.Percent)))+
		", more than their joint uncertainty of "+figure.Percent(figure.Interval(d.Expanded))+". "+way+
		"So can something else that was switched meanwhile, or a clamp that is less right at small currents. The figures rest on the steps.")
}

// times writes a factor with its interval, such as "× 1.0121 ± 0.0080".
func times(c Correction) string {
	return "×\u00a0" + strconv.FormatFloat(c.Factor, 'f', 4, 64) + figure.PlusMinus + strconv.FormatFloat(c.Expanded/100, 'f', 4, 64)
}

// band is a published range of service volts.
type band struct {
	from, to    float64 // whose volts are held against it
	least, most float64
	source      string
}

// Ranges of service volts. Others apply elsewhere: Canada 110 to 125 V at 120 V
// (CSA CAN3-C235), Illinois 113 to 127 V (83 Ill. Adm. Code 410.300).
var bands = []band{
	{95, 140, 114, 126, "the service limits of a 120 V leg in COMAR 20.50.07.02 (Maryland), ±5 %"},
	{195, 265, 207, 253, "230 V ±10 % (IEC 60038)"},
}

// judgeBand points out volts outside the usual band of the service.
func (s *sheet) judgeBand(i int) {
	leg := s.out.Legs[i]
	for _, b := range bands {
		if leg.Volts.Reference < b.from || leg.Volts.Reference > b.to || leg.Volts.Reference >= b.least && leg.Volts.Reference <= b.most {
			continue
		}
		s.notice(s.field(i, "pairs"), "volts-outside-band", leg.Name+": the multimeter's mean of "+strconv.FormatFloat(leg.Volts.Reference, 'f', 1, 64)+
			" V is outside "+strconv.FormatFloat(b.least, 'f', -1, 64)+" to "+strconv.FormatFloat(b.most, 'f', -1, 64)+" V, "+b.source+
			". If the multimeter is right, that is a matter for the utility.")
	}
}
