package calc

import (
	"fmt"
	"math"

	"splittally/calc/billing"
	"splittally/calc/calendar"
	"splittally/calc/cause"
	"splittally/calc/compare"
	"splittally/calc/fill"
	"splittally/calc/ledger"
	"splittally/calc/remark"
	"splittally/calc/uncertainty"
)

// total is an instrument's energy over a period with all that is in doubt
// about it.
type total struct {
	Filled fill.Result
	amount compare.Amount
}

// total adds up an instrument's days for the span and gathers the parts of the
// budget that belong to its side. offset is the hours between the midnights at
// its ends and the reads there.
func (w *work) total(i, p int, span calendar.Span, offset float64) (total, error) {
	inst := &w.f.Instruments[i]
	bill := w.f.Periods[p]
	filled, err := w.fill(fill.Request{Ledger: inst.Ledger, Span: span, Others: w.others(i), Method: w.method(i)})
	if err != nil {
		return total{}, err
	}
	t := total{Filled: filled, amount: compare.Amount{Energy: filled.Total}}
	t.amount.AddOfReading(w.accuracy(inst.Monitor))
	t.addRounding(inst.Ledger, span)
	t.addFilling()
	t.addCutTotals(inst.Ledger, span)
	switch {
	case bill.HourKnown:
		err = t.moveToHour(w, i, p, span, offset)
	case span == bill.Span && w.midnights[p]:
	default:
		t.addUnknownHour(inst.Ledger, bill, span)
	}
	return t, err
}

// accuracySource names the stated accuracy of a monitor, one cause in all it counted.
func accuracySource(monitor int) string { return fmt.Sprintf("accuracy of monitor %d", monitor) }

// addRounding is what the last digit of each daily figure hides.
func (t *total) addRounding(l ledger.Ledger, span calendar.Span) {
	n, squares := 0, 0.0
	for d := span.First; d < span.End; d++ {
		if e := l.At(d); (e.State == ledger.Measured || e.State == ledger.Spread) && e.Rounding > 0 {
			n++
			squares += e.Rounding.KilowattHours() * e.Rounding.KilowattHours()
		}
	}
	if n > 0 {
		t.amount.Add(uncertainty.Part{
			Name: "Rounding of the daily totals", HalfWidth: math.Sqrt(squares / float64(n)), Unit: "kWh",
			Distribution: uncertainty.Rectangular, Repeats: n,
		})
	}
}

// addFilling is the doubt of the filled days, found by trial.
func (t *total) addFilling() {
	if t.Filled.Filled == 0 {
		return
	}
	t.amount.Add(uncertainty.Part{
		Name: cause.FilledName, HalfWidth: t.Filled.Standard, Unit: "kWh", DoF: t.Filled.DoF,
		Distribution: uncertainty.Student, Reducible: true, Remedy: "find the figures of the missing days",
	})
}

// addCutTotals is the doubt of totals over several days that the period's edge
// cuts: if days vary by s about their mean, k of n days whose sum is known
// hold that sum's share within s·√(k(n−k)/n).
func (t *total) addCutTotals(l ledger.Ledger, span calendar.Span) {
	done := map[calendar.Span]bool{}
	for _, edge := range []calendar.Day{span.First, span.Last()} {
		e := l.At(edge)
		if e.State != ledger.Spread || done[e.Total] {
			continue
		}
		done[e.Total] = true
		n, k := float64(e.Total.Days()), float64(span.Common(e.Total).Days())
		if n == k {
			continue
		}
		t.amount.Add(uncertainty.Part{
			Name:      "Total over several days, cut by the end of the period",
			HalfWidth: ledger.DailySpread * e.Energy.KilowattHours() * math.Sqrt(k*(n-k)/n), Unit: "kWh", Distribution: uncertainty.Normal,
			Assumed: true, Reducible: true, Remedy: "find the daily figures around the end of the period",
		})
	}
}

// end is one end of a period: the read there, and the sign with which energy
// before that read counts.
type end struct {
	read  string // its identity, for the source
	words string
	sign  float64
}

func ends(b billing.Statement) [2]end {
	words := func(d calendar.Day) string {
		if b.Convention == billing.LastExcluded {
			return "read on " + d.Long()
		}
		return "read after " + (d - 1).Long()
	}
	return [2]end{{b.StartRead, words(b.Span.First), -1}, {b.EndRead, words(b.Span.End), 1}}
}

// notices gives what filling had to say of a period, with the instrument in front.
func (t *total) notices(name string, p int) []remark.Notice {
	var out []remark.Notice
	for _, n := range t.Filled.Notices {
		n.Path = fmt.Sprintf("periods.%d", p)
		n.Text = name + ": " + n.Text
		out = append(out, n)
	}
	return out
}

// meterClass is the doubt of the accuracy class of the meter.
func (w *work) meterClass() uncertainty.Part {
	return uncertainty.Part{
		Source: "class of the meter", Name: "Accuracy class of the utility’s meter",
		HalfWidth: w.settings.class.value, Distribution: uncertainty.Rectangular, Promise: true, Assumed: w.settings.class.assumed,
	}
}

// reference is the meter's side of a period with its parts of the budget.
func (w *work) reference(p int) compare.Amount {
	bill := w.f.Periods[p]
	a := compare.Amount{Energy: bill.Reference}
	a.AddOfReading(w.meterClass())
	// The reference is the metered energy, the figure on the bill may hold losses.
	scale := bill.Reference.KilowattHours()
	if billed := bill.Billed.KilowattHours(); billed != 0 {
		scale /= billed
	}
	step := bill.Resolution.KilowattHours()
	if bill.FromReads {
		for _, end := range ends(bill) {
			a.Add(uncertainty.Part{
				Source: end.read + ", register", Name: "Last digit of the " + end.words, HalfWidth: step / 2,
				Unit: "kWh", Sensitivity: end.sign * scale, Distribution: uncertainty.Rectangular,
			})
		}
	} else {
		// Billed energy is the difference of two reads, each cut to whole steps.
		a.Add(uncertainty.Part{
			Name: "Last digit of the billed energy", HalfWidth: step, Unit: "kWh",
			Sensitivity: scale, Distribution: uncertainty.Triangular,
		})
	}
	if bill.StartEstimated {
		a.EstimatedReads = append(a.EstimatedReads, bill.StartRead)
	}
	if bill.EndEstimated {
		a.EstimatedReads = append(a.EstimatedReads, bill.EndRead)
	}
	return a
}
