package report

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"splittally/calc"
	"splittally/calc/account"
	"splittally/calc/say"
	"splittally/calc/tariff"
)

// money tells of each bill by the household's tariff, and of what the
// disagreement is worth.
func (r *writer) money() {
	if !r.hasMoney() {
		return
	}
	r.section("Money")
	for _, a := range r.f.Accounts {
		if r.isAccount(a) {
			r.account(a)
		}
	}
	r.worth()
}

func (r *writer) hasMoney() bool {
	return slices.ContainsFunc(r.f.Accounts, r.isAccount) ||
		slices.ContainsFunc(r.f.Instruments, func(i calc.Instrument) bool { return i.IsWorth })
}

// isAccount says whether there is anything to tell of a bill: lines, or why
// there are none.
func (r *writer) isAccount(a account.Account) bool {
	return len(a.Pairs)+len(a.Notices)+len(a.Skipped) > 0 && a.Period < len(r.f.Periods)
}

func (r *writer) account(a account.Account) {
	r.line("Bill %d, %s%s", a.Period+1, r.f.Periods[a.Period].Span, inCode(a.Currency))
	isPrinted := a.HasTotal || slices.ContainsFunc(a.Pairs, func(p account.Pair) bool { return p.At >= 0 })
	t := &bill{writer: r, isPrinted: isPrinted}
	t.row("", "printed", "computed", "apart", "")
	c := bare(a.Currency)
	for _, p := range a.Pairs {
		t.pair(a, p, c)
	}
	printed, off := "—", "—"
	if a.HasTotal {
		printed, off = c.Text(a.Total), say.Apart(a.Off, c)
	}
	t.row("Total", printed, c.Text(a.Priced.Total), off, "")
	for _, words := range a.Words {
		r.text("   ", words)
	}
	r.solved(a.Solved)
	r.hours(a.Priced)
	r.text("   ", say.Netting(a.Priced))
	r.text("   ", say.TaxIn(a.Priced))
	for _, n := range append(slices.Clone(a.Skipped), a.Notices...) {
		r.text("   ", n.Text)
	}
}

// inCode names the currency for a table whose amounts leave it out.
func inCode(c tariff.Currency) string {
	if c.Code == "" {
		return ""
	}
	return ", in " + c.Code
}

func bare(c tariff.Currency) tariff.Currency {
	c.Code = ""
	return c
}

// bill writes the table of a bill, with the printed amounts if there are any.
type bill struct {
	*writer
	isPrinted bool
}

const (
	nameWidth   = 34
	amountWidth = 10
)

// row writes a row of the table; a long name has a line of its own.
func (t *bill) row(name, printed, computed, off, how string) {
	if utf8.RuneCountInString(name) > nameWidth {
		t.line("   %s", name)
		name = ""
	}
	lead := fmt.Sprintf("   %-*s", nameWidth, name)
	cells := []string{computed}
	if t.isPrinted {
		cells = []string{printed, computed, off}
	}
	for _, cell := range cells {
		lead += fmt.Sprintf(" %*s", amountWidth, cell)
	}
	if how != "" && utf8.RuneCountInString(lead)+3+utf8.RuneCountInString(how) > width {
		t.line("%s", lead)
		t.line("      %s", how)
		return
	}
	t.line("%s   %s", lead, how)
}

func (t *bill) pair(a account.Account, p account.Pair, c tariff.Currency) {
	printed, computed, off := "—", "—", "—"
	switch {
	case p.HasPrinted:
		printed = c.Text(p.Printed)
	case p.Typed != "":
		printed = p.Typed + " ?"
	}
	if p.Line >= 0 {
		computed = c.Text(p.Computed)
		if p.HasPrinted {
			off = say.Apart(p.Off, c)
		}
	}
	a.Currency = c
	t.row(p.Name, printed, computed, off, say.ReckonedPair(a, p))
	t.text("      ", p.Reason)
}

func (r *writer) solved(v account.Solved) {
	if v.Asked {
		r.text("   Looked for: ", v.Words)
	}
}

// hours tells the parts of the times of use, if they are assumed: else the lines
// say it all.
func (r *writer) hours(p tariff.Priced) {
	if !p.IsAssumed {
		return
	}
	var parts []string
	for _, u := range p.Uses {
		if u.Assumed {
			parts = append(parts, u.Name+" "+u.KWh.StringFixed(2)+" kWh")
		}
	}
	r.text("   ", "Assumed: "+strings.Join(parts, ", ")+". "+say.AssumedHours(p))
}

// worth tells what the disagreement costs: bill by bill, and over a year.
func (r *writer) worth() {
	isFirst := true
	for _, i := range r.f.Instruments {
		if !i.IsWorth {
			continue
		}
		if isFirst {
			r.text("", say.WorthMeans)
			isFirst = false
		}
		for n, res := range i.Results {
			if res.IsPriced {
				r.worthOf(fmt.Sprintf("%s, %d: ", i.Name, n+1), res.Worth)
			}
		}
		c := i.Worth.Indicated.Currency
		r.text(i.Name+": ", fmt.Sprintf("%s in all; a year of 365.25 days comes to %s.",
			say.Worth(i.Worth.Value, i.Worth.Expanded, c), say.Worth(i.Worth.PerYear, i.Worth.YearDoubt, c)))
	}
}

func (r *writer) worthOf(lead string, w account.Worth) {
	c := w.Reference.Currency
	assumed := ""
	if w.Indicated.IsAssumed || w.Reference.IsAssumed {
		assumed = " (hours assumed)"
	}
	r.text(lead, fmt.Sprintf("by the meter %s, by the monitor %s%s: %s apart. One kWh more costs %s; %s kWh are worth %s.",
		c.Text(w.Reference.Total), c.Text(w.Indicated.Total), assumed, say.Plus(w.Difference, c),
		say.Marginal(w), say.Fixed(w.Energy.InexactFloat64(), 2), say.Worth(w.Value, w.Expanded, c)))
	if w.IsAcross {
		r.text("   ", say.AcrossEdge)
	}
}

// running tells what the period that is not billed yet comes to.
func (r *writer) running() {
	if !r.f.IsRunning {
		return
	}
	r.section("The running bill")
	run := r.f.Running
	c := run.ToDate.Currency
	r.line("%s, read through %s", run.Span, run.Through.Long())
	r.line("   so far: %s kWh, %s", run.EnergySoFar.StringFixed(1), c.Text(run.ToDate.Total))
	if len(run.Projected.Lines) > 0 {
		r.line("   at the end: %s%s%s kWh, %s; between %s and %s", run.Energy.StringFixed(1), say.PlusMinus, say.Interval(run.EnergyDoubt),
			c.Text(run.Projected.Total), c.Text(run.Low), c.Text(run.High))
		t := &bill{writer: r}
		t.row("", "", "computed", "", "")
		for _, l := range run.Projected.Lines {
			t.row(l.Name, "", bare(c).Text(l.Amount), "", say.Reckoned(l, bare(c)))
		}
		t.row("Total", "", bare(c).Text(run.Projected.Total), "", "")
		r.hours(run.Projected)
	}
	for _, words := range run.Words {
		r.text("   ", words)
	}
}

// choices ranks the tariffs by what they cost for the same energy.
func (r *writer) choices() {
	if len(r.f.Choices) == 0 {
		return
	}
	r.section("Tariffs, the cheapest first")
	common := say.InCommon(r.f.Choices)
	for n, ch := range r.f.Choices {
		c := r.currencyOf(ch.Plan)
		yours, more := "", ""
		if ch.Plan == 0 {
			yours = " (yours)"
		}
		if !ch.More.IsZero() {
			more = ", " + c.Text(ch.More) + " more"
		}
		r.text(fmt.Sprintf("%d. ", n+1), fmt.Sprintf("%s%s: %s for these bills, %s a year%s.", ch.Name, yours, c.Text(ch.Total), c.Text(ch.PerYear), more))
		for _, words := range ch.Words {
			if !slices.Contains(common, words) {
				r.text("   ", words)
			}
		}
	}
	for _, words := range common {
		r.text("", words)
	}
}

func (r *writer) currencyOf(plan int) tariff.Currency {
	if plan < len(r.f.Plans) {
		return r.f.Plans[plan].Tariff.Currency
	}
	return r.f.Plan.Currency
}
