package view

import (
	"strconv"
	"strings"

	"splittally/calc/energy"
	"splittally/calc/say"
)

// totals is the table of bills and monitors.
func (s *sheet) totals() piece {
	heads := []string{"Monitor", "Counted, kWh", "Days filled", "Error ± " + s.confidence(), "Registration", "Verdict"}
	var bodies []piece
	for period, b := range s.f.Periods {
		if !b.Dated {
			continue
		}
		rows := []piece{s.billRow(period, len(heads))}
		for _, p := range s.pairs() {
			if p.period == period {
				rows = append(rows, s.totalRow(p, heads))
			}
		}
		bodies = append(bodies, tbody(rows...))
	}
	if len(bodies) == 0 {
		return none
	}
	return table("wide", "Bill by bill", heads, bodies...)
}

// billRow heads the rows of a bill with what the meter counted.
func (s *sheet) billRow(period, columns int) piece {
	b := s.f.Periods[period]
	said := capital(s.bill(period)) + ": " + spanWords(b.Span) + ", " + say.Counted(b.Days(), "day", "days")
	if b.Given {
		said += ", meter " + kWh(amount(b.Reference))
		if b.LossIncluded {
			said += " without losses (billed " + kWh(amount(b.Billed)) + ")"
		}
	}
	return el("tr", class("bill"), attr("role", "row"),
		el("th", attr("role", "rowheader"), attr("scope", "rowgroup"), attr("colspan", strconv.Itoa(columns)),
			text(said), s.footnotes("periods."+strconv.Itoa(period)+"."), s.openMark("periods."+strconv.Itoa(period)+".")))
}

func (s *sheet) totalRow(p pair, heads []string) piece {
	inst := s.f.Instruments[p.instrument]
	name := join(el("span", class(inkText(p.instrument)), text(inst.Name)), s.footnotes("monitors."+strconv.Itoa(inst.Monitor)+"."), s.openMark("monitors."+strconv.Itoa(inst.Monitor)+"."))
	if !p.Compares() {
		if p.Waits == "" {
			p.Waits = p.Compared.Why.Sentence()
		}
		total := ""
		if len(p.Filled.Days) > 0 {
			total = amount(p.Filled.Total)
		}
		return tr(name, num(heads[1], total), word(heads[2], s.filledCount(p)),
			num("", "—"), num("", "—"), word(heads[5], "waits: "+p.Waits))
	}
	return tr(name,
		num(heads[1], amount(p.Compared.Indicated.Energy)),
		word(heads[2], s.filledCount(p)),
		num(heads[3], say.Error(p.Compared)),
		num(heads[4], percent(p.Compared.Registration.StringFixed(1))),
		cell{heads[5], text(say.Short(p.Compared.Verdict)), "short-word"})
}

// openMark marks what an unanswered question is about: its figures hold only for
// the answer taken for now.
func (s *sheet) openMark(prefix string) piece {
	for _, q := range s.f.Questions {
		if !q.Answered && strings.HasPrefix(q.Path, prefix) {
			return mark("mark", "question open")
		}
	}
	return none
}

// filledCount says how many days were filled, and how, in two words.
func (s *sheet) filledCount(p pair) string {
	switch {
	case len(p.Filled.Days) == 0:
		return ""
	case p.Filled.Filled == 0:
		return "none"
	}
	count := strconv.Itoa(p.Filled.Filled) + " of " + strconv.Itoa(len(p.Filled.Days))
	for i, w := range p.Filled.Ways() {
		if i > 0 {
			count += " and"
		} else {
			count += ","
		}
		count += " " + methodName(w.Method)
	}
	return count
}

// amount writes an energy for show, without its unit: to a tenth from 100 kWh
// on, else to a hundredth. Whole figures stay whole.
func amount(e energy.Energy) string {
	places := int32(2)
	if e.Abs() >= 100*energy.KilowattHour {
		places = 1
	}
	if e%energy.KilowattHour == 0 {
		places = 0
	}
	return minus(e.Text(places))
}

// minus gives a number in text a true minus sign.
func minus(number string) string {
	if len(number) > 0 && number[0] == '-' {
		return say.Minus + number[1:]
	}
	return number
}
