package view

import (
	"strconv"
	"strings"

	"splittally/calc"
	"splittally/calc/chart/markup"
	"splittally/calc/remark"
	"splittally/calc/say"
	"splittally/calc/tariff"
)

// together tells what all bills of an instrument come to, and its line over
// them.
func (s *sheet) together() markup.Markup {
	var out []markup.Part
	for i, inst := range s.f.Instruments {
		if inst.IsPooled {
			out = append(out, pooled(i, inst))
		}
		if line := s.lineOver(i, inst); !line.Empty() {
			out = append(out, line)
		}
	}
	if len(out) == 0 {
		return markup.Markup{}
	}
	return markup.Join(append([]markup.Part{el("h3", text("All bills together"))}, out...)...)
}

func pooled(i int, inst calc.Instrument) markup.Markup {
	list := []fact{
		{"Monitor, all billed days", kWh(amount(inst.Pooled.Total.Indicated.Energy))},
		{"Meter, all bills", kWh(amount(inst.Pooled.Total.Reference.Energy))},
		{"Error of the sums", say.Error(inst.Pooled.Total)},
	}
	if m := inst.Pooled.Mean; m.Known {
		list = append(list, fact{"Mean error, each bill by how well it is known", say.Percentage(m.Value, m.Expanded)})
	}
	parts := []markup.Part{el("p", class(inkText(i)), text(inst.Name)), facts(list...)}
	for _, said := range []string{say.Consistency(inst.Pooled), say.Drift(inst.Pooled)} {
		if said != "" {
			parts = append(parts, p(said))
		}
	}
	return markup.Join(parts...)
}

// cost sets the bills by both instruments side by side.
func (s *sheet) cost() markup.Markup {
	var out []markup.Part
	for period := range s.f.Periods {
		if m := s.costOf(period); !m.Empty() {
			out = append(out, m)
		}
	}
	if len(out) == 0 {
		return markup.Markup{}
	}
	return markup.Join(append([]markup.Part{el("h3", text("In money"))}, out...)...)
}

func (s *sheet) costOf(period int) markup.Markup {
	var priced []pair
	for _, p := range s.compared() {
		if p.period == period && p.IsPriced {
			priced = append(priced, p)
		}
	}
	if len(priced) == 0 {
		return markup.Markup{}
	}
	heads := []string{"Line of the bill", "By the meter"}
	for _, p := range priced {
		heads = append(heads, "By "+s.name(p))
	}
	money := s.f.Plan.Currency.Text
	var rows []markup.Part
	for i, line := range priced[0].Money.Reference.Lines {
		cells := []cell{{heads[1], text(money(line.Amount)), "num"}}
		for k, p := range priced {
			cells = append(cells, cell{heads[k+2], text(money(p.Money.Indicated.Lines[i].Amount)), "num"})
		}
		rows = append(rows, tr(markup.Join(text(line.Name), el("span", class("gives"), text(rate(s.f.Plan, line)))), cells...))
	}
	sums := []cell{{heads[1], text(money(priced[0].Money.Reference.Total)), "num"}}
	off := []cell{{heads[1], text("—"), "num"}}
	for k, p := range priced {
		sums = append(sums, cell{heads[k+2], text(money(p.Money.Indicated.Total)), "num"})
		off = append(off, cell{heads[k+2], text(money(p.Money.Difference)), "num"})
	}
	rows = append(rows, tr(text("Total"), sums...), tr(text("What the difference costs"), off...))
	return table("wide sums", capital(s.bill(period))+", "+spanWords(s.f.Periods[period].Span), heads, tbody(rows...))
}

// rate says what a line is reckoned with.
func rate(plan tariff.Plan, line tariff.Line) string {
	switch line.Unit {
	case "kWh":
		return minus(line.Rate.String()) + " per kWh"
	case "":
		return percent(minus(plan.Tax.String())) + " of the lines above"
	}
	return "for each bill"
}

// notices lists what was assumed and what stands out. Their numbers stand where
// they belong in the table above.
func (s *sheet) notices() markup.Markup {
	if len(s.f.Notices) == 0 {
		return markup.Markup{}
	}
	items := markup.Each(s.f.Notices, func(n remark.Notice) markup.Markup {
		said := n.Text
		if where := s.noticeWhere(n.Path); where != "" && !strings.HasPrefix(said, "Bill ") {
			said = where + ": " + said
		}
		return el("li", text(said))
	})
	return markup.Join(el("h3", text("Notes on the figures")), el("ol", class("notes"), items))
}

// noticeWhere names the monitor or bill of a notice.
func (s *sheet) noticeWhere(path string) string {
	for i := range s.f.Periods {
		if strings.HasPrefix(path+".", "periods."+strconv.Itoa(i)+".") {
			return capital(s.bill(i))
		}
	}
	for i := range s.f.Plans {
		if strings.HasPrefix(path+".", "plans."+strconv.Itoa(i)+".") {
			return s.planName(i)
		}
	}
	for i, r := range s.f.Readings {
		if strings.HasPrefix(path, "monitors."+strconv.Itoa(i)+".") && r.First < len(s.f.Instruments) && r.Columns > 0 {
			if r.Columns == 1 {
				return s.f.Instruments[r.First].Name
			}
			return "Monitor " + strconv.Itoa(i+1)
		}
	}
	return ""
}

// footnotes gives the numbers of the notices about something.
func (s *sheet) footnotes(prefix string) markup.Markup {
	numbers := ""
	for i, n := range s.f.Notices {
		if strings.HasPrefix(n.Path, prefix) {
			numbers += " " + strconv.Itoa(i+1)
		}
	}
	if numbers == "" {
		return markup.Markup{}
	}
	return el("sup", el("span", class("unseen"), text(" see note")), text(numbers))
}
