package paired

import (
	"math"
	"slices"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/ledger"
	"splittally/calc/uncertainty"
)

// sheet is a pair of ledgers on the way to a Result.
type sheet struct {
	Options
	monitor, meter ledger.Ledger
	rows           []row
	sums           [2]energy.Energy
	line           line
	cut            Cut
	scatter        float64 // standard deviation of a day's distance over its spread
}

// row is a day that both measured.
type row struct {
	day            calendar.Day
	w, r           energy.Energy
	x, d           float64 // the meter's kWh, and the instrument's less that
	round          float64 // half-width of both roundings together, kWh
	next, last     float64 // the meter's next day less this one, and the one before; 0 if it is not known
	expected, wide float64 // kWh
	odd            bool
}

// least is the rounding of a figure that was given exactly, in kWh.
const least = 0.0005

func newSheet(monitor, meter ledger.Ledger, o Options) *sheet {
	s := &sheet{Options: o, monitor: monitor, meter: meter}
	both := monitor.Span().Common(meter.Span())
	finest := [2]float64{finest(monitor, both), finest(meter, both)}
	for d := both.First; d < both.End; d++ {
		a, ok := monitor.WholeAt(d)
		b, ok2 := meter.WholeAt(d)
		if !ok || !ok2 {
			continue
		}
		s.sums[0], s.sums[1] = plus(s.sums[0], a.Energy), plus(s.sums[1], b.Energy)
		r := row{day: d, w: a.Energy, r: b.Energy, x: b.Energy.KilowattHours(), d: a.Energy.KilowattHours() - b.Energy.KilowattHours()}
		r.round = rounding(monitor, a, d, finest[0]) + rounding(meter, b, d, finest[1]) + least
		if e := meter.At(d + 1); e.State == ledger.Measured {
			r.next = e.Energy.KilowattHours() - r.x
		}
		if e := meter.At(d - 1); e.State == ledger.Measured {
			r.last = e.Energy.KilowattHours() - r.x
		}
		s.rows = append(s.rows, r)
	}
	return s
}

// rounding is that of a day's figure, no coarser than the middle one unless some
// of the day was not measured.
func rounding(l ledger.Ledger, e ledger.Entry, d calendar.Day, finest float64) float64 {
	own := e.Rounding.KilowattHours()
	if l.At(d).State == ledger.Partial {
		return own
	}
	return min(finest, own)
}

// plus adds; a sum beyond what an Energy holds, that of no home, stays as it is.
func plus(a, b energy.Energy) energy.Energy {
	if sum, err := a.Add(b); err == nil {
		return sum
	}
	return a
}

// finest gives the middle rounding of the days, in kWh: a figure whose last zeros
// were dropped looks coarser than it is.
func finest(l ledger.Ledger, both calendar.Span) float64 {
	var all []float64
	for d := both.First; d < both.End; d++ {
		if e := l.At(d); e.State == ledger.Measured {
			all = append(all, e.Rounding.KilowattHours())
		}
	}
	return uncertainty.Median(all)
}

// middling is the meter's middle day, in kWh.
func (s *sheet) middling() float64 {
	x := make([]float64, len(s.rows))
	for i, r := range s.rows {
		x[i] = math.Abs(r.x)
	}
	return uncertainty.Median(x)
}

// rounding is the standard deviation that the middle day's roundings give.
func (s *sheet) rounding() float64 {
	x := make([]float64, len(s.rows))
	for i, r := range s.rows {
		x[i] = r.round
	}
	return uncertainty.Median(x) / math.Sqrt(3)
}

// sound gives the rows that do not disagree.
func (s *sheet) sound() []row {
	return slices.DeleteFunc(slices.Clone(s.rows), func(r row) bool { return r.odd })
}

// mark finds the days that disagree.
func (s *sheet) mark() {
	k := farthest(len(s.rows))
	for i := range s.rows {
		r := &s.rows[i]
		r.expected = r.x + s.line.at(*r)
		r.wide = r.round + k*s.scatter*s.spread(r.x)
		r.odd = math.Abs(r.d-s.line.at(*r)) > r.wide
	}
}

// Long tails: Student's t of so many degrees of freedom, and the median distance
// of it from the middle.
const (
	tailDoF    = 5
	tailMedian = 0.7267
)

// farthest is how many standard deviations, as MedianDeviation makes them, one of
// n days lies from the line at most, but for a chance of FalseAlarm; a little more
// where few days tell the scatter.
func farthest(n int) float64 {
	few := 1 + 4/float64(n)
	return few * uncertainty.Coverage(1-FalseAlarm/float64(n), tailDoF) / (uncertainty.MedianDeviation * tailMedian)
}

func (s *sheet) days() []Day {
	out := make([]Day, len(s.rows))
	for i, r := range s.rows {
		out[i] = Day{Day: r.day, Monitor: r.w, Meter: r.r, Expected: r.expected, Limit: r.wide, Disagrees: r.odd}
	}
	return out
}
