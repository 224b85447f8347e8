package account

import (
	"math"

	"github.com/shopspring/decimal"

	"splittally/calc/calendar"
	"splittally/calc/compare"
	"splittally/calc/energy"
	"splittally/calc/tariff"
)

// yearDays is the mean year of four with one leap day.
const yearDays = 365.25

// ValueOf says what the disagreement of one period costs: both energies priced
// as bills are, and the disagreement at the price of one kWh more,
//
//	Value = (indicated − reference)·Marginal
//
// which knows tiers and times of use and holds taxes. If a tier or a minimum
// ends between the two, IsAcross is set and Value is the difference of the two
// bills before rounding instead, since no one price holds between them. (Where
// each line is rounded, a tax counts the rounded lines as it does on the bill,
// so that this difference may be off by the tax on half a coin a line.)
//
// Expanded is that of the comparison, in kWh, at the marginal price, or at the
// higher of the two prices across an edge.
func ValueOf(t tariff.Tariff, m Metered, indicated tariff.Usage, c compare.Comparison) Worth {
	meter, reference := m.usage, m.priced
	w := Worth{Indicated: t.Price(indicated), Reference: reference, Marginal: m.marginal}
	w.Difference = w.Indicated.Total.Sub(reference.Total)
	w.Energy = (kWh(indicated) - kWh(meter)).Decimal()
	w.Value = w.Energy.Mul(w.Marginal).InexactFloat64()
	dearest := w.Marginal.Abs()
	// The meter's own hours, scaled to the indicated energy, meet another price
	// only past an edge.
	if other := m.at(t, kWh(indicated)); !other.Round(9).Equal(w.Marginal.Round(9)) || !sameLines(reference, w.Indicated) {
		w.IsAcross = true
		w.Value = exact(w.Indicated).Sub(exact(reference)).InexactFloat64()
		dearest = decimal.Max(dearest, other.Abs())
	}
	w.Expanded = doubt(c) * dearest.InexactFloat64()
	w.perYear(meter.Span.Days())
	return w
}

// Metered is the meter's side of a period, priced once for all instruments.
type Metered struct {
	usage    tariff.Usage
	priced   tariff.Priced
	marginal decimal.Decimal
}

// Meter prices the meter's usage of a period.
func Meter(t tariff.Tariff, u tariff.Usage) Metered {
	return Metered{usage: u, priced: t.Price(u), marginal: t.Marginal(u)}
}

// at gives the price of one kWh more if the usage were scaled to an energy.
func (m Metered) at(t tariff.Tariff, e energy.Energy) decimal.Decimal {
	if !t.HasEdges {
		return m.marginal
	}
	return t.Marginal(scaled(m.usage, e))
}

// doubt gives the expanded uncertainty of a comparison in kWh of the reference.
func doubt(c compare.Comparison) float64 {
	return c.Expanded / 100 * math.Abs(c.Reference.Energy.KilowattHours())
}

// exact adds up the lines before rounding.
func exact(p tariff.Priced) (sum decimal.Decimal) {
	for _, l := range p.Lines {
		sum = sum.Add(l.Exact)
	}
	return sum
}

// sameLines says whether two bills have the same lines, so that no tier begins
// and no minimum ends between them.
func sameLines(a, b tariff.Priced) bool {
	if len(a.Lines) != len(b.Lines) {
		return false
	}
	for i := range a.Lines {
		if a.Lines[i].Row != b.Lines[i].Row {
			return false
		}
	}
	return true
}

func (w *Worth) perYear(days int) {
	if days > 0 {
		w.PerYear = w.Value * yearDays / float64(days)
		w.YearDoubt = w.Expanded * yearDays / float64(days)
	}
}

// PeriodWorth is the worth of one period with what it came from.
type PeriodWorth struct {
	Span calendar.Span
	Worth
	Compared compare.Comparison
}

// Pooled adds the worths of periods up, and per year of 365.25 days.
//
// Its uncertainty is that of the pooled comparison (compare.Pooled.Total), in
// kWh, at the mean marginal price of the periods, weighted by the meter's energy.
// Periods share causes: an accuracy is common to all and does not shrink by
// adding, an estimated read between two cancels. Adding the squares of the
// periods' uncertainties would miss both. With prices that differ from period
// to period the mean price is an approximation, exact if they are the same.
//
// Periods without a comparison are left out. The zero Worth comes of none.
func Pooled(list []PeriodWorth) Worth {
	var out Worth
	var compared []compare.Period
	var metered energy.Energy
	var priced decimal.Decimal
	days := 0
	for _, p := range list {
		if p.Compared.Verdict == compare.Nothing || p.Compared.Verdict == "" {
			continue
		}
		compared = append(compared, compare.Period{Span: p.Span, Comparison: p.Compared})
		out.Difference = out.Difference.Add(p.Difference)
		out.Energy = out.Energy.Add(p.Energy)
		out.Value += p.Value
		out.IsAcross = out.IsAcross || p.IsAcross
		out.Indicated.Currency, out.Reference.Currency = p.Indicated.Currency, p.Reference.Currency
		out.Indicated.Total = out.Indicated.Total.Add(p.Indicated.Total)
		out.Reference.Total = out.Reference.Total.Add(p.Reference.Total)
		metered += p.Compared.Reference.Energy
		priced = priced.Add(p.Marginal.Mul(p.Compared.Reference.Energy.Decimal()))
		days += p.Span.Days()
	}
	if len(compared) == 0 || metered == 0 {
		return Worth{}
	}
	out.Marginal = priced.DivRound(metered.Decimal(), 12)
	pooled, err := compare.Pool(compared)
	out.Expanded = doubt(pooled.Total) * math.Abs(out.Marginal.InexactFloat64())
	if err != nil {
		out.Expanded = math.Inf(1)
	}
	out.perYear(days)
	return out
}
