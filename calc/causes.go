package calc

import (
	"math"

	"splittally/calc/billing"
	"splittally/calc/calendar"
	"splittally/calc/cause"
	"splittally/calc/compare"
	"splittally/calc/fill"
	"splittally/calc/gain"
	"splittally/calc/ledger"
	"splittally/calc/pulse"
	"splittally/calc/uncertainty"
)

// weigh holds the causes against what each instrument shows.
func (w *work) weigh() {
	for i := range w.f.Instruments {
		w.f.Instruments[i].Causes = cause.Weigh(w.seen(i))
	}
}

// seen gathers what is known of an instrument for the weighing of causes.
func (w *work) seen(i int) cause.Seen {
	inst := &w.f.Instruments[i]
	s := cause.Seen{
		Confidence: w.f.Confidence, Accuracy: accuracySource(inst.Monitor), Legs: w.f.Checks.LegCount,
	}
	if w.isChecked(i) {
		s.Checks = cause.Checks{
			Volts: w.factor(w.f.Checks.Volts, func(l gain.LegResult) gain.Found { return l.Volts }),
			Power: w.factor(w.f.Checks.Power, func(l gain.LegResult) gain.Found { return l.Power }),
		}
	}
	s.Daily, s.Class = w.daily(inst), w.meterClass().Source
	if c, ok := w.leadingTiming(i); ok {
		s.Timed = timed(c, w.f.Timing)
	}
	if c, ok := leading(inst); ok {
		s.Verdict = c.Verdict
	}
	for p, r := range inst.Results {
		if r.Compares() {
			s.Periods = append(s.Periods, w.seenPeriod(i, p))
		}
	}
	for _, b := range w.f.Periods {
		if b.Net {
			s.NetBills++
		}
	}
	for j := range w.f.Instruments {
		if j != i {
			if o := w.beside(i, j); len(o.Periods) > 0 {
				s.Others = append(s.Others, o)
			}
		}
	}
	if o := w.meterBeside(i); len(o.Periods) > 0 {
		s.Others = append(s.Others, o)
	}
	return s
}

// meterBeside gives the meter's own days beside the periods that i is weighed
// by: what is in a bill shows in them, and what is in the monitor does not.
func (w *work) meterBeside(i int) (out cause.Instrument) {
	k := 0
	for p, r := range w.f.Instruments[i].Results {
		if !r.Compares() {
			continue
		}
		if own, ok := w.ownAmount(p); ok {
			c := compare.Judge(own, w.reference(p), w.f.Confidence)
			if math.Abs(c.Percent.InexactFloat64()) <= wholeHome {
				out.Periods = append(out.Periods, cause.Beside{Period: k, Compared: c})
			}
		}
		k++
	}
	return out
}

// ownAmount gives what the meter's own days come to over a period that they
// cover. The meter's class is in them and in the bill alike.
func (w *work) ownAmount(p int) (compare.Amount, bool) {
	bill := w.f.Periods[p]
	for _, j := range w.f.Metered.Bills {
		if j.Index != p || j.Missing > 0 {
			continue
		}
		t := total{amount: compare.Amount{Energy: j.Metered}}
		t.amount.AddOfReading(w.meterClass())
		t.addRounding(w.f.Meter, bill.Span)
		if !w.midnights[p] && !bill.HourKnown {
			t.Filled.Total, t.Filled.Days = j.Metered, make([]fill.Day, bill.Days())
			t.addUnknownHour(w.f.Meter, bill, bill.Span)
		}
		return t.amount, j.Metered > 0
	}
	return compare.Amount{}, false
}

// daily gives what an instrument shows day by day beside the meter's own
// figures. The meter's class is taken out of the slope again: it is in the
// budgets of the bills, where it is the same cause.
func (w *work) daily(inst *Instrument) cause.Daily {
	p := inst.Paired
	if !inst.IsPaired || !inst.IsDaily || !p.Percent.Known || p.Meter <= 0 {
		return cause.Daily{}
	}
	k := uncertainty.Coverage(w.f.Confidence, math.Inf(1))
	slope := inst.Daily.Line.Gain
	class := w.settings.class.value / 100 / math.Sqrt(3) * slope.Value
	return cause.Daily{
		Given: true, High: p.Percent.Value, Standard: p.Percent.Expanded / k,
		Slope:         100 * (slope.Value - 1),
		SlopeStandard: 100 * math.Sqrt(max(0, slope.Expanded*slope.Expanded/(k*k)-class*class)),
		MeanDay:       p.Meter.KilowattHours() / float64(len(p.Days)),
	}
}

// timed gives what timing the meter shows, without what the two promise: that
// is in the budgets of the bills, where it is the same cause.
func timed(c compare.Comparison, t pulse.Result) cause.Timed {
	watts, seconds := 0.0, 0.0
	for _, r := range t.Runs {
		if r.IsCompared {
			watts, seconds = watts+r.Watts.Value*r.Seconds, seconds+r.Seconds
		}
	}
	own := c.Budget.Only(func(p uncertainty.Part) bool { return !p.Promise })
	standard, _ := own.Combined()
	return cause.Timed{Given: c.Verdict != compare.Nothing, High: c.Percent.InexactFloat64(), Standard: standard, Watts: watts / max(seconds, 1)}
}

// wholeHome is how far an instrument's error may be from zero, in percent, for
// it to be one of the whole home: else it is one of a circuit, or as puzzling
// as the one that is weighed.
const wholeHome = 15

// beside gives what instrument j shows of the periods that i is weighed by.
func (w *work) beside(i, j int) (out cause.Instrument) {
	k := 0
	for p, r := range w.f.Instruments[i].Results {
		if !r.Compares() {
			continue
		}
		if other := w.f.Instruments[j].Results[p]; other.Compares() {
			if math.Abs(other.Compared.Percent.InexactFloat64()) > wholeHome {
				return cause.Instrument{}
			}
			out.Periods = append(out.Periods, cause.Beside{Period: k, Compared: other.Compared})
		}
		k++
	}
	return out
}

// factor passes on a gain of the whole home; that of some legs only says too
// little of the rest.
func (w *work) factor(g gain.Whole, of func(gain.LegResult) gain.Found) cause.Factor {
	out := cause.Factor{Given: g.Given && g.Complete, Value: g.Factor, Standard: g.Standard / 100 / g.Factor}
	low, high := math.Inf(1), math.Inf(-1)
	for _, l := range w.f.Checks.Legs {
		if found := of(l); found.Given {
			low, high = min(low, found.Factor), max(high, found.Factor)
		}
	}
	out.Differ = max(0, high-low)
	return out
}

func (w *work) seenPeriod(i, p int) cause.Period {
	bill, r := w.f.Periods[p], w.f.Instruments[i].Results[p]
	out := cause.Period{
		Index: p, Span: bill.Span, Compared: r.Compared,
		Before: w.seenDay(i, bill.Span.First-1), After: w.seenDay(i, bill.Span.End),
		StartRead: bill.StartRead, EndRead: bill.EndRead, StartEstimated: bill.StartEstimated, EndEstimated: bill.EndEstimated,
		HourKnown: bill.HourKnown, Midnights: w.midnights[p], ReadOffset: bill.ReadOffset, FromReads: bill.FromReads, LossFactor: bill.LossFactor.InexactFloat64(), LossIncluded: bill.LossIncluded,
		Apart: beside(bill.Apart), Produced: beside(bill.Produced), Exported: beside(bill.Exported),
	}
	out.Legs, out.LegDays = legEnergies(w.f.Instruments[i].Legs, bill.Span)
	for d := bill.Span.First; d < bill.Span.End; d++ {
		out.Days = append(out.Days, w.seenDay(i, d))
	}
	l := w.f.Instruments[i].Ledger
	out.Before.Gone, out.After.Gone = gone(l, bill.Span.First-1), gone(l, bill.Span.End)
	out.Days[0].Gone, out.Days[len(out.Days)-1].Gone = gone(l, bill.Span.First), gone(l, bill.Span.Last())
	return out
}

// gone gives the energy before each full hour of a measured day, in kWh; nil if
// the instrument has no hours of it.
func gone(l ledger.Ledger, d calendar.Day) []float64 {
	slots := l.On(d)
	if len(slots) == 0 || l.At(d).State != ledger.Measured {
		return nil
	}
	out := make([]float64, 25)
	for _, s := range slots {
		for h := range out {
			part := float64(60*h-s.From) / float64(s.To-s.From)
			out[h] += s.Energy.KilowattHours() * min(1, max(0, part))
		}
	}
	return out
}

// legEnergies adds up each leg, in kWh, over the days on which all were measured.
func legEnergies(legs []ledger.Ledger, span calendar.Span) (kWh []float64, days int) {
	if len(legs) == 0 {
		return nil, 0
	}
	kWh = make([]float64, len(legs))
	for d := span.First; d < span.End; d++ {
		all := true
		for _, l := range legs {
			all = all && l.At(d).State == ledger.Measured
		}
		if !all {
			continue
		}
		days++
		for i, l := range legs {
			kWh[i] += l.At(d).Energy.KilowattHours()
		}
	}
	return kWh, days
}

func (w *work) seenDay(i int, d calendar.Day) cause.Day {
	e := w.f.Instruments[i].Ledger.At(d)
	return cause.Day{
		Energy: e.Energy, Measured: e.State == ledger.Measured,
		Known: e.State == ledger.Measured || e.State == ledger.Spread,
	}
}

func beside(b billing.Beside) cause.Amount {
	return cause.Amount{Given: b.Given, Energy: b.Energy}
}
