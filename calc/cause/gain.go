package cause

import "splittally/calc/figure"

// How far a gain may be off beyond what was promised, in percent of the
// monitor's figure: standard deviations, with equal weight for each (a choice:
// a setting that is a little off, and one that is for another clamp).
var gainOff = [2]float64{3, 12}

// gain: the monitor is off by one percentage always. If the legs were checked,
// this is a gain that the checks do not show: with the volts alone, one of the
// current or the phase.
func gain() kind {
	return kind{
		id: Gain, sets: true,
		name:   "One gain, the same in every bill",
		remedy: "Set the monitor’s gain by the factor under “What to set”, and judge it on the next bill.",
		forms: func(f *frame) []form {
			var out []form
			for _, sd := range gainOff {
				out = append(out, form{weight: 1, effects: append([]effect{f.gained(sd, nowhere)}, f.unevenly()...), how: gainHow, reasons: gainReasons})
				if f.legChecks > 0 { // and one that they do show beside it
					out = append(out, form{
						weight: 0.3, effects: append([]effect{f.gained(sd, nowhere), f.gained(gainOff[0], inAll)}, f.unevenly()...),
						how: gainHow, reasons: gainReasons,
					})
				}
			}
			return out
		},
	}
}

// gained is a monitor that reads θ percent too high.
func (f *frame) gained(sd float64, in shows) effect {
	return effect{by: f.ofPeriods(func(p int) float64 { return f.r[p] / 100 }), sd: sd, shows: in, days: inProportion}
}

func gainHow(o outcome) string {
	what := "The monitor"
	if o.legChecks > 0 {
		what = "Beyond what the checks of the legs show, the monitor"
	}
	return what + " reads " + o.amount(o.sizes[0], o.doubts[0], "%", "high", "low") + "."
}

func gainReasons(o outcome) (pro, con []string) {
	if o.n() > 1 {
		lo, hi := span(o.frame)
		from, to := figure.Percent(figure.Fixed(lo, 1)), figure.Percent(figure.Fixed(hi, 1))
		if from == to {
			pro = append(pro, "The error of every bill is "+from+".")
		} else {
			pro = append(pro, "The errors of the "+figure.Counted(o.n(), "bill", "bills")+" lie between "+from+" and "+to+".")
		}
	} else if !o.Daily.Given && !o.Timed.Given {
		con = append(con, "A single bill can’t show whether the error is the same always.")
	}
	if d := o.Daily; d.Given {
		pro = append(pro, "Beside the meter’s own days it reads "+o.amount(d.High, d.Standard, "%", "high", "low")+", and on each further kWh "+o.amount(d.Slope, d.SlopeStandard, "%", "high", "low")+".")
	}
	return pro, con
}
