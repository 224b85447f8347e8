package cause

import (
	"fmt"

	"splittally/calc/figure"
)

// What a record may lose in short cuts that no single day shows, in percent of
// a period: a mean and a standard deviation (a choice).
const (
	cutsMean = 3.0
	cutsSD   = 2.5
)

// low are the parts of a usual day below which a day may have been lost in part.
var low = [3]float64{0.45, 0.6, 0.75}

// partDays: hours were lost, and the days were read as if whole.
var partDays = kind{
	id: PartDays, side: InReadings,
	name:   "Days lost in part, read as whole",
	remedy: "Look at the hours of the low days in the monitor’s history; leave out a day with lost hours, so that it is filled.",
	forms: func(f *frame) []form {
		var out []form
		for _, limit := range low {
			fo, days := f.put(0.25, func(d stray) bool { return d.ratio < limit })
			if days == 0 {
				continue
			}
			fo.how = func(o outcome) string {
				return fmt.Sprintf("%s far below those around: about %.0f kWh may have been lost on them.", lowDays(days), sum(o.add)-sum(o.sizes))
			}
			out = append(out, fo)
		}
		cuts := form{weight: 0.25, how: func(o outcome) string {
			lost := 0.0
			for p, size := range o.sizes {
				lost += size * o.r[p] / 100
			}
			if lost < 0 {
				return "Short cuts lose energy, but here there would be some to lose, not to find."
			}
			return "Short cuts, too short for a day to show, would have lost about " + figure.Plain(lost, 0) + " kWh."
		}}
		for p := range f.n() {
			cuts.effects = append(cuts.effects, effect{by: f.alone(p, -f.r[p]/100), mean: cutsMean, sd: cutsSD})
		}
		return append(out, cuts)
	},
}

func lowDays(n int) string {
	if n == 1 {
		return "One day stands"
	}
	return fmt.Sprintf("%d days stand", n)
}

func sum(v []float64) float64 {
	total := 0.0
	for _, x := range v {
		total += x
	}
	return total
}
