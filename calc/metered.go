package calc

import (
	"fmt"
	"maps"
	"strconv"

	"splittally/calc/billing"
	"splittally/calc/figure"
	"splittally/calc/ledger"
	"splittally/calc/metered"
	"splittally/calc/paired"
	"splittally/calc/remark"
)

// judgeMeter holds the bills against the meter's own days, if they are known. It
// is one instrument against itself, so that nothing of any accuracy is in it.
func (w *work) judgeMeter() {
	w.midnights = make([]bool, len(w.f.Periods))
	if len(w.f.Meter.Days) == 0 {
		return
	}
	var bills []metered.Bill
	for p, b := range w.f.Periods {
		if !b.Dated {
			continue
		}
		bills = append(bills, metered.Bill{
			Index: p, Span: b.Span, Given: b.Given || b.Zero,
			Billed: b.Reference, Step: b.Resolution, Exported: b.Exported.Energy,
		})
	}
	w.f.Metered, w.f.IsMetered = metered.Judge(w.f.Meter, bills)
	agree := 0
	for _, j := range w.f.Metered.Bills {
		if j.Kind == metered.Agrees && !w.f.Periods[j.Index].HourKnown {
			w.midnights[j.Index], agree = true, agree+1
		}
	}
	if agree > 0 {
		w.f.Notices = append(w.f.Notices, remark.Notice{
			Code: "hours-by-meter", Path: "meter.readings",
			Text: fmt.Sprintf("%s what the meter’s own days add up to from midnight to midnight, so that the hour of the read is no doubt there.", billsHold(agree)),
		})
	}
}

// settleDates answers, where bills leave open which of their dates belong, by
// the meter's own days: if they add up to a bill in one way alone. It says so in
// the last notice, and whether anything was settled.
func (w *work) settleDates() bool {
	if len(w.f.Meter.Days) == 0 {
		return false
	}
	var bills []string
	w.answers = maps.Clone(w.answers) // what was read is remembered by the old ones
	for p, bill := range w.f.Periods {
		id := fmt.Sprintf("periods.%d.convention", p)
		if !bill.Given || len(bill.Ways) < 2 || w.answers[id] != "" {
			continue
		}
		fits := []billing.Convention{}
		for _, way := range bill.Ways {
			r, ok := metered.Judge(w.f.Meter, []metered.Bill{{
				Index: p, Span: way.Span, Given: true, Billed: bill.Reference, Step: bill.Resolution, Exported: bill.Exported.Energy,
			}})
			if ok && r.Agree == 1 {
				fits = append(fits, way.Convention)
			}
		}
		if len(fits) == 1 {
			w.answers[id] = string(fits[0])
			bills = append(bills, strconv.Itoa(p+1))
		}
	}
	if len(bills) == 0 {
		return false
	}
	which := "bill " + bills[0]
	if len(bills) > 1 {
		which = "bills " + figure.Listed(bills)
	}
	w.f.Notices = append(w.f.Notices, remark.Notice{
		Code: "dates-by-meter", Path: "meter.readings",
		Text: "Which dates belong to " + which + " was settled by the meter’s own days: they add up to what was billed in one way alone.",
	})
	return true
}

func billsHold(bills int) string {
	if bills == 1 {
		return "One bill holds"
	}
	return strconv.Itoa(bills) + " bills hold"
}

// pairDays lays each instrument beside the meter's own days.
func (w *work) pairDays() {
	if len(w.f.Meter.Days) == 0 {
		return
	}
	for i := range w.f.Instruments {
		p := w.memory.paired.get(twoLedgers{w.f.Instruments[i].Ledger, w.f.Meter, w.f.Confidence}, sameTwo, pairUp)
		w.f.Instruments[i].Paired, w.f.Instruments[i].IsPaired = p.result, p.done
	}
}

// twoLedgers is all that paired.Compare is given, pairing all that it gives.
type twoLedgers struct {
	monitor, meter ledger.Ledger
	confidence     float64
}

type pairing struct {
	result paired.Result
	done   bool
}

func pairUp(t twoLedgers) pairing {
	r, done := paired.Compare(t.monitor, t.meter, paired.Options{Confidence: t.confidence})
	return pairing{r, done}
}

func sameTwo(a, b twoLedgers) bool {
	return a.confidence == b.confidence && sameLedger(a.meter, b.meter) && sameLedger(a.monitor, b.monitor)
}
