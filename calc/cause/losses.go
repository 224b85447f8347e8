package cause

import (
	"fmt"

	"splittally/calc/figure"
)

// What bills add for losses in the wires, in percent: a mean and a standard
// deviation (common practice, no source; printed factors of homes are mostly
// between 3 and 9).
const (
	usualLoss = 4.5
	lossSD    = 2.0
)

// losses: the bill is in loss-adjusted kilowatt-hours, more than went through
// the meter, and nobody has said so; or they were taken off where none were.
func losses() kind {
	return kind{
		id:     Losses,
		name:   "The bill is in loss-adjusted kilowatt-hours",
		remedy: "Look on the bill for “adjusted” or “loss factor”, and type it into the bill’s details.",
		forms: func(f *frame) []form {
			if f.allFromReads() {
				return nil
			}
			if fo, ok := f.printedLosses(); ok {
				return []form{fo}
			}
			return []form{f.guessedLosses()}
		},
	}
}

// allFromReads says that every bill's energy is the difference of two reads: a
// register counts no losses.
func (f *frame) allFromReads() bool {
	for _, p := range f.Periods {
		if !p.FromReads {
			return false
		}
	}
	return true
}

// guessedLosses are losses of usual size that no bill names.
func (f *frame) guessedLosses() form {
	return form{
		weight: 1,
		effects: []effect{{
			by: f.ofPeriods(func(p int) float64 {
				if f.Periods[p].FromReads {
					return 0
				}
				return -f.r[p] / 100
			}),
			bill: true, mean: usualLoss, sd: lossSD,
		}},
		how: func(o outcome) string {
			if o.sizes[0] < 0.05 {
				return "Next to no losses would be in the billed energy."
			}
			return "Losses of about " + figure.Percent(figure.Plain(o.sizes[0], 1)) + " are in the billed energy, which the meter never counted."
		},
	}
}

// printedLosses takes the losses that bills print off their energy; or puts them
// back, where they were taken off. ok is false if no bill prints any.
func (f *frame) printedLosses() (fo form, ok bool) {
	fo = form{weight: 1, less: make([]float64, f.n())}
	printed, over := 0.0, false
	for i, p := range f.Periods {
		if p.LossFactor <= 1 {
			continue
		}
		printed = max(printed, p.LossFactor)
		if p.LossIncluded {
			over = true
			fo.less[i] = -(p.LossFactor - 1) * f.r[i]
		} else {
			fo.less[i] = f.r[i] * (1 - 1/p.LossFactor)
		}
	}
	fo.how = func(outcome) string {
		if over {
			return "The losses were taken off the billed energy, but it does not hold them."
		}
		return fmt.Sprintf("The billed energy holds the losses that the bill prints, × %.4g.", printed)
	}
	return fo, printed > 1
}
