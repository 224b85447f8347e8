package view

import (
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"splittally/calc"
	"splittally/calc/chart"
	"splittally/calc/ledger"
	"splittally/calc/load"
	"splittally/calc/say"
)

// loaded is an instrument, or the meter, whose load is shown.
type loaded struct {
	load.Load
	ledger  ledger.Ledger
	at      string // begins the ids of its parts
	name    string
	ink     chart.Ink
	results []calc.Result // of the periods, for what was filled; none of the meter
	price   decimal.Decimal
	// isPriced says that price is known, of one kWh of a steady load.
	isPriced bool
}

// loads draws the load of each instrument whose readings hold hours, and of the
// meter.
func (s *sheet) loads() piece {
	var out []piece
	for i, inst := range s.f.Instruments {
		if inst.IsLoad {
			out = append(out, s.load(loaded{inst.Load, inst.Ledger, id("load", i), inst.Name, chart.Ink(i), inst.Results, inst.BasePrice, inst.IsBasePriced}))
		}
	}
	if s.f.IsMeterLoad {
		out = append(out, s.load(loaded{Load: s.f.MeterLoad, ledger: s.f.Meter, at: "load-meter", name: "the utility’s meter", ink: chart.Meter}))
	}
	return join(out...)
}

// load draws the load of one, below its heading. Without hours there is nothing
// to say that the daily figures don't.
func (s *sheet) load(l loaded) piece {
	if l.Counted == 0 {
		return none
	}
	return join(el("h3", text("When power is used: "+say.Within(l.name))),
		prose(say.Base(l.Base, s.confidence())), s.loadFacts(l),
		s.loadCalendar(l), s.loadDay(l), s.loadHours(l), s.loadDuration(l), s.largestHours(l), s.monthTotals(l),
		s.folded("more", l.at+"-base", "How the base load is found", func() piece { return prose(say.BaseHow(l.Base)) }))
}

func (s *sheet) loadFacts(l loaded) piece {
	var list []fact
	if b := l.Base; b.IsKnown {
		list = append(list, fact{"Base load", say.Power(b.Watts)}, fact{"A year of it", kWh(say.Plain(load.PerYear(b.Watts), 0))}, fact{"Its part of all use", sharePart(b.Share)})
		if l.isPriced {
			list = append(list, fact{"A year of it in money, at " + say.Number(l.price) + " a kWh", s.currencyOf(0).Text(load.Cost(b.Watts, l.price))})
		}
	}
	list = append(list, fact{"Median of all hours", say.Power(l.At(0.5))}, fact{"Highest hundredth of the hours, above", say.Power(l.At(0.01))})
	if len(l.Largest) > 0 {
		list = append(list, fact{"Largest hour, " + say.HourOf(l.Largest[0]), kWh(amount(l.Largest[0].Energy))})
	}
	if l.IsDaily {
		list = append(list, fact{"Largest day, " + l.LargestDay.Day.Long(), kWh(amount(l.LargestDay.Energy))})
	}
	return facts(list...)
}

func sharePart(share float64) string {
	if share <= 0 {
		return ""
	}
	return percent(say.Plain(100*share, 0))
}

func (s *sheet) largestHours(l loaded) piece {
	return s.folded("more", l.at+"-largest", "The largest hours", func() piece {
		heads := []string{"Hour", "kWh"}
		return table("narrow", "The largest hours by energy", heads, tbody(each(len(l.Largest), func(i int) piece {
			p := l.Largest[i]
			said := say.HourOf(p)
			if p.IsPart {
				said += ", measured in part"
			}
			return row(heads, text(said), amount(p.Energy))
		})))
	})
}

func (s *sheet) monthTotals(l loaded) piece {
	return s.folded("more", l.at+"-months", "Totals by month", func() piece {
		heads := []string{"Month", "kWh measured", "A whole day", "Whole days"}
		return table("wide", "Energy by month: what was measured, nothing filled", heads, tbody(each(len(l.Months), func(i int) piece {
			m := l.Months[i]
			perDay, but := "—", []string{}
			if m.Whole > 0 {
				perDay = say.Plain(m.PerDay(), 2)
			}
			if m.Partial > 0 {
				but = append(but, strconv.Itoa(m.Partial)+" in part")
			}
			if m.Missing > 0 {
				but = append(but, strconv.Itoa(m.Missing)+" without figures")
			}
			return row(heads, join(text(monthOf(m.First)), gives(strings.Join(but, ", "))), minus(m.Energy.Text(2)), perDay, strconv.Itoa(m.Whole)+" of "+strconv.Itoa(m.Days()))
		})))
	})
}
