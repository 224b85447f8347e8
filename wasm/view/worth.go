package view

import (
	"slices"
	"strconv"

	"splittally/calc/account"
	"splittally/calc/chart/markup"
	"splittally/calc/remark"
	"splittally/calc/say"
	"splittally/calc/tariff"
)

// worth tells what the disagreement costs: bill by bill, and over a year.
func (s *sheet) worth() markup.Markup {
	heads := []string{"Monitor", "Bill by its figures", "Apart", "One kWh more costs", "Worth ± " + s.confidence()}
	var bodies []markup.Part
	for period := range s.f.Periods {
		var rows []markup.Part
		for _, p := range s.compared() {
			if p.period == period && len(p.Worth.Indicated.Lines) > 0 {
				rows = append(rows, s.worthRow(p, heads))
			}
		}
		if len(rows) > 0 {
			bodies = append(bodies, tbody(append([]markup.Part{s.groupRow(period, len(heads))}, rows...)...))
		}
	}
	if len(bodies) == 0 {
		return markup.Markup{}
	}
	return headed("What the disagreement costs", []markup.Part{
		p(say.WorthMeans),
		table("wide", "Bill by bill, in money", heads, bodies...), s.perYear(),
	})
}

// groupRow heads the rows of a bill.
func (s *sheet) groupRow(period, columns int) markup.Markup {
	return el("tr", class("bill"), markup.A("role", "row"),
		el("th", markup.A("role", "rowheader"), markup.A("scope", "rowgroup"), markup.A("colspan", strconv.Itoa(columns)),
			text(capital(s.bill(period))+", "+spanWords(s.f.Periods[period].Span))))
}

func (s *sheet) worthRow(p pair, heads []string) markup.Markup {
	w := p.Worth
	c := w.Indicated.Currency
	bill := markup.Join(text(c.Text(w.Indicated.Total)), under("gives", say.Plus(w.Difference, c)))
	row := tr(markup.Join(el("span", class(inkText(p.instrument)), text(s.name(p))), assumed(w.Indicated.IsAssumed)),
		cell{heads[1], el("span", bill), "num"},
		cell{heads[2], text(kWh(sign(w.Energy.StringFixed(2)))), "num"},
		cell{heads[3], text(say.Marginal(w)), "num"},
		cell{heads[4], text(say.Worth(w.Value, w.Expanded, c)), "num"})
	if w.IsAcross {
		return markup.Join(row, reasonRow(say.AcrossEdge, len(heads)))
	}
	return row
}

// perYear gives what all bills of an instrument come to, and a year of them.
func (s *sheet) perYear() markup.Markup {
	var list []fact
	for _, inst := range s.f.Instruments {
		if !inst.IsWorth {
			continue
		}
		w := inst.Worth
		list = append(list,
			fact{inst.Name + ", all bills", say.Worth(w.Value, w.Expanded, w.Indicated.Currency)},
			fact{inst.Name + ", a year of 365.25 days", say.Worth(w.PerYear, w.YearDoubt, w.Indicated.Currency)})
	}
	if len(list) == 0 {
		return markup.Markup{}
	}
	return facts(list...)
}

// words gives the texts of notices.
func words(list []remark.Notice) (out []string) {
	for _, n := range list {
		out = append(out, n.Text)
	}
	return out
}

// running tells what the period that is not billed yet comes to.
func (s *sheet) running() markup.Markup {
	if !s.f.IsRunning {
		return markup.Markup{}
	}
	r := s.f.Running
	c := r.Projected.Currency
	list := []fact{
		{"Read through", r.Through.Long()},
		{"Energy so far", kWh(r.EnergySoFar.StringFixed(1))},
		{"Bill so far", c.Text(r.ToDate.Total)},
		{"Energy at the end", kWh(r.Energy.StringFixed(1) + say.PlusMinus + say.Interval(r.EnergyDoubt))},
		{"Bill at the end", c.Text(r.Projected.Total)},
		{"Between, " + s.confidence(), c.Text(r.Low) + " and " + c.Text(r.High)},
	}
	if r.Next.Known {
		list = append(list, fact{"Next tier, " + r.Next.Name, r.Next.Day.Long()})
	}
	parts := []markup.Part{p(capital(spanWords(r.Span)) + ", if use goes on as it did."), facts(list...), assumedHours(r), paragraphs(r.Words)}
	parts = append(parts, s.folded("more", "running", "Its lines at the end", func() markup.Markup {
		heads := []string{"Line of the bill", "Computed"}
		rows := markup.Each(r.Projected.Lines, func(l tariff.Line) markup.Markup {
			return tr(markup.Join(text(l.Name), under("gives", say.Reckoned(l, c))), cell{heads[1], text(c.Text(l.Amount)), "num"})
		})
		return table("narrow", "The bill at the end", heads, tbody(rows), sums(tr(text("Total"), cell{heads[1], text(c.Text(r.Projected.Total)), "num"})))
	}))
	return headed("The running bill", parts)
}

// assumedHours says that a running bill rests on assumed hours of use, and what
// it could come to.
func assumedHours(r account.Running) markup.Markup {
	if !r.Projected.IsAssumed {
		return markup.Markup{}
	}
	return p("The hours of use are assumed. " + say.AssumedHours(r.Projected))
}

// choices ranks the tariffs by what they cost for the same energy.
func (s *sheet) choices() markup.Markup {
	if len(s.f.Choices) < 2 {
		return markup.Markup{}
	}
	heads := []string{"Tariff, the cheapest first", "All bills", "A year", "More a year"}
	common := say.InCommon(s.f.Choices)
	rows := markup.Each(s.f.Choices, func(c account.Choice) markup.Markup {
		money := s.currencyOf(c.Plan).Text
		name := []markup.Part{text(c.Name)}
		if c.Plan == 0 {
			name = append(name, text(" "), el("span", class("mark"), text("yours")))
		}
		name = append(name, assumed(c.IsAssumed))
		for _, w := range c.Words {
			if !slices.Contains(common, w) {
				name = append(name, under("reason", tied(w)))
			}
		}
		year := []markup.Part{text(money(c.PerYear))}
		if c.IsAssumed {
			year = append(year, el("span", class("gives"), text(money(c.Least)+" to "+money(c.Most))))
		}
		more := "—"
		if !c.More.IsZero() {
			more = money(c.More)
		}
		return tr(markup.Join(name...), cell{heads[1], text(money(c.Total)), "num"}, cell{heads[2], el("span", year...), "num"}, cell{heads[3], text(more), "num"})
	})
	return headed("Other tariffs", []markup.Part{table("wide", "The same energy, priced by each", heads, tbody(rows)), paragraphs(common)})
}

// currencyOf gives the currency of a tariff.
func (s *sheet) currencyOf(plan int) tariff.Currency {
	if plan < len(s.f.Plans) {
		return s.f.Plans[plan].Tariff.Currency
	}
	return s.f.Plan.Currency
}
