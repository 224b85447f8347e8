package cause

import (
	"math"

	"splittally/calc/figure"
)

// How much power one instrument alone may see, in watts: standard deviations
// with equal weight (a choice: what stands by, and a pump or a heater).
var offsetWatts = [2]float64{30, 150}

// offset: a constant power that one instrument alone counts: a circuit before
// the clamps or on another panel makes the monitor read low, one that is counted
// twice, or a zero that is off, high.
func offset() kind {
	return kind{
		id:     Offset,
		name:   "A constant power that one of the two does not see",
		remedy: "Look for a circuit that leaves before the clamps or passes them twice, and for a reading that is not zero with everything off.",
		forms: func(f *frame) []form {
			var out []form
			for _, sd := range offsetWatts {
				power := effect{by: f.ofPeriods(func(p int) float64 { return 24 * f.days(p) / 1000 }), sd: sd, days: evenly}
				out = append(out, form{weight: 1, effects: []effect{power}, how: offsetHow, reasons: offsetReasons})
				if f.n() > 2 || f.Daily.Given || f.Timed.Given {
					out = append(out, form{weight: 0.3, effects: []effect{power, f.gained(gainOff[0], nowhere)}, how: offsetHow, reasons: offsetReasons})
				}
			}
			return out
		},
	}
}

func offsetHow(o outcome) string {
	words := "The monitor counts a steady " + o.amount(o.sizes[0], o.doubts[0], "W", "", "") + " too much"
	if o.sizes[0] < 0 {
		words = "The monitor misses a steady " + o.amount(-o.sizes[0], o.doubts[0], "W", "", "")
	}
	if len(o.sizes) > 1 && math.Abs(o.sizes[1]) > 2*o.doubts[1] {
		words += ", and reads " + o.amount(o.sizes[1], o.doubts[1], "%", "high", "low") + " besides"
	}
	return words + "."
}

func offsetReasons(o outcome) (pro, con []string) {
	if o.n() == 1 && !o.Daily.Given && !o.Timed.Given {
		return nil, []string{"A single bill can’t tell a constant power from a gain: that takes bills of different use."}
	}
	lo, hi := watts(o.frame, 0), watts(o.frame, 0)
	for p := range o.n() {
		lo, hi = min(lo, watts(o.frame, p)), max(hi, watts(o.frame, p))
	}
	return []string{"As a power, the difference is between " + figure.Fixed(lo, 0) + " and " + figure.Fixed(hi, 0) + figure.Thin + "W in the " + figure.Counted(o.n(), "bill", "bills") + "."}, nil
}

func watts(f *frame, p int) float64 { return (f.w[p] - f.r[p]) * 1000 / (24 * f.days(p)) }
