package cause

import (
	"fmt"

	"splittally/calc/figure"
)

// What bills add for losses in the wires, in percent: a mean and a standard
// deviation. Published factors of low-voltage customers lie between 3 and 9.
const (
	usualLoss = 4.5
	lossSD    = 2.0
)

// losses: the bill is in loss-adjusted kilowatt-hours, more than went through
// the meter, and nobody has said so; or they were taken off where none were.
var losses = kind{
	id:     Losses,
	name:   "The bill is in loss-adjusted kilowatt-hours",
	remedy: "Look on the bill for “adjusted” or “loss factor”, and type it into the bill’s details.",
	forms: func(f *frame) []form {
		reads := 0
		for _, p := range f.Periods {
			if p.FromReads {
				reads++
			}
		}
		if reads == f.n() {
			return nil
		}
		guess := form{
			weight: 1,
			effects: []effect{{
				by: f.ofPeriods(func(p int) float64 {
					if f.Periods[p].FromReads { // a register counts no losses
						return 0
					}
					return -f.r[p] / 100
				}),
				bill: true, mean: usualLoss, sd: lossSD,
			}},
			how: func(o outcome) string {
				return "Losses of about " + figure.Percent(figure.Plain(o.sizes[0], 1)) + " are in the billed energy, which the meter never counted."
			},
		}
		printed := form{weight: 1, less: make([]float64, f.n())}
		any, over := false, false
		for i, p := range f.Periods {
			if p.LossFactor <= 1 {
				continue
			}
			any = true
			if p.LossIncluded {
				over = true
				printed.less[i] = -(p.LossFactor - 1) * f.r[i]
			} else {
				printed.less[i] = f.r[i] * (1 - 1/p.LossFactor)
			}
		}
		if !any {
			return []form{guess}
		}
		printed.how = func(o outcome) string {
			if over {
				return "The losses were taken off the billed energy, but it does not hold them."
			}
			return fmt.Sprintf("The billed energy holds the losses that the bill prints, × %.4g.", o.Periods[0].LossFactor)
		}
		return []form{printed}
	},
}
