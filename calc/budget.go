package calc

import (
	"fmt"
	"math"

	"splittally/calc/billing"
	"splittally/calc/calendar"
	"splittally/calc/cause"
	"splittally/calc/compare"
	"splittally/calc/energy"
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
	accuracy := w.settings.accuracy[inst.Monitor]
	t.amount.AddOfReading(uncertainty.Part{
		Source: accuracySource(inst.Monitor), Name: "Stated accuracy of the monitor",
		HalfWidth: accuracy.value, Distribution: uncertainty.Rectangular, Promise: true, Assumed: accuracy.assumed,
	})
	t.addRounding(inst.Ledger, span)
	t.addFilling()
	t.addCutTotals(inst.Ledger, span)
	if bill.HourKnown {
		err = t.moveToHour(w, i, p, span, offset)
	} else {
		t.addUnknownHour(bill)
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

// addUnknownHour is the doubt of a read at an unknown hour: up to half a day's
// energy at either end. The period is left at its midnights, where most meters
// that report by themselves are read; two reads by hand are mostly at like hours
// of the day, so that what a late one misses at one end it has at the other.
// The read between two periods is one cause and all but drops out of their sum.
func (t *total) addUnknownHour(bill billing.Statement) {
	each := t.Filled.Total.KilowattHours() / float64(len(t.Filled.Days))
	for _, e := range ends(bill) {
		t.amount.Add(uncertainty.Part{
			Source: e.read + ", hour", Name: "Hour of the " + e.words + " unknown",
			HalfWidth: math.Abs(each) / 2, Unit: "kWh", Sensitivity: e.sign, Distribution: uncertainty.Rectangular,
			Reducible: true, Remedy: "say at what hour the meter was read",
		})
	}
}

// hourShape is how far the share of a day's energy used before an hour lies
// from the share of the day gone by, for a part f of the day: about
// hourShape·f·(1−f) of the day's energy. It was found on the half-hours of four
// homes, where it is 0.5 to 1.2 (root mean square over days).
const hourShape = 0.85

// moveToHour takes the period from hour to hour instead of midnight to
// midnight, offset hours from the midnights that begin and end the span: it
// trades the part of a day at its start for the like part at its end. Days are
// taken as evenly used, which the budget says.
func (t *total) moveToHour(w *work, i, p int, span calendar.Span, offset float64) error {
	if offset == 0 {
		return nil
	}
	bill, part := w.f.Periods[p], offset/24
	at := calendar.Span{First: span.First, End: span.End + 1} // the days cut at the start and at the end
	if offset < 0 {
		at = calendar.Span{First: span.First - 1, End: span.End}
	}
	longer, err := w.fill(fill.Request{Ledger: w.f.Instruments[i].Ledger, Span: at, Others: w.others(i), Method: w.method(i)})
	if err != nil {
		return err
	}
	cut := [2]energy.Energy{longer.Days[0].Energy, longer.Days[len(longer.Days)-1].Energy}
	t.amount.Energy += share(cut[1], part) - share(cut[0], part)
	for k, e := range ends(bill) {
		t.amount.Add(uncertainty.Part{
			Source:    fmt.Sprintf("%s, part of the day, instrument %d", e.read, i),
			Name:      "Part of the day cut by the " + e.words,
			HalfWidth: hourShape * math.Abs(part) * (1 - math.Abs(part)) * math.Abs(cut[k].KilowattHours()),
			Unit:      "kWh", Sensitivity: e.sign, Distribution: uncertainty.Normal,
		})
	}
	return nil
}

// share gives a part of a day, to the microwatt-hour.
func share(day energy.Energy, part float64) energy.Energy {
	return energy.Energy(math.RoundToEven(float64(day) * part))
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

// reference is the meter's side of a period with its parts of the budget.
func (w *work) reference(p int) compare.Amount {
	bill := w.f.Periods[p]
	a := compare.Amount{Energy: bill.Reference}
	a.AddOfReading(uncertainty.Part{
		Source: "class of the meter", Name: "Accuracy class of the utility’s meter",
		HalfWidth: w.settings.class.value, Distribution: uncertainty.Rectangular, Promise: true, Assumed: w.settings.class.assumed,
	})
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
