package paired

import (
	"math"

	"splittally/calc/matrix"
	"splittally/calc/uncertainty"
)

// score is how an estimate came about: as Σ weight·u over squares, of the
// remainders u. free takes out of a row of values what fitting took out of the
// remainders, so that what it leaves of them is known.
type score struct {
	weight, u []float64
	squares   float64
	free      func(v []float64)
}

// estimate makes an Estimate of a value from its score; see the package comment.
// The cosine sums are measured by what independent days would leave of them,
// after the fit, which makes the variance right for few days.
func (s *sheet) estimate(value float64, rows []row, sc score) Estimate {
	if len(rows) < Fewest || !(sc.squares > 0) {
		return Estimate{}
	}
	first, last := rows[0].day, rows[len(rows)-1].day
	long := float64(last-first) + 1
	sums := max(3, int(math.Round(0.4*math.Pow(long, 2.0/3))))
	found, alone := 0.0, 0.0
	v := make([]float64, len(rows))
	for j := 1; j <= sums; j++ {
		for i, r := range rows {
			v[i] = sc.weight[i] * math.Cos(math.Pi*float64(j)*(float64(r.day-first)+0.5)/long)
		}
		sum := matrix.Dot(v, sc.u)
		found += sum * sum
		sc.free(v)
		alone += matrix.Dot(v, v)
	}
	e := Estimate{Known: true, Value: value, DoF: float64(sums), P: 1}
	if alone > 0 {
		e.Standard = math.Sqrt(found/alone*matrix.Dot(sc.weight, sc.weight)) / sc.squares
	}
	e.Expanded = e.Standard * uncertainty.Coverage(s.Confidence, e.DoF)
	if e.Standard > 0 {
		e.P = uncertainty.TwoSidedT(value/e.Standard, e.DoF)
	}
	return e
}

// without takes the part along p out of v.
func without(v, p []float64) {
	part := matrix.Dot(v, p) / matrix.Dot(p, p)
	for i := range v {
		v[i] -= part * p[i]
	}
}

// percent is the usual error: the difference of the sums of the days that do not
// disagree, in percent of the meter's.
func (s *sheet) percent() Estimate {
	rows := s.sound()
	d, all := 0.0, 0.0
	x, sc := make([]float64, len(rows)), score{weight: make([]float64, len(rows)), u: make([]float64, len(rows))}
	for i, r := range rows {
		d += r.d
		all += r.x
		x[i], sc.weight[i] = r.x, 1
	}
	if all <= 0 {
		return Estimate{}
	}
	for i, r := range rows {
		sc.u[i] = r.d - d/all*r.x
	}
	sc.squares = all / 100
	sc.free = func(v []float64) {
		part := matrix.Dot(v, x) / all
		for i := range v {
			v[i] -= part
		}
	}
	return s.estimate(100*d/all, rows, sc)
}

// perDay is the same in kWh a day.
func (s *sheet) perDay(percent Estimate) Estimate {
	rows, mean := s.sound(), 0.0
	for _, r := range rows {
		mean += r.x / float64(len(rows)) / 100
	}
	percent.Value *= mean
	percent.Standard *= mean
	percent.Expanded *= mean
	return percent
}

// What a drift wants: days, and days from the first to the last.
const (
	daysToDrift = 20
	spanToDrift = 28
)

// drift is the slope of the relative error over time: of W − R = b·R + c·R·t by
// weighted least squares.
func (s *sheet) drift() Estimate {
	rows := s.sound()
	if len(rows) < daysToDrift || rows[len(rows)-1].day-rows[0].day < spanToDrift {
		return Estimate{}
	}
	x, t, y := make([]float64, len(rows)), make([]float64, len(rows)), make([]float64, len(rows))
	for i, r := range rows {
		w := 1 / s.spread(r.x)
		x[i], y[i] = w*r.x, w*r.d
		t[i] = x[i] * float64(r.day-rows[0].day) / 30
	}
	if matrix.Dot(x, x) == 0 {
		return Estimate{}
	}
	without(t, x)
	squares := matrix.Dot(t, t)
	slope := matrix.Dot(t, y) / squares
	without(y, x)
	without(y, t)
	return s.estimate(100*slope, rows, score{weight: t, u: y, squares: squares / 100, free: func(v []float64) {
		without(v, x)
		without(v, t)
	}})
}

// What a pattern of the week wants: whole weeks, and how unlikely it must be.
const (
	weeksWanted = 4
	weekRare    = 0.01
)

// weekdays tests whether the error goes with the day of the week: an analysis of
// variance of whole weeks, with the weeks themselves as blocks, so that what
// moves slowly drops out.
func (s *sheet) weekdays() Weekdays {
	var out Weekdays
	var weeks [][7]float64
	rows := s.sound()
	for i := 0; i+7 <= len(rows); {
		if rows[i+6].day-rows[i].day != 6 {
			i++
			continue
		}
		var week [7]float64
		for _, r := range rows[i : i+7] {
			week[r.day.Weekday()] = (r.d - s.line.at(r)) / s.spread(r.x)
		}
		weeks = append(weeks, week)
		i += 7
	}
	if out.Weeks = len(weeks); out.Weeks < weeksWanted {
		return out
	}
	n := float64(len(weeks))
	var days [7]float64
	rest := 0.0
	for k := range weeks {
		mean := 0.0
		for _, v := range weeks[k] {
			mean += v / 7
		}
		for d := range weeks[k] {
			weeks[k][d] -= mean
			days[d] += weeks[k][d] / n
		}
	}
	between := 0.0
	for d := range days {
		between += n * days[d] * days[d]
		for k := range weeks {
			rest += (weeks[k][d] - days[d]) * (weeks[k][d] - days[d])
		}
		out.Off[d] = days[d] * s.spread(s.middling())
	}
	dof := 6 * (n - 1)
	out.Known, out.P = true, 1
	if between > 1e-18 { // nothing at all differs where both are one record
		out.P = uncertainty.AboveF(between*dof/rest, 6, dof)
	}
	out.Shows = out.P < weekRare
	return out
}
