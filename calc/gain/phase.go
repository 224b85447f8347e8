package gain

import (
	"math"

	"github.com/shopspring/decimal"

	"splittally/calc/number"
)

// PhaseError gives the percentage error of energy that a phase displacement of
// the current makes, in minutes of arc, at a lagging power factor cos φ:
//
//	e = 100 · (cos(φ − δ)/cos φ − 1) ≈ 100 · δ · tan φ
//
// δ is counted as IEC 61869-1 does (from memory): more than 0 where the
// secondary current leads the primary. It then stands nearer to the volts than
// the real current does, and the energy of a lagging load reads high. Who
// counts a lag as positive has the sign the other way.
func PhaseError(powerFactor, minutes float64) float64 {
	phi, delta := math.Acos(powerFactor), minutes/60*math.Pi/180
	return 100 * (math.Cos(phi-delta)/powerFactor - 1)
}

// Limit is the most that a current transformer of a class may be off.
type Limit struct {
	Class   string
	Load    float64 // percent of the rated current
	Ratio   float64 // ratio error, percent
	Minutes float64 // phase displacement, minutes of arc; 0 if Free
	Phase   float64 // error of energy from the displacement at the power factor, percent
	Free    bool    // the class sets no limit on the displacement
}

// both is ratio error and phase displacement at their limits, percent.
func (l Limit) both() float64 { return l.Ratio + l.Phase }

// classes are the limits of IEC 61869-2 tables 201 and 202, each from the
// smallest load on. Of classes 3 and 5 table 203 limits the ratio alone (from
// memory).
var classes = []Limit{
	{Class: "0.2", Load: 5, Ratio: 0.75, Minutes: 30},
	{Class: "0.2", Load: 20, Ratio: 0.35, Minutes: 15},
	{Class: "0.2", Load: 100, Ratio: 0.2, Minutes: 10},
	{Class: "0.2", Load: 120, Ratio: 0.2, Minutes: 10},
	{Class: "0.5S", Load: 1, Ratio: 1.5, Minutes: 90},
	{Class: "0.5S", Load: 5, Ratio: 0.75, Minutes: 45},
	{Class: "0.5S", Load: 20, Ratio: 0.5, Minutes: 30},
	{Class: "0.5S", Load: 100, Ratio: 0.5, Minutes: 30},
	{Class: "0.5S", Load: 120, Ratio: 0.5, Minutes: 30},
	{Class: "1", Load: 5, Ratio: 3, Minutes: 180},
	{Class: "1", Load: 20, Ratio: 1.5, Minutes: 90},
	{Class: "1", Load: 100, Ratio: 1, Minutes: 60},
	{Class: "1", Load: 120, Ratio: 1, Minutes: 60},
	{Class: "3", Load: 50, Ratio: 3, Free: true},
	{Class: "5", Load: 50, Ratio: 5, Free: true},
}

// Limits gives what transformers of each class may be off, with what their
// phase displacement makes of energy at the power factor, in size: the larger
// of a lead and a lag.
func Limits(powerFactor float64) []Limit {
	limits := append([]Limit(nil), classes...)
	for i := range limits {
		l := &limits[i]
		l.Phase = max(math.Abs(PhaseError(powerFactor, l.Minutes)), math.Abs(PhaseError(powerFactor, -l.Minutes)))
	}
	return limits
}

// limitOf finds a class at a load.
func limitOf(limits []Limit, class string, load float64) Limit {
	for _, l := range limits {
		if l.Class == class && l.Load == load {
			return l
		}
	}
	return Limit{}
}

// assumedPowerFactor is that of a home where nobody said it (common practice,
// no source).
const assumedPowerFactor = 0.9

func (s *sheet) readPowerFactor(typed string) {
	s.out.PowerFactor, s.out.PowerFactorAssumed = assumedPowerFactor, true
	if number.IsBlank(typed) {
		return
	}
	f := field{least: decimal.New(1, -1), most: decimal.NewFromInt(1)}
	ways := f.read(typed)
	if len(ways) == 0 {
		s.problem(s.path+".power-factor", typed, "the power factor of the home, from 0.1 to 1, such as 0.92")
		return
	}
	s.out.PowerFactor, s.out.PowerFactorAssumed = ways[0].value, false
}
