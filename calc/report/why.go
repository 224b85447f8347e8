package report

import (
	"fmt"
	"strconv"
	"strings"

	"splittally/calc"
	"splittally/calc/cause"
	"splittally/calc/say"
)

// argued is how many of the first causes are told with all that speaks for and
// against them.
const argued = 3

// why lists the causes of what an instrument shows, the likeliest first.
func (r *writer) why(i *calc.Instrument) {
	c := i.Causes
	if !c.Done {
		return
	}
	r.section(i.Name + ": why")
	r.text("", c.Words)
	if c.Open > 1 {
		r.text("", "Marked ?: not told apart with these data. The percentage is a cause’s part of the evidence.")
	}
	panel := c.Decide.Panel
	told, others := say.Told(c)
	for n, e := range c.Causes[:told] {
		r.cause(e, n < c.Open && c.Open > 1)
		if n < argued {
			r.evidence(e)
			panel = panel || e.Check.Panel
		}
	}
	r.text("", others)
	if c.Decide.Words != "" {
		r.text("", "What would decide: "+c.Decide.Words)
	}
	if panel {
		r.text("", say.Caution)
	}
}

func (r *writer) cause(e cause.Explanation, open bool) {
	mark := " "
	if open {
		mark = "?"
	}
	name := e.Name
	if !strings.HasSuffix(name, ".") {
		name += "."
	}
	r.text(fmt.Sprintf("%s %10s  ", mark, say.Share(e.Probability)), name+" "+e.How)
}

// evidence tells what a cause would leave, and what speaks for and against it.
func (r *writer) evidence(e cause.Explanation) {
	line := func(what, text string) {
		if text != "" {
			r.text(fmt.Sprintf("%14s%-9s", "", what), text)
		}
	}
	var left []string
	for _, m := range e.Remaining {
		left = append(left, say.Remaining(m))
	}
	line("leaves", strings.Join(left, "; "))
	line("chance", fmt.Sprintf("of as much left, if this is it: %s", say.Chance(e.Fit)))
	for _, s := range e.For {
		line("for", s)
	}
	for _, s := range e.Against {
		line("against", s)
	}
	line("check", e.Check.Words)
	line("remedy", e.Remedy)
}

// fits tells of the line through the periods and of that through the days.
func (r *writer) fits(i *calc.Instrument) {
	r.fit(i.Name+": line over the bills", i.Fitted, i.IsFitted, false)
	r.fit(i.Name+": line over the meter’s own days", i.Daily, i.IsDaily, true)
}

func (r *writer) fit(title string, f calc.Fitted, is, widened bool) {
	if !is {
		return
	}
	r.section(title)
	r.text("", "Errors in both: "+say.Line(f.Line, f.Watts))
	for _, s := range []string{say.LineMeans(f.Line), say.LineFits(f.Line, r.f.Confidence, widened)} {
		r.text("   ", s)
	}
	if o := f.Ordinary; o.Known {
		r.text("", fmt.Sprintf("Ordinary least squares beside it: offset %s kWh a day, gain %s; the points lie %.2g kWh a day about it.",
			say.Factor(o.Offset), say.Factor(o.Gain), o.Residual))
	}
	const few = 24
	if len(f.Points) > few {
		r.text("", say.Counted(len(f.Points), "point", "points")+".")
		return
	}
	for _, p := range f.Points {
		r.line("   %-12s  meter %8.3f ± %.2g, monitor %8.3f ± %.2g kWh a day (standard)", pointName(p), p.Meter, p.MeterDoubt, p.Monitor, p.MonitorDoubt)
	}
}

func pointName(p calc.Point) string {
	if p.Period < 0 {
		return p.Day.Long()
	}
	return "bill " + strconv.Itoa(p.Period+1)
}
