package cause

import (
	"math"

	"splittally/calc/uncertainty"
)

// stray is a measured day beside what the days around make of it.
type stray struct {
	kWh      float64 // as measured
	expected float64 // kWh: the median of the measured days around
	ratio    float64 // kWh / expected
	afterGap bool    // the day before was not measured
	copied   bool    // the same figure, to the last digit, as the day before
}

// around is how many days to either side a day is held against.
const around = 10

// strays gives the measured days of a period, each beside those around it.
func (f *frame) strays(p int) []stray {
	if f.stray == nil {
		for p := range f.Periods {
			f.stray = append(f.stray, straysOf(f.Periods[p]))
		}
	}
	return f.stray[p]
}

func straysOf(period Period) []stray {
	days := period.Days
	var out []stray
	var near []float64
	for i, d := range days {
		if !d.Measured {
			continue
		}
		near = near[:0]
		for j := max(0, i-around); j < min(len(days), i+around+1); j++ {
			if j != i && days[j].Measured {
				near = append(near, days[j].Energy.KilowattHours())
			}
		}
		expected := uncertainty.Median(near)
		if len(near) < 5 || expected <= 0 {
			continue
		}
		kWh := d.Energy.KilowattHours()
		before := period.Before
		if i > 0 {
			before = days[i-1]
		}
		out = append(out, stray{
			kWh: kWh, expected: expected, ratio: kWh / expected,
			afterGap: !before.Measured, copied: before.Measured && before.Energy == d.Energy && d.Energy != 0,
		})
	}
	return out
}

// spread is how far days lie from what is expected of them, as a part of it: a
// standard deviation, as the median distance estimates it.
func spread(days []stray) float64 {
	var off []float64
	for _, d := range days {
		off = append(off, math.Abs(d.ratio-1))
	}
	return uncertainty.MedianDeviation * uncertainty.Median(off)
}

// put gives the form that puts in the place of the days that pick says what is
// expected of them. counted is how many there are.
//
// That a day is odd is no evidence by itself: homes have odd days, and weighing
// how odd made more wrong causes asserted, and fewer right ones, in the trials.
func (f *frame) put(weight float64, pick func(d stray) bool) (fo form, counted int) {
	fo = form{weight: weight, add: make([]float64, f.n())}
	for p := range f.n() {
		all := f.strays(p)
		s := max(spread(all), 0.05)
		squares := 0.0
		for _, d := range all {
			if pick(d) {
				counted++
				fo.add[p] += d.expected - d.kWh
				squares += s * s * d.expected * d.expected
			}
		}
		if squares > 0 {
			fo.effects = append(fo.effects, effect{by: f.alone(p, 1), sd: math.Sqrt(squares)})
		}
	}
	return fo, counted
}
