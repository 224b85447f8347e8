package cause

import (
	"cmp"
	"fmt"
	"math"
	"slices"

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
func doubled() kind {
	return kind{
		id:     Doubled,
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
					if extra := sum(o.sizes) - sum(o.add); math.Abs(extra) < 0.5 {
						return fmt.Sprintf(words+": next to nothing would be counted twice.", days)
					}
					return fmt.Sprintf(words+": about %s kWh may be counted twice.", days, figure.Plain(sum(o.sizes)-sum(o.add), 0))
				}
				out = append(out, fo)
			}
			for _, limit := range high {
				add("Days that stand far above those around, %d of them", 1, func(d stray) bool { return d.ratio > limit && d.ratio < most })
				add("Days after a gap that hold the lost days before them, %d of them", 1, func(d stray) bool { return d.afterGap && d.ratio > limit })
			}
			add("Days with the figure of the day before, %d of them", 1, func(d stray) bool { return d.copied })
			return append(append(out, f.halved()...), f.extraDays()...)
		},
	}
}

// mostHalved is how many of the highest days are tried as two in one.
const mostHalved = 6

// halved takes half off the highest days, of all periods: the highest, the two
// highest, and so on, and each alone.
func (f *frame) halved() (out []form) {
	type at struct {
		p int
		stray
	}
	var all []at
	for p := range f.n() {
		for _, d := range f.strays(p) {
			if d.ratio > 1.3 && d.ratio < most {
				all = append(all, at{p, d})
			}
		}
	}
	slices.SortStableFunc(all, func(a, b at) int { return cmp.Compare(b.ratio, a.ratio) })
	so := make([]float64, f.n())
	for k, d := range all[:min(mostHalved, len(all))] {
		so[d.p] -= d.kWh / 2
		out = append(out, halvedDays(slices.Clone(so), k+1, 0.5))
		if k > 0 {
			out = append(out, halvedDays(f.alone(d.p, -d.kWh/2), 1, 0.25))
		}
	}
	return out
}

func halvedDays(add []float64, days int, weight float64) form {
	return form{weight: weight, add: add, how: func(outcome) string {
		return fmt.Sprintf("Of the highest days, %d may hold two: %s kWh are counted twice.", days, figure.Plain(-sum(add), 0))
	}}
}

// extraDays counts mean days too many: one or two in one period, or some in all.
func (f *frame) extraDays() (out []form) {
	how := func(o outcome) string {
		extra := 0.0
		for k, size := range o.sizes {
			extra += size * sum(o.effects[k].by)
		}
		return "About " + figure.Plain(max(0, extra), 0) + " kWh would be counted twice, on days that do not stand apart."
	}
	some := form{weight: 0.5, how: how}
	for p := range f.n() {
		some.effects = append(some.effects, effect{by: f.alone(p, f.meanDay(p)), mean: 0.7, sd: 0.7})
		for days := 1.0; days <= 2; days++ {
			out = append(out, form{
				weight: 0.5 / float64(f.n()), how: how,
				effects: []effect{{by: f.alone(p, f.meanDay(p)), mean: days, sd: 0.4 * math.Sqrt(days)}},
			})
		}
	}
	return append(out, some)
}
