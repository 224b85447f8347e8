package gain

import (
	"math"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"splittally/calc/number"
	"splittally/calc/uncertainty"
)

// Sources of doubt. VoltmeterSource is one cause in every leg: the same
// multimeter is off by the same everywhere.
const VoltmeterSource = "voltmeter-accuracy"

// What is assumed of a multimeter without stated accuracy, and of the line's
// volts between two looks where a single pair can't show it. (Common practice,
// no source.)
const (
	assumedPercent = 1.0
	assumedDigits  = 3.0
	assumedWander  = 0.4 // percent of the volts, to either side
)

// accuracy is a voltmeter's stated accuracy.
type accuracy struct {
	percent, digits float64
	assumed         bool
}

// readVoltmeter reads the stated accuracy of the multimeter.
func (s *sheet) readVoltmeter(v Accuracy) {
	path := s.path + ".voltmeter."
	percent, okP := s.limit(path+"percent", strings.TrimSuffix(number.Trim(v.Percent), "%"), 20, "the stated accuracy in percent of the reading, such as 1.0")
	digits, okD := s.limit(path+"digits", v.Digits, 100, "the counts of the last digit in the stated accuracy, such as 3")
	if okP || okD {
		s.meter = accuracy{percent: percent, digits: digits}
		return
	}
	s.meter = accuracy{assumedPercent, assumedDigits, true}
	s.notice(path+"percent", "voltmeter-assumed", "The multimeter's accuracy on AC volts is assumed to be 1.0 % of the reading and 3 digits, as is common for hand-held ones. Its manual states it.")
}

// limit reads a number from 0 to a limit; ok is false if there is none.
func (s *sheet) limit(path, typed string, most int64, wanted string) (v float64, ok bool) {
	if number.IsBlank(typed) {
		return 0, false
	}
	for _, r := range number.Readings(typed) {
		if !r.Value.IsNegative() && r.Value.LessThanOrEqual(decimal.NewFromInt(most)) {
			return r.Value.InexactFloat64(), true
		}
	}
	s.problem(path, typed, wanted)
	return 0, false
}

// workLeg finds the gain of a leg and its uncertainty.
func (s *sheet) workLeg(i int) {
	pairs, leg := s.pairs[i], &s.out.Legs[i]
	if len(pairs) == 0 {
		return
	}
	reference, monitor, gain, deviation := means(pairs)
	var referencePlaces, monitorPlaces int32
	for _, p := range pairs {
		referencePlaces = max(referencePlaces, p.referencePlaces)
		monitorPlaces = max(monitorPlaces, p.monitorPlaces)
	}
	v := &leg.Volts
	v.Given, v.Pairs = true, len(pairs)
	v.Reference, v.Monitor = reference, monitor
	v.Resolution = step(monitorPlaces)
	v.Odd = oddPairs(pairs)
	v.Correction = s.judged(gain, uncertainty.Budget{
		s.voltmeterPart(reference, monitor, step(referencePlaces)),
		spreadPart(deviation, len(pairs)),
		roundingPart(gain, monitor, v.Resolution),
	})
	leg.Given, leg.Correction, leg.Basis = true, v.Correction, ByVolts
	s.remarkLeg(i)
}

// step is one count of the last of so many decimals.
func step(places int32) float64 { return math.Pow10(-int(places)) }

// voltmeterPart is the multimeter's stated accuracy: a = percent/100 · V +
// digits · step, anywhere within alike. It does not get less with more pairs.
func (s *sheet) voltmeterPart(reference, monitor, digit float64) uncertainty.Part {
	return uncertainty.Evaluate(uncertainty.Part{
		Source: VoltmeterSource, Name: "Multimeter's stated accuracy",
		HalfWidth: s.meter.percent/100*reference + s.meter.digits*digit, Unit: "V",
		Distribution: uncertainty.Rectangular, Sensitivity: 100 / monitor,
		Promise: true, Assumed: s.meter.assumed, Reducible: true, Remedy: "use a multimeter with a better accuracy on AC volts",
	})
}

// spreadPart is the doubt of the mean gain that the pairs themselves show,
// s/√n with n − 1 degrees of freedom (JCGM 100:2008 4.2.3). A single pair shows
// none; then the line is assumed to wander between the two looks.
func spreadPart(deviation float64, n int) uncertainty.Part {
	p := uncertainty.Part{Name: "Spread of the pairs", Unit: "%", Reducible: true, Remedy: "take more pairs of volts"}
	if n < 2 {
		p.Name = "Line volts between the two looks"
		p.HalfWidth, p.Distribution, p.Assumed = assumedWander, uncertainty.Rectangular, true
		return uncertainty.Evaluate(p)
	}
	p.HalfWidth, p.Distribution = 100*deviation/math.Sqrt(float64(n)), uncertainty.Student
	p.DoF = float64(n - 1)
	return uncertainty.Evaluate(p)
}

// roundingPart is the rounding of the volts that the monitor shows, half of a
// step. It is not shared among the pairs: on a steady line all are rounded the
// same way.
func roundingPart(gain, monitor, resolution float64) uncertainty.Part {
	return uncertainty.Evaluate(uncertainty.Part{
		Name: "Rounding of the monitor's volts", HalfWidth: resolution / 2, Unit: "V",
		Distribution: uncertainty.Rectangular, Sensitivity: -100 * gain / monitor,
	})
}

// remarkLeg points out what stands out in a leg.
func (s *sheet) remarkLeg(i int) {
	leg := s.out.Legs[i]
	path := s.field(i, "pairs")
	if leg.Volts.Pairs == 1 {
		s.notice(path, "one-pair", leg.Name+": one pair can't show how steady the volts are. ±0.4 % is assumed; take at least three pairs.")
	}
	for _, at := range leg.Volts.Odd {
		s.notice(path+"."+strconv.Itoa(at), "odd-pair", leg.Name+": pair "+strconv.Itoa(at+1)+" stands apart from the others. It is used; is it typed right, and were both read at the same time?")
	}
	if leg.Factor < 0.8 || leg.Factor > 1.25 {
		s.notice(path, "gain-implausible", leg.Name+": the two are further apart than a wrong gain is likely to make them. Were both read between the same two points? Volts between two lines are about twice those to neutral in a split-phase home, 1.73 times in a three-phase one.")
	}
	s.judgeService(i)
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

// judgeService points out volts outside the usual band of the service.
func (s *sheet) judgeService(i int) {
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
