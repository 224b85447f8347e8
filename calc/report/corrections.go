package report

import (
	"fmt"
	"strings"

	"splittally/calc"
	"splittally/calc/calendar"
	"splittally/calc/correct"
	"splittally/calc/energy"
	"splittally/calc/fit"
	"splittally/calc/say"
)

// corrections tells what to set, and how that does on each bill. The corrected
// days are told by their sums over the bills.
func (r *writer) corrections(i *calc.Instrument) {
	if len(i.Corrections) == 0 {
		return
	}
	r.section(i.Name + ": corrections")
	r.text("", say.Reserve(i.Causes))
	for _, c := range i.Corrections {
		r.text("", say.Multiply(fit.Value{Value: c.Factor, Expanded: c.Expanded})+" "+c.Words)
		for _, set := range c.Settings {
			name := set.Name
			if name == "" {
				name = "Overall setting"
			}
			r.text("   "+name+": ", set.Words())
		}
		r.text("   ", c.How)
		for _, j := range c.Judged {
			r.text("   ", judged(j, c.Basis))
		}
		r.correctedDays(c)
	}
}

// judged says what a correction would do to a bill, and that on a bill which it
// was found on nothing judges it.
func judged(j correct.Judged, basis correct.Basis) string {
	bills := append([]int{j.Period}, j.With...)
	name := capital(say.Bills(bills))
	it := "it"
	if len(bills) > 1 {
		name, it = name+" together", "them"
	}
	before := say.Fixed(j.Before, 2) + say.Thin + "%"
	if !j.HeldOut {
		return fmt.Sprintf("%s: %s. The factor was found on %s, so there is no test.", name, before, it)
	}
	by := ""
	if basis == correct.FromBills {
		by = " by a factor found on other bills"
	}
	return fmt.Sprintf("%s: %s would become %s%s: %s.", name, before, say.Percentage(j.After, j.Expanded), by, say.Short(j.Verdict))
}

func capital(text string) string { return strings.ToUpper(text[:1]) + text[1:] }

func (r *writer) correctedDays(c correct.Correction) {
	if len(c.Days) == 0 {
		return
	}
	r.text("   ", say.Counted(len(c.Days), "day", "days")+" corrected.")
	for n, p := range r.f.Periods {
		if sum, ok := sumOf(c.Days, p.Span); ok && p.Dated {
			r.text("   ", sum.words(n))
		}
	}
}

// summed is what a correction makes of the days of one bill.
type summed struct {
	days, filled   int
	was, corrected energy.Energy
}

// sumOf adds up the corrected days of a span; ok is false if it has none or
// their sum does not fit into an Energy.
func sumOf(days []correct.Day, span calendar.Span) (s summed, ok bool) {
	for _, d := range days {
		if !span.Has(d.Day) {
			continue
		}
		var tooBig, tooBigNow error
		s.was, tooBig = s.was.Add(d.Was)
		s.corrected, tooBigNow = s.corrected.Add(d.Corrected)
		if tooBig != nil || tooBigNow != nil {
			return summed{}, false
		}
		s.days++
		if d.Filled {
			s.filled++
		}
	}
	return s, s.days > 0
}

func (s summed) words(period int) string {
	filled := ""
	if s.filled > 0 {
		filled = fmt.Sprintf(", %d of them filled", s.filled)
	}
	return fmt.Sprintf("Bill %d, %s%s: %s kWh becomes %s kWh.", period+1, say.Counted(s.days, "day", "days"), filled, s.was.Text(3), s.corrected.Text(3))
}
