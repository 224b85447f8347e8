package calc

import (
	"fmt"
	"strings"

	"github.com/shopspring/decimal"

	"splittally/calc/intake"
	"splittally/calc/ledger"
	"splittally/calc/remark"
)

// The ways to take several columns of one text.
const (
	columnsApart = "apart" // each is an instrument of its own
	columnsLegs  = "legs"  // they are the legs of one home and add up
)

// addInstruments makes instruments of the columns of a monitor's text: one of
// each, or one of all if they are its legs.
func (w *work) addInstruments(monitor int, read intake.Result) {
	if w.mayBeLegs(read.Ledgers) {
		sum, err := ledger.Sum(read.Ledgers, w.instrumentName(monitor, "", 1))
		if err == nil && w.columns(monitor, read.Ledgers, sum) == columnsLegs {
			w.f.Instruments = append(w.f.Instruments, Instrument{
				Monitor: monitor, Name: w.instrumentName(monitor, "", 1), Ledger: sum, Odd: ledger.Odd(sum),
				Legs: read.Ledgers, Shares: ledger.Shares(read.Ledgers, sum.Span()),
			})
			return
		}
	}
	for _, l := range read.Ledgers {
		w.f.Instruments = append(w.f.Instruments, Instrument{
			Monitor: monitor, Name: w.instrumentName(monitor, l.Name, len(read.Ledgers)), Ledger: l, Odd: ledger.Odd(l),
		})
	}
}

// mayBeLegs says that it must be asked whether columns are legs: their names say
// so, or a bill is near their sum and far above each.
func (w *work) mayBeLegs(columns []ledger.Ledger) bool {
	return len(columns) > 1 && len(columns) <= 3 && (legNames(columns) || w.addUpToBill(columns))
}

// columns asks whether columns are legs.
func (w *work) columns(monitor int, columns []ledger.Ledger, sum ledger.Ledger) string {
	q := remark.Question{
		ID: fmt.Sprintf("monitors.%d.columns", monitor), Path: fmt.Sprintf("monitors.%d.readings", monitor),
		Asks: fmt.Sprintf("Are the %d columns the legs of one home, to be added up?", len(columns)),
		Why:  "Their names are those of legs.",
		Choices: []remark.Choice{
			{ID: columnsLegs, Label: "legs that add up", Gives: "one instrument, " + kWhInAll(sum)},
			{ID: columnsApart, Label: "instruments of their own", Gives: eachInAll(columns)},
		},
	}
	if !legNames(columns) {
		q.Why = "The bill is near their sum, and far above each of them."
	}
	taken := q.Settle(w.answers, columnsLegs)
	w.f.Questions = append(w.f.Questions, q)
	return taken
}

// legNames says that all columns have names of legs or phases, no two alike.
func legNames(columns []ledger.Ledger) bool {
	seen := map[string]bool{}
	for _, c := range columns {
		name := strings.ToLower(strings.TrimSpace(c.Name))
		if seen[name] || !intake.IsLeg(name) {
			return false
		}
		seen[name] = true
	}
	return true
}

// How near a bill the sum of legs must be, and how far each below it, in parts
// of the bill, for the columns to be asked about.
const (
	sumNear  = 0.15
	eachFar  = 0.75
	daysWant = 0.9 // part of the days that must be measured
)

func (w *work) addUpToBill(columns []ledger.Ledger) bool {
	for _, bill := range w.f.Periods {
		if !bill.Given || bill.Reference <= 0 {
			continue
		}
		reference, sum, fits := bill.Reference.KilowattHours(), 0.0, true
		for _, c := range columns {
			if float64(c.Count(bill.Span, ledger.Measured)) < daysWant*float64(bill.Days()) {
				fits = false
				break
			}
			own := 0.0
			for d := bill.Span.First; d < bill.Span.End; d++ {
				own += c.At(d).Energy.KilowattHours()
			}
			fits = fits && own > 0 && own < eachFar*reference
			sum += own
		}
		if fits && sum > (1-sumNear)*reference && sum < (1+sumNear)*reference {
			return true
		}
	}
	return false
}

// kWhInAll says what a column comes to over all its days.
func kWhInAll(l ledger.Ledger) string {
	sum := decimal.Zero
	for _, d := range l.Days {
		sum = sum.Add(d.Energy.Decimal())
	}
	return sum.StringFixed(1) + " kWh in all"
}

func eachInAll(columns []ledger.Ledger) string {
	var out []string
	for _, c := range columns {
		out = append(out, c.Name+" "+kWhInAll(c))
	}
	return strings.Join(out, ", ")
}
