package calc

import (
	"strings"

	"splittally/calc/billing"
	"splittally/calc/calendar"
	"splittally/calc/document"
)

// Next gives the case with one more bill, at its number, that goes on where the
// last one ends: it begins at that one's last date, or the day after if both
// dates belong, written as that one is; its previous read is that one's present
// read; and what stays from bill to bill is the same. What a bill has of its own
// is blank. If nothing tells whether both dates belong, its first date is blank
// too. Without any bill to go on from, the case is as it was and the number -1.
func Next(c Case) (Case, int) {
	answers := map[string]string{}
	for _, a := range c.Answers {
		answers[a.Question] = a.Choice
	}
	read := billing.Read(c.Periods, billing.Options{Answers: answers}).Statements
	last, free := -1, len(c.Periods)
	for i, p := range c.Periods {
		switch isBlank := isBlankPeriod(p); {
		case isBlank:
			free = min(free, i)
		case last < 0 || !read[last].Dated || read[i].Dated && read[i].Span.End >= read[last].Span.End:
			last = i
		}
	}
	if last < 0 {
		return c, -1
	}
	c.Periods = append([]billing.Period(nil), c.Periods...)
	if free == len(c.Periods) {
		c.Periods = append(c.Periods, billing.Period{})
	}
	c.Periods[free] = following(c.Periods[last])
	if s := read[last]; s.Dated && s.Basis != billing.BasisAssumed {
		first := s.Span.End
		if s.Convention == billing.FirstExcluded {
			first--
		}
		c.Periods[free].From = dateLike(c, free, c.Periods[last], first, answers)
	}
	return c, free
}

// following gives what a bill hands on to the next.
func following(p billing.Period) billing.Period {
	return billing.Period{
		Lines: namesOf(p.Lines), Uses: namesOf(p.Uses),
		Previous: p.Present, Multiplier: p.Multiplier, Digits: p.Digits,
		LossFactor: p.LossFactor, LossIncluded: p.LossIncluded, ReadHour: p.ReadHour, Convention: p.Convention,
	}
}

func namesOf(lines []billing.Line) []billing.Line {
	var names []billing.Line
	for _, l := range lines {
		names = append(names, billing.Line{Name: l.Name})
	}
	return names
}

func isBlankPeriod(p billing.Period) bool {
	for _, text := range document.Flatten(document.Write(func(f *document.Fields) { periodFields(&p, f) })).Texts {
		if strings.TrimSpace(text) != "" {
			return false
		}
	}
	return true
}

// dateLike writes a day as the dates of another bill are written. A way of writing counts if
// the bill at that number, read among the others, then begins on that day;
// where there is none the month is in words.
func dateLike(c Case, at int, p billing.Period, day calendar.Day, answers map[string]string) string {
	for _, try := range append([]string{p.To}, likewise(p.To, p.From, day)...) {
		c.Periods[at].From = try
		s := billing.Read(c.Periods, billing.Options{Answers: answers}).Statements[at]
		if s.HasBegun && s.Begins == day {
			return try
		}
	}
	return day.Long()
}
