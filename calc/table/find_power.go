package table

import (
	"math"

	"splittally/calc/energy"
	numbersFor "splittally/calc/figure"
	"splittally/calc/intake/words"
	"splittally/calc/series"
)

// meanPower gives what the values come to as mean power in kW, given their kind
// and unit, over the spacing of the rows.
func (f *finder) meanPower(col *column, kind series.Quantity, unit words.Unit) float64 {
	size := float64(unit.Size()) / float64(energy.KilowattHour)
	hours := float64(f.spacing()) / hourLength
	sum, n, risen, last := 0.0, 0, 0.0, math.NaN()
	for _, v := range col.values {
		if math.IsNaN(v) {
			continue
		}
		if v > last {
			risen += v - last
		}
		sum, last = sum+v, v
		n++
	}
	switch {
	case n == 0 || hours == 0:
		return 0
	case kind == series.Power:
		return size * sum / float64(n)
	case kind == series.Register:
		return size * risen / f.hours()
	}
	return size * sum / float64(n) / hours
}

// hours gives the time that the head covers, in hours.
func (f *finder) hours() float64 {
	d := f.rows[len(f.rows)-1].at - f.rows[0].at
	return float64(max(d, -d, f.spacing())) / hourLength
}

// spacing gives the step, or the mean of the steps if they are uneven.
func (f *finder) spacing() int64 {
	if f.step > 0 {
		return f.step
	}
	d := (f.rows[len(f.rows)-1].at - f.rows[0].at) / int64(len(f.rows)-1)
	return max(d, -d, 1)
}

// inKW writes a mean power for a sentence.
func inKW(kw float64) string {
	switch a := math.Abs(kw); {
	case a >= 10_000:
		return numbersFor.Plain(kw/1000, 0) + " MW"
	case a >= 100:
		return numbersFor.Plain(kw, 0) + " kW"
	case a >= 1:
		return numbersFor.Plain(kw, 1) + " kW"
	case a >= 0.01:
		return numbersFor.Plain(kw*1000, 0) + " W"
	}
	return numbersFor.Plain(kw*1000, 2) + " W"
}
