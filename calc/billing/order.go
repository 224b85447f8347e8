package billing

import (
	"strings"

	"splittally/calc/remark"
)

// longest is how many days a billing period may have; more is a mistyped year.
const longest = 400

// readDates reads the dates of every period and marks the wrong ones.
func (s *sheet) readDates() {
	for i := range s.bills {
		b := &s.bills[i]
		b.from, b.to = parseDate(b.typed.From), parseDate(b.typed.To)
	}
	s.settleOrder()
	for i := range s.bills {
		b := &s.bills[i]
		s.judgeDate(b, "from", "first date", b.typed.From, b.from)
		s.judgeDate(b, "to", "last date", b.typed.To, b.to)
		b.says.Begins, b.says.HasBegun = b.from.day, b.from.state == dateSure
		if b.from.state != dateSure || b.to.state != dateSure {
			continue
		}
		switch {
		case b.to.day < b.from.day:
			s.problem(b, "to", b.typed.To, "a date that is not before the first one ("+b.from.day.Long()+")")
			b.lacks("a last date that is not before the first")
		case b.inclusive() > longest:
			s.problem(b, "to", b.typed.To, "a date at most 400 days after "+b.from.day.Long()+"; this would be "+counted(b.inclusive()))
			b.lacks("two dates at most 400 days apart")
		default:
			b.dated = true
		}
	}
}

func (s *sheet) judgeDate(b *bill, field, what, typed string, d date) {
	switch d.state {
	case dateAbsent:
		b.lacks("the " + what + " is missing")
	case dateUnfinished:
		b.lacks("the " + what + " (“" + strings.TrimSpace(typed) + "”) is not complete")
	case dateWrong:
		s.problem(b, field, typed, dateWanted)
		b.lacks("the " + what + " is not a date")
	}
}

// settleOrder decides whether 03/04/2024 is in March or in April, the same for
// all periods: by another date that can only be one, by the order that makes
// no period run backwards, or else by asking.
func (s *sheet) settleOrder() {
	var first *bill
	field := "from"
	shown := map[order]bool{}
	for i := range s.bills {
		b := &s.bills[i]
		for _, d := range []date{b.from, b.to} {
			shown[d.order] = true
		}
		if first == nil && (b.from.state == dateEitherWay || b.to.state == dateEitherWay) {
			first = b
			if b.from.state != dateEitherWay {
				field = "to"
			}
		}
	}
	if first == nil {
		return
	}
	taken := orderDayFirst
	dayFirst, monthFirst := s.tryOrder(orderDayFirst), s.tryOrder(orderMonthFirst)
	switch {
	case shown[orderDayFirst] != shown[orderMonthFirst]:
		if shown[orderMonthFirst] {
			taken = orderMonthFirst
		}
		s.notice(first, field, "date-order", orderSaid(taken)+", as another date of the bills shows.")
	case (dayFirst.impossible == 0) != (monthFirst.impossible == 0):
		if monthFirst.impossible == 0 {
			taken = orderMonthFirst
		}
		s.notice(first, field, "date-order", orderSaid(taken)+": the other way a period would run backwards or for more than a year.")
	default:
		taken = s.askOrder(first, field, dayFirst.usual >= monthFirst.usual)
	}
	for i := range s.bills {
		b := &s.bills[i]
		b.from, b.to = b.from.in(taken), b.to.in(taken)
	}
}

func (s *sheet) askOrder(b *bill, field string, dayFirst bool) order {
	provisional := "month-first"
	if dayFirst {
		provisional = "day-first"
	}
	taken := s.ask(remark.Question{
		ID:   s.path + ".date-order",
		Path: s.field(b, field),
		Asks: "Does the day or the month come first in the dates of the bills?",
		Why:  "Every date written in numbers can be read both ways.",
		Choices: []remark.Choice{
			{ID: "day-first", Label: "The day comes first", Gives: b.datesIn(orderDayFirst)},
			{ID: "month-first", Label: "The month comes first", Gives: b.datesIn(orderMonthFirst)},
		},
	}, provisional)
	if taken == "month-first" {
		return orderMonthFirst
	}
	return orderDayFirst
}

// datesIn gives both dates of the bill in words, read in the order o.
func (b *bill) datesIn(o order) string {
	words := func(d date) string {
		if d = d.in(o); d.state == dateSure {
			return d.day.Long()
		}
		return "…"
	}
	return words(b.from) + " to " + words(b.to)
}

// in gives d read in the order o.
func (d date) in(o order) date {
	if d.state != dateEitherWay {
		return d
	}
	day := d.dayFirst
	if o == orderMonthFirst {
		day = d.monthFirst
	}
	return date{state: dateSure, day: day}
}

// trial counts what an order would make of the periods.
type trial struct{ usual, impossible int }

func (s *sheet) tryOrder(o order) (t trial) {
	for i := range s.bills {
		from, to := s.bills[i].from.in(o), s.bills[i].to.in(o)
		if from.state != dateSure || to.state != dateSure {
			continue
		}
		switch days := int(to.day - from.day); {
		case days < 0 || days > longest:
			t.impossible++
		case days >= 20 && days <= 100:
			t.usual++
		}
	}
	return t
}

func orderSaid(o order) string {
	if o == orderMonthFirst {
		return "The dates are read with the month first"
	}
	return "The dates are read with the day first"
}
