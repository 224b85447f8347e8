package calc

import (
	"math"
	"strings"

	"github.com/shopspring/decimal"

	"splittally/calc/account"
	"splittally/calc/calendar"
	"splittally/calc/correct"
	"splittally/calc/ledger"
	"splittally/calc/number"
	"splittally/calc/tariff"
)

const (
	usualDays = 30 // of a period that nobody said the end of, where no bill shows it
	before    = 56 // days before a period that a projection may look at
)

// run says what the period that has begun and is not billed will come to, by
// the first instrument that has readings in it.
func (w *work) run() {
	p, span, ok := w.openPeriod()
	if !ok {
		return
	}
	for i := range w.f.Instruments {
		l := w.f.Instruments[i].Ledger
		if l.Count(span, ledger.Measured) == 0 {
			continue
		}
		in := account.RunningInput{Period: p, Span: span, Confidence: w.f.Confidence, Factor: decimal.NewFromInt(1)}
		in.FactorDoubt = w.settings.accuracy[w.f.Instruments[i].Monitor].value / 100 / math.Sqrt(3)
		for _, c := range w.f.Instruments[i].Corrections {
			if c.Basis == correct.FromBills { // the meter's kWh, not the monitor's, are billed
				in.Factor, in.FactorDoubt = decimal.NewFromFloat(c.Factor), c.Standard
			}
		}
		in.Usage = tariff.Usage{LossFactor: w.f.Periods[p].LossFactor}
		for d := span.First - before; d < span.End; d++ {
			e := l.At(d)
			if e.State != ledger.Measured {
				continue
			}
			in.Days = append(in.Days, account.DayUse{Day: d, Energy: e.Energy, Measured: true})
			if span.Has(d) {
				in.Usage.Import = append(in.Usage.Import, daySlots(l, d, e.Energy)...)
			}
		}
		w.f.Running, w.f.IsRunning = account.RunTo(w.tariff, in), true
		return
	}
}

// openPeriod finds the last period, if it has begun and nothing of its energy
// is known.
func (w *work) openPeriod() (p int, span calendar.Span, ok bool) {
	last, days, bills := -1, 0, 0
	for i, bill := range w.f.Periods {
		if bill.Given {
			days += bill.Span.Days()
			bills++
		}
		if bill.HasBegun && (last < 0 || bill.Begins > w.f.Periods[last].Begins) {
			last = i
		}
	}
	if last < 0 {
		return 0, span, false
	}
	bill, typed := w.f.Periods[last], w.c.Periods[last]
	if bill.Given || !number.IsBlank(typed.KWh) || !number.IsBlank(typed.Present) {
		return 0, span, false
	}
	if bill.Dated {
		return last, bill.Span, true
	}
	if strings.TrimSpace(typed.To) != "" { // half typed, or wrong
		return 0, span, false
	}
	if end, ok := w.nextMonth(bill.Begins); ok {
		return last, calendar.Span{First: bill.Begins, End: end}, true
	}
	usual := usualDays
	if bills > 0 {
		usual = (days + bills/2) / bills
	}
	return last, calendar.Span{First: bill.Begins, End: bill.Begins + calendar.Day(usual)}, true
}

// nextMonth gives the same day of the next month, if all bills, one at least,
// run from that day of a month to that of the next.
func (w *work) nextMonth(begins calendar.Day) (end calendar.Day, ok bool) {
	_, _, day := begins.Date()
	for _, bill := range w.f.Periods {
		if !bill.Given {
			continue
		}
		_, _, first := bill.Span.First.Date()
		_, _, last := bill.Span.End.Date()
		if ok = first == day && last == day && bill.Span.Days() < 32; !ok {
			return 0, false
		}
	}
	if !ok {
		return 0, false
	}
	year, month, _ := begins.Date()
	return calendar.Date(year+month/12, month%12+1, day)
}
