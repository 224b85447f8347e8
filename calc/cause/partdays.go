package cause

import (
	"fmt"
	"math"

	"splittally/calc/figure"
)

// What a record may lose in short cuts that no single day shows, in percent of
// a period: in one period alone, or in all. The standard deviation is as large
// as the mean (a choice).
var (
	cutsInOne = [2]float64{2, 8}
	cutsInAll = [3]float64{1, 3, 6}
)

// low are the parts of a usual day below which a day may have been lost in part.
var low = [3]float64{0.45, 0.6, 0.75}

// partDays: hours were lost, and the days were read as if whole.
func partDays() kind {
	return kind{
		id:     PartDays,
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
					if lost := sum(o.add) - sum(o.sizes); math.Abs(lost) < 0.5 {
						return lowDays(days) + " far below those around, but next to nothing would be lost on them."
					}
					return fmt.Sprintf("%s far below those around: about %.0f kWh may have been lost on them.", lowDays(days), sum(o.add)-sum(o.sizes))
				}
				out = append(out, fo)
			}
			for _, mean := range cutsInAll {
				out = append(out, f.cut(mean, 0.25, f.all()...))
			}
			for p := range f.n() {
				for _, mean := range cutsInOne {
					out = append(out, f.cut(mean, 0.25/float64(f.n()), p))
				}
			}
			return out
		},
	}
}

// cut loses so many percent of each of the periods.
func (f *frame) cut(mean, weight float64, periods ...int) form {
	fo := form{weight: weight, how: cutHow}
	for _, p := range periods {
		fo.effects = append(fo.effects, effect{by: f.alone(p, -f.r[p]/100), mean: mean, sd: mean, days: inTotals})
	}
	return fo
}

// all lists the periods.
func (f *frame) all() []int {
	out := make([]int, f.n())
	for p := range out {
		out[p] = p
	}
	return out
}

func cutHow(o outcome) string {
	lost := 0.0
	for k, size := range o.sizes {
		lost -= size * sum(o.effects[k].by)
	}
	if lost < 0.5 {
		return "Short cuts would have lost next to nothing."
	}
	if len(o.sizes) < o.n() {
		return "Hours of one bill would have been lost, about " + figure.Plain(lost, 0) + " kWh."
	}
	return "Short cuts, too short for a day to show, would have lost about " + figure.Plain(lost, 0) + " kWh."
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
