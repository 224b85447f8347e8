package view

import (
	"slices"
	"strconv"

	"splittally/calc/account"
	"splittally/calc/remark"
	"splittally/calc/say"
	"splittally/calc/tariff"
)

// worth tells what the disagreement costs: bill by bill, and over a year.
func (s *sheet) worth() piece {
	heads := []string{"Monitor", "Bill by its figures", "Apart", "One kWh more costs", "Worth ± " + s.confidence()}
	var bodies []piece
	for period := range s.f.Periods {
		var rows []piece
		for _, p := range s.compared() {
			if p.period == period && len(p.Worth.Indicated.Lines) > 0 {
				rows = append(rows, s.worthRow(p, heads))
			}
		}
		if len(rows) > 0 {
			bodies = append(bodies, tbody(append([]piece{s.groupRow(period, len(heads))}, rows...)...))
		}
	}
	if len(bodies) == 0 {
		return none
	}
	return headed("What the disagreement costs", []piece{
		prose(say.WorthMeans),
		table("wide", "Bill by bill, in money", heads, bodies...), s.perYear(),
	})
}

// groupRow heads the rows of a bill.
func (s *sheet) groupRow(period, columns int) piece {
	return el("tr", class("bill"), attr("role", "row"),
		el("th", attr("role", "rowheader"), attr("scope", "rowgroup"), attr("colspan", strconv.Itoa(columns)),
			text(capital(s.bill(period))+", "+spanWords(s.f.Periods[period].Span))))
}

func (s *sheet) worthRow(p pair, heads []string) piece {
	w := p.Worth
	c := w.Indicated.Currency
	bill := join(text(c.Text(w.Indicated.Total)), gives(say.Plus(w.Difference, c)))
	row := tr(join(el("span", class(inkText(p.instrument)), text(s.name(p))), assumed(w.Indicated.IsAssumed)),
		cell{heads[1], el("span", bill), "num"},
		num(heads[2], kWh(sign(w.Energy.StringFixed(2)))),
		num(heads[3], say.Marginal(w)),
		num(heads[4], say.Worth(w.Value, w.Expanded, c)))
	if w.IsAcross {
		return join(row, reasonRow(say.AcrossEdge, len(heads)))
	}
	return row
}

// perYear gives what all bills of an instrument come to, and a year of them.
func (s *sheet) perYear() piece {
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
		return none
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
func (s *sheet) running() piece {
	if !s.f.IsRunning {
		return none
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
	parts := []piece{prose(capital(spanWords(r.Span)) + ", if use goes on as it did."), facts(list...), assumedHours(r), paragraphs(r.Words)}
	parts = append(parts, s.folded("more", "running", "Its lines at the end", func() piece {
		heads := []string{"Line of the bill", "Computed"}
		rows := each(len(r.Projected.Lines), func(i int) piece {
			l := r.Projected.Lines[i]
			return row(heads, join(text(l.Name), gives(say.Reckoned(l, c))), c.Text(l.Amount))
		})
		return table("narrow", "The bill at the end", heads, tbody(rows), sums(row(heads, text("Total"), c.Text(r.Projected.Total))))
	}))
	return headed("The running bill", parts)
}

// assumedHours says that a running bill rests on assumed hours of use, and what
// it could come to.
func assumedHours(r account.Running) piece {
	if !r.Projected.IsAssumed {
		return none
	}
	return prose("The hours of use are assumed. " + say.AssumedHours(r.Projected))
}

// choices ranks the tariffs by what they cost for the same energy.
func (s *sheet) choices() piece {
	if len(s.f.Choices) < 2 {
		return none
	}
	heads := []string{"Tariff, the cheapest first", "All bills", "A year", "More a year"}
	common := say.InCommon(s.f.Choices)
	rows := each(len(s.f.Choices), func(i int) piece {
		c := s.f.Choices[i]
		money := s.currencyOf(c.Plan).Text
		name := []piece{text(c.Name)}
		if c.Plan == 0 {
			name = append(name, mark("mark", "yours"))
		}
		name = append(name, assumed(c.IsAssumed))
		for _, w := range c.Words {
			if !slices.Contains(common, w) {
				name = append(name, under("reason", tied(w)))
			}
		}
		year := []piece{text(money(c.PerYear))}
		if c.IsAssumed {
			year = append(year, gives(money(c.Least)+" to "+money(c.Most)))
		}
		more := "—"
		if !c.More.IsZero() {
			more = money(c.More)
		}
		return tr(join(name...), num(heads[1], money(c.Total)), cell{heads[2], el("span", year...), "num"}, num(heads[3], more))
	})
	return headed("Other tariffs", []piece{table("wide", "The same energy, priced by each", heads, tbody(rows)), paragraphs(common)})
}

// currencyOf gives the currency of a tariff.
func (s *sheet) currencyOf(plan int) tariff.Currency {
	if plan < len(s.f.Plans) {
		return s.f.Plans[plan].Tariff.Currency
	}
	return s.f.Plan.Currency
}
