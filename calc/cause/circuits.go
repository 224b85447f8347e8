package cause

import (
	"fmt"
	"math"
	"slices"
)

// subAccuracy is how well the energy of a circuit that somebody typed is known,
// as a part of it (common practice, no source: a plug or rail meter of 2 %).
const subAccuracy = 0.02

// circuits: the circuits whose energy was entered are seen by the meter and by
// no monitor; or this one counts them twice.
func circuits() kind {
	return kind{
		id:     Circuits,
		name:   "Circuits that the monitor does not see, as entered",
		remedy: "Add the energy of those circuits to the monitor’s, or clamp them too.",
		forms: func(f *frame) []form {
			apart := f.entered(func(p Period) Amount { return p.Apart })
			if apart == nil {
				return nil
			}
			const past = "The entered circuits, %.0f kWh in all, go through the meter and past the monitor."
			return []form{
				inBill(f.mended(apart, 1.5, past)),
				f.mended(apart, 1.5, past), // another instrument may see them
				f.mended(negative(apart), 1, "The entered circuits, %.0f kWh in all, are counted twice by the monitor."),
			}
		},
	}
}

// entered gives an energy typed beside the bills, by period, nil if none was.
func (f *frame) entered(of func(Period) Amount) []float64 {
	some := false
	out := f.ofPeriods(func(p int) float64 {
		a := of(f.Periods[p])
		some = some || a.Given && a.Energy != 0
		return a.Energy.KilowattHours()
	})
	if !some {
		return nil
	}
	return out
}

// mended adds typed energies to the monitor's, each known within subAccuracy.
func (f *frame) mended(add []float64, weight float64, words string) form {
	fo := form{weight: weight, add: add, steady: true, effects: f.anySlope()}
	fo.effects = append(fo.effects, f.mayRun(add)...)
	sum := 0.0
	for p, kWh := range add {
		sum += math.Abs(kWh)
		if kWh != 0 {
			fo.effects = append(fo.effects, effect{by: f.alone(p, 1), sd: subAccuracy * math.Abs(kWh)})
		}
	}
	fo.how = func(outcome) string { return fmt.Sprintf(words, sum) }
	return fo
}

// inBill makes of what is added to one monitor what is taken off the bill, so
// that it shows in all instruments.
func inBill(fo form) form {
	fo.add, fo.less, fo.steady = nil, fo.add, false
	fo.effects = slices.DeleteFunc(fo.effects, func(e effect) bool { return e.days == ownSlope })
	for k := range fo.effects {
		fo.effects[k].bill = true
	}
	return fo
}

// mayRun leaves open whether what is added ran in the timed minutes.
func (f *frame) mayRun(add []float64) []effect {
	if !f.Timed.Given {
		return nil
	}
	sd := 100 * math.Abs(f.daily(add)) / (f.Timed.Watts * 24 / 1000)
	return []effect{{by: make([]float64, f.n()), days: ownPulses, sd: sd}}
}

func negative(x []float64) []float64 {
	out := make([]float64, len(x))
	for i := range x {
		out[i] = -x[i]
	}
	return out
}

// slopeSD is how far energies of their own course may tilt the line through the
// days, in percent: a standard deviation (a choice).
const slopeSD = 3

// anySlope leaves the slope of the days open, where there are days.
func (f *frame) anySlope() []effect {
	if !f.Daily.Given {
		return nil
	}
	return []effect{{by: make([]float64, f.n()), days: ownSlope, sd: slopeSD}}
}
