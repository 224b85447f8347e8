package calc

import (
	"math"

	"splittally/calc/fit"
	"splittally/calc/ledger"
	"splittally/calc/uncertainty"
)

// fitLines lays a line through the periods of each instrument, and through the
// days if the meter's own daily figures are known.
func (w *work) fitLines() {
	for i := range w.f.Instruments {
		inst := &w.f.Instruments[i]
		inst.Fitted, inst.IsFitted = w.fitPeriods(i)
		inst.Daily, inst.IsDaily = w.fitDays(i)
	}
}

// fewest is how many points a line is laid through: with two nothing is left
// over to test it.
const fewest = 3

// fitPeriods lays monitor = offset + gain · meter through the periods, in kWh a
// day, so that long and short ones lie on one line.
//
// The accuracies that the two instruments promise are left out of the points'
// uncertainties: the monitor's is what the line measures, and the meter's class
// moves the gain as a whole, to which it is added afterwards.
func (w *work) fitPeriods(i int) (Fitted, bool) {
	var out Fitted
	var x, y []float64
	var bx, by []uncertainty.Budget
	for p, r := range w.f.Instruments[i].Results {
		if !r.Compares() || len(r.Compared.Reference.EstimatedReads) > 0 {
			continue
		}
		perDay := []float64{1 / float64(w.f.Periods[p].Span.Days())}
		meter := uncertainty.Weighted(perDay, []uncertainty.Budget{unpromised(r.Compared.Reference.Budget)})
		monitor := uncertainty.Weighted(perDay, []uncertainty.Budget{unpromised(r.Compared.Indicated.Budget)})
		ux, _ := meter.Combined()
		uy, _ := monitor.Combined()
		point := Point{
			Period: p, Meter: perDay[0] * r.Compared.Reference.Energy.KilowattHours(), MeterDoubt: ux,
			Monitor: perDay[0] * r.Compared.Indicated.Energy.KilowattHours(), MonitorDoubt: uy,
		}
		out.Points = append(out.Points, point)
		x, y = append(x, point.Meter), append(y, point.Monitor)
		bx, by = append(bx, meter), append(by, monitor)
	}
	if len(x) < fewest {
		return Fitted{}, false
	}
	out.Line = w.withClass(fit.Both(x, y, fit.Covariances(bx, by), w.f.Confidence))
	out.Ordinary = w.withClass(fit.Ordinary(x, y, w.f.Confidence))
	out.Watts = watts(out.Line)
	return out, true
}

func unpromised(b uncertainty.Budget) uncertainty.Budget {
	return b.Only(func(p uncertainty.Part) bool { return !p.Promise })
}

// fitDays lays the same line through the days that both instruments measured.
// What makes days scatter beyond their rounding is not known, so the scatter
// itself is taken for the uncertainty.
func (w *work) fitDays(i int) (Fitted, bool) {
	var out Fitted
	var x, y, ux, uy []float64
	l, meter := w.f.Instruments[i].Ledger, w.f.Meter
	for d := meter.First; d < meter.Span().End; d++ {
		a, ok1 := meter.WholeAt(d)
		b, ok2 := l.WholeAt(d)
		if !ok1 || !ok2 {
			continue
		}
		point := Point{
			Period: -1, Day: d, Meter: a.Energy.KilowattHours(), MeterDoubt: rounded(a),
			Monitor: b.Energy.KilowattHours(), MonitorDoubt: rounded(b),
		}
		out.Points = append(out.Points, point)
		x, y = append(x, point.Meter), append(y, point.Monitor)
		ux, uy = append(ux, point.MeterDoubt), append(uy, point.MonitorDoubt)
	}
	if len(x) < fewest {
		return Fitted{}, false
	}
	out.Line = w.withClass(w.scattered(fit.Many(x, y, ux, uy, w.f.Confidence)))
	out.Ordinary = w.withClass(fit.Ordinary(x, y, w.f.Confidence))
	out.Watts = watts(out.Line)
	return out, true
}

// least is the rounding of a figure that was given exactly, in kWh.
const least = 0.0005

func rounded(e ledger.Entry) float64 {
	return max(least, e.Rounding.KilowattHours()/math.Sqrt(3))
}

// scattered widens a line's uncertainties by the Birge ratio √(χ²/ν) if the
// points scatter more than was stated (Birge, Phys. Rev. 40 (1932) 207, from
// memory). They then rest on the scatter of ν + 2 points, so that intervals are
// by Student's t.
func (w *work) scattered(l fit.Line) fit.Line {
	dof := float64(max(1, l.DoF))
	if ratio := math.Sqrt(l.ChiSquared / dof); ratio > 1 {
		for _, v := range []*fit.Value{&l.Offset, &l.Gain} {
			v.Standard *= ratio
			v.Expanded, v.DoF = v.Standard*uncertainty.Coverage(w.f.Confidence, dof), dof
		}
	}
	return l
}

// withClass adds the meter's class to the gain: the meter is only as good a
// measure of a kilowatt-hour as that. Its interval is by the normal
// distribution, whatever that of the line is by.
func (w *work) withClass(l fit.Line) fit.Line {
	class := w.settings.class.value / 100 / math.Sqrt(3) * l.Gain.Value
	l.Gain.Standard = math.Hypot(l.Gain.Standard, class)
	l.Gain.Expanded = math.Hypot(l.Gain.Expanded, class*uncertainty.Coverage(w.f.Confidence, math.Inf(1)))
	return l
}

// watts gives an offset in kWh a day as a steady power.
func watts(l fit.Line) fit.Value {
	v := l.Offset
	v.Value, v.Standard, v.Expanded = v.Value*1000/24, v.Standard*1000/24, v.Expanded*1000/24
	return v
}
