package cause

import (
	"fmt"

	"splittally/calc/figure"
)

// high are the multiples of a usual day from which a day may hold another, and
// most that beyond which it holds more than any two days.
var (
	high = [2]float64{1.4, 1.7}
	most = 4.0
)

// doubled: days were counted twice: a day's figure was copied from the day
// before, or holds the lost days before it, which were filled as well.
var doubled = kind{
	id: Doubled, side: InReadings,
	name:   "Days counted twice",
	remedy: "Compare the high and the repeated days with the monitor’s history, and leave out those that hold more than their own day.",
	forms: func(f *frame) []form {
		var out []form
		add := func(words string, weight float64, pick func(stray) bool) {
			fo, days := f.put(weight, pick)
			if days == 0 {
				return
			}
			fo.how = func(o outcome) string {
				return fmt.Sprintf(words+": about %s kWh may be counted twice.", days, figure.Plain(sum(o.sizes)-sum(o.add), 0))
			}
			out = append(out, fo)
		}
		for _, limit := range high {
			add("Days that stand far above those around, %d of them", 1, func(d stray) bool { return d.ratio > limit && d.ratio < most })
			add("Days after a gap that hold the lost days before them, %d of them", 1, func(d stray) bool { return d.afterGap && d.ratio > limit })
		}
		add("Days with the figure of the day before, %d of them", 1, func(d stray) bool { return d.copied })
		return out
	},
}
