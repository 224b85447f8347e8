// Package report writes the findings of a case as plain text, to be pasted
// into a forum or kept. It reads the two documents and calculates nothing but
// sums of corrected days.
package report

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode/utf8"

	"splittally/calc"
	"splittally/calc/billing"
	"splittally/calc/fill"
	"splittally/calc/ledger"
	"splittally/calc/say"
)

// Text gives the findings in lines of at most about 100 characters.
func Text(c calc.Case, f calc.Findings) string {
	r := &writer{c: c, f: f}
	r.head()
	r.periods()
	r.metered()
	for i := range f.Instruments {
		r.instrument(&f.Instruments[i])
		r.why(&f.Instruments[i])
		r.fits(&f.Instruments[i])
		r.paired(&f.Instruments[i])
		r.corrections(&f.Instruments[i])
	}
	r.legs()
	r.timing()
	r.money()
	r.running()
	r.choices()
	r.loads()
	r.files()
	r.questions()
	r.remarks()
	r.line("")
	r.line("%s", say.Legal)
	return strings.NewReplacer(say.Thin, " ", "\u00a0", " ").Replace(r.b.String())
}

type writer struct {
	b strings.Builder
	c calc.Case
	f calc.Findings
}

func (r *writer) line(format string, args ...any) {
	r.b.WriteString(strings.TrimRight(fmt.Sprintf(format, args...), " "))
	r.b.WriteByte('\n')
}

// width is how many characters a line of text may have.
const width = 100

// text writes words behind a lead, in lines that fit into the width; further
// lines are set in as far as the lead. Without words it writes nothing.
func (r *writer) text(lead, words string) {
	if words == "" {
		return
	}
	inset := strings.Repeat(" ", min(utf8.RuneCountInString(lead), width/4))
	line, isFirst := lead, true
	for _, word := range strings.Split(words, " ") {
		if !isFirst && utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > width {
			r.line("%s", line)
			line, isFirst = inset, true
		}
		if !isFirst {
			line += " "
		}
		line, isFirst = line+word, false
	}
	r.line("%s", line)
}

func (r *writer) section(title string) {
	r.line("")
	r.line("%s", strings.ToUpper(title))
}

func (r *writer) head() {
	title := r.c.Title
	if title == "" {
		title = "A case without a name"
	}
	r.line("%s", title)
	r.line("Percentage error = 100 × (monitor − meter) / meter. ± is the %g %% interval.", 100*r.f.Confidence)
	for _, i := range r.f.Instruments {
		r.line("")
		r.line("%s", Verdict(i))
	}
}

// Verdict is the leading sentence about one instrument: over all periods if
// there are several, else over the one.
func Verdict(i calc.Instrument) string {
	if i.IsPooled {
		return say.Pooled(i.Name, i.Pooled)
	}
	for _, res := range i.Results {
		if res.Compares() {
			return say.Verdict(i.Name, res.Compared)
		}
	}
	for _, res := range i.Results {
		if res.Waits != "" {
			return fmt.Sprintf("Nothing to compare for %s yet: %s.", i.Name, res.Waits)
		}
	}
	return fmt.Sprintf("Nothing to compare for %s yet: there is no bill.", i.Name)
}

func (r *writer) periods() {
	r.section("The bills")
	for n, p := range r.f.Periods {
		switch {
		case !p.Dated:
			r.line("%d. %s", n+1, p.Waits)
		case !p.Given:
			r.line("%d. %s, %s: %s", n+1, p.Span, say.Counted(p.Days(), "day", "days"), p.Waits)
		default:
			r.line("%d. %s, %s (%s): %s kWh%s", n+1, p.Span, say.Counted(p.Days(), "day", "days"), p.Convention.Words(),
				p.Reference.Decimal(), estimated(p))
		}
	}
	if len(r.f.Periods) == 0 {
		r.line("none")
	}
}

func estimated(p billing.Statement) string {
	if p.StartEstimated || p.EndEstimated {
		return ", rests on an estimated read"
	}
	return ""
}

func (r *writer) instrument(i *calc.Instrument) {
	r.section(i.Name)
	for n, res := range i.Results {
		span := r.f.Periods[n].Span
		if len(res.Filled.Days) == 0 {
			r.line("%d. %s", n+1, res.Waits)
			continue
		}
		r.line("%d. %s", n+1, span)
		r.line("   total %s kWh; %s", res.Filled.Total.Text(3), howFilled(res.Filled))
		r.days(res.Filled)
		if res.Compares() {
			r.comparison(n, res)
		} else {
			r.line("   waits: %s", res.Waits)
		}
	}
	for _, o := range i.Odd {
		r.line("   odd: %s", o.Text)
	}
	if i.IsPooled {
		r.line("All periods: %s; E_n %s", say.Error(i.Pooled.Total), say.Fixed(i.Pooled.Total.En, 2))
		r.line("   mean weighted by what is known: %s", say.Percentage(i.Pooled.Mean.Value, i.Pooled.Mean.Expanded))
		for _, s := range []string{say.Consistency(i.Pooled), say.Drift(i.Pooled)} {
			if s != "" {
				r.line("   %s", s)
			}
		}
	}
}

func howFilled(f fill.Result) string {
	if f.Filled == 0 {
		return fmt.Sprintf("all %d days measured", len(f.Days))
	}
	chosen := "as set"
	switch {
	case f.Chosen:
		chosen = "chosen by trial"
	case f.Method == fill.Hours:
		chosen = "as much of each was measured"
	}
	var ways []string
	for _, w := range f.Ways() {
		ways = append(ways, fmt.Sprintf("%d by %s", w.Days, w.Method))
	}
	return fmt.Sprintf("%d of %d days filled (%s; %s): ± %s kWh (standard)", f.Filled, len(f.Days), strings.Join(ways, ", "), chosen, say.Interval(f.Standard))
}

func (r *writer) days(f fill.Result) {
	for _, d := range f.Days {
		switch {
		case d.Filled:
			r.line("   filled: %s  %s kWh", d.Day.Long(), d.Energy.Text(2))
		case d.State == ledger.Spread:
			r.line("   shared: %s  %s kWh of a total over several days", d.Day.Long(), d.Energy.Text(2))
		}
	}
	for _, t := range f.Trials {
		if t.Tries == 0 {
			continue
		}
		r.line("   trial: %-9s %2d tries, off by %s kWh (root mean square), %s kWh on average", t.Method, t.Tries, say.Interval(t.RMS), say.Fixed(t.Mean, 2))
	}
}

func (r *writer) comparison(n int, res calc.Result) {
	c := res.Compared
	r.line("   meter %s kWh, monitor %s kWh", c.Reference.Energy.Text(3), c.Indicated.Energy.Text(3))
	r.line("   error %s, registration %s %%, E_n %s: %s", say.Error(c), c.Registration.StringFixed(2), say.Fixed(c.En, 2), say.Short(c.Verdict))
	r.line("   %s", say.Why(c))
	r.line("   k = %.2f, %s degrees of freedom; both instruments promise ± %s %%", c.Coverage, say.Degrees(c.DoF), say.Interval(c.Promise))
	for i, share := range c.Budget.Shares() {
		p := c.Budget[i]
		assumed := ""
		if p.Assumed {
			assumed = ", assumed"
		}
		r.line("   %5.1f %%  %s: ± %.4g %s %s%s -> %.3f %%", 100*share, p.Name, p.HalfWidth, p.Unit, p.Distribution, assumed, math.Abs(p.Standard))
	}
	if c.WrongBase.Valid {
		r.line("   divided by the monitor’s figure instead it would be %s %%, which is not the percentage error", say.Fixed(c.WrongBase.Decimal.InexactFloat64(), 2))
	}
	for k, s := range res.Shifts {
		mark := ""
		if k == res.Best {
			mark = "  <- smallest"
		}
		r.line("   start %+d, end %+d days: %s %%%s", s.Start, s.End, say.Fixed(s.Percent.InexactFloat64(), 2), mark)
	}
	for _, way := range res.Ways {
		if way.Known {
			r.line("   if %s: %s, %s %%", way.Way.Convention.Words(), way.Way.Span, say.Fixed(way.Percent.InexactFloat64(), 2))
		}
	}
}

func (r *writer) questions() {
	if len(r.f.Questions) == 0 {
		return
	}
	r.section("Questions")
	for _, q := range r.f.Questions {
		r.line("%s: %s %s", say.Place(q.Path), q.Asks, q.Why)
		for _, ch := range q.Choices {
			mark := " "
			if ch.ID == q.Taken {
				mark = "?"
				if q.Answered {
					mark = "x"
				}
			}
			r.line("   [%s] %s: %s", mark, ch.Label, ch.Gives)
		}
	}
}

func (r *writer) remarks() {
	if len(r.f.Problems) > 0 {
		r.section("Wrong")
		for _, p := range r.f.Problems {
			r.line("%s: %s", say.Place(p.Path), p)
		}
	}
	if len(r.f.Notices) > 0 {
		r.section("Noted")
		for _, n := range r.f.Notices {
			r.line("%s: %s", say.Place(n.Path), n.Text)
		}
	}
	if slices.ContainsFunc(r.f.Readings, func(t calc.Readings) bool { return len(t.Lines) > 0 }) {
		r.section("Lines pasted")
		for i, t := range r.f.Readings {
			if len(t.Lines) == 0 {
				continue
			}
			r.line("monitor %d: %d used, %d ignored, %d wrong; unit %s", i+1, t.Used, t.Ignored, t.Wrong, t.Unit)
		}
	}
}
