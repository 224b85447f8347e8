package report

import (
	"fmt"
	"strings"

	"splittally/calc"
	"splittally/calc/calendar"
	"splittally/calc/correct"
	"splittally/calc/energy"
	"splittally/calc/ledger"
	"splittally/calc/say"
)

// corrections tells what to set, and how that does on each bill. The corrected
// days are told by their sums over the bills.
func (r *writer) corrections(i *calc.Instrument) {
	if len(i.Corrections) == 0 {
		return
	}
	r.section(i.Name + ": corrections")
	r.text("", say.Reserve(i.Causes, i.Corrections))
	for _, c := range i.Corrections {
		r.text("", say.Multiply(c)+" "+c.Words)
		if why := say.NoRemedy(i.Causes, c); why != "" {
			r.text("   ", why+".")
		} else {
			r.settings(c)
		}
		for _, j := range c.Judged {
			r.text("   ", judged(c, j))
		}
		r.correctedDays(c)
	}
}

func (r *writer) settings(c correct.Correction) {
	for _, set := range c.Settings {
		name := set.Name
		if name == "" {
			name = "Overall setting"
		}
		words := set.Words()
		if inverse := say.Inverse(set); inverse != "" {
			words += " Where its figure falls when the setting rises, set " + inverse + "."
		}
		r.text("   "+name+": ", words)
	}
	r.text("   ", c.How)
}

// judged says what a correction does to a bill, and that on a bill which it was
// found on nothing judges it.
func judged(c correct.Correction, j correct.Judged) string {
	said := capital(say.Judged(j)) + ": " + say.Fixed(j.Before, 2) + say.Thin + "%"
	if why := say.NoTest(c, j); why != "" {
		return said + "; as set it would be " + say.Fixed(j.Predicted, 2) + say.Thin + "% (" + why + ")."
	}
	by := ""
	if c.Basis == correct.FromBills {
		by = " by a factor found on other bills"
	}
	return fmt.Sprintf("%s would become %s%s: %s.", said, say.Percentage(j.After, j.Expanded), by, say.Short(j.Verdict))
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
	shared, part   int
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
		switch {
		case d.Filled:
			s.filled++
		case d.State == ledger.Spread:
			s.shared++
		case d.State == ledger.Partial:
			s.part++
		}
	}
	return s, s.days > 0
}

func (s summed) words(period int) string {
	how := ""
	for _, k := range []struct {
		n    int
		said string
	}{{s.filled, "filled"}, {s.shared, "from a longer total"}, {s.part, "measured in part"}} {
		if k.n > 0 {
			how += fmt.Sprintf(", %d of them %s", k.n, k.said)
		}
	}
	return fmt.Sprintf("Bill %d, %s%s: %s kWh becomes %s kWh.", period+1, say.Counted(s.days, "day", "days"), how, s.was.Text(3), s.corrected.Text(3))
}
