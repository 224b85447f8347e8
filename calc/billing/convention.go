package billing

import (
	"sort"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"splittally/calc/calendar"
	"splittally/calc/number"
	"splittally/calc/remark"
)

// Convention says which of a bill's two dates belong to its period.
type Convention string

// The conventions. LastExcluded is the common one where the dates are those of
// the two register reads; there the days are the difference of the dates, and
// FirstExcluded has as many.
const (
	BothBelong    Convention = "both-belong"
	LastExcluded  Convention = "last-excluded"
	FirstExcluded Convention = "first-excluded"
)

var conventions = []Convention{BothBelong, LastExcluded, FirstExcluded}

// Basis says how a convention is known.
type Basis string

// The bases, the stronger first.
const (
	BasisAnswered  Basis = "answered"      // the person said so
	BasisPrinted   Basis = "printed-days"  // the printed number of days fits no other
	BasisNeighbour Basis = "neighbour"     // the period before or after begins or ends so
	BasisReadHour  Basis = "read-hour"     // read at midnight
	BasisOnlyWay   Basis = "only-way"      // the others hold no day
	BasisOthers    Basis = "other-periods" // all other bills are so
	BasisAssumed   Basis = "assumed"       // nothing decides; a question is open
)

// Way is what one convention makes of a bill's dates.
type Way struct {
	Convention Convention
	Span       calendar.Span
}

// Apply gives the days that belong, from the first and the last date printed.
func (c Convention) Apply(from, to calendar.Day) calendar.Span {
	switch c {
	case LastExcluded:
		return calendar.Span{First: from, End: to}
	case FirstExcluded:
		return calendar.Span{First: from + 1, End: to + 1}
	}
	return calendar.Span{First: from, End: to + 1}
}

// ReadOffset gives the hours from the midnight that begins a span of this
// convention, or the day after it, to a read at that hour of day.
//
// The read that ends a period is taken on the last date printed, whichever way
// the days are counted. If that date does not belong, the read is after the
// midnight that ends the span; if it belongs, the read is before that midnight,
// and the rest of the date is in the next bill. So it was with the bills of a
// real meter that print both dates as belonging: see the trials. A midnight is
// the one that the convention counts from.
func (c Convention) ReadOffset(hour float64) float64 {
	switch {
	case hour <= 0 || hour >= 24:
		return 0
	case c == LastExcluded:
		return hour
	}
	return hour - 24
}

// Words gives the convention as a short sentence without its stop.
func (c Convention) Words() string {
	switch c {
	case LastExcluded:
		return "The last date does not belong (from read to read)"
	case FirstExcluded:
		return "The first date does not belong"
	}
	return "Both dates belong"
}

// settleConventions finds the convention of every dated period, first from
// what its own bill and its neighbours show, then from all other bills, and
// asks where nothing decides.
func (s *sheet) settleConventions() {
	line := s.byDate()
	for i, b := range line {
		b.says.Convention, b.says.Basis = s.shownConvention(b, before(line, i), after(line, i))
	}
	common, agreed := commonConvention(line)
	for _, b := range line {
		if b.says.Convention == "" && agreed {
			b.says.Convention, b.says.Basis = common, BasisOthers
			s.notice(b, "to", "convention-taken", common.Words()+": taken from the other bills, as nothing on this one shows it.")
		}
		if b.says.Convention == "" {
			s.askConvention(b)
		}
		b.says.Span = b.says.Convention.Apply(b.from.day, b.to.day)
		if b.says.Span.Days() == 0 {
			s.problem(b, "to", b.typed.To, "a date after the first one: without one of its two dates this period has no day")
			b.lacks("a period of at least one day")
			continue
		}
		b.says.Dated = true
		if b.says.HourKnown {
			b.says.ReadOffset = b.says.Convention.ReadOffset(b.says.Hour)
		}
	}
}

// shownConvention gives what the person, the printed days or the neighbours
// decide, and "" if they don't. last and next are nil at the ends.
func (s *sheet) shownConvention(b, last, next *bill) (Convention, Basis) {
	printed, fits := s.printedDays(b)
	if c, ok := s.saidConvention(b); ok {
		if n := c.Apply(b.from.day, b.to.day).Days(); printed > 0 && fits && n != printed {
			s.notice(b, "convention", "convention-against-days",
				"As answered, "+counted(n)+" belong, but the bill prints "+strconv.Itoa(printed)+".")
		}
		return c, BasisAnswered
	}
	excluded := LastExcluded
	if b.says.HourKnown && b.says.Hour == 24 || last != nil && last.says.Convention == BothBelong && last.to.day == b.from.day {
		excluded = FirstExcluded
	}
	switch {
	case printed > 0 && printed == b.inclusive():
		return BothBelong, BasisPrinted
	case printed > 0 && printed == b.inclusive()-1:
		return excluded, BasisPrinted
	case b.inclusive() == 1:
		return BothBelong, BasisOnlyWay
	}
	shared := last != nil && last.to.day == b.from.day || next != nil && next.from.day == b.to.day
	abut := last != nil && last.to.day+1 == b.from.day || next != nil && next.from.day == b.to.day+1
	switch {
	case shared && !abut:
		return excluded, BasisNeighbour
	case abut && !shared:
		return BothBelong, BasisNeighbour
	case b.says.HourKnown && (b.says.Hour == 0 || b.says.Hour == 24):
		return excluded, BasisReadHour
	}
	return "", ""
}

// saidConvention gives the convention that the person has named in the field.
func (s *sheet) saidConvention(b *bill) (Convention, bool) {
	said := Convention(strings.TrimSpace(b.typed.Convention))
	for _, c := range conventions {
		if said == c {
			return c, true
		}
	}
	if said != "" {
		s.problem(b, "convention", b.typed.Convention, "both-belong, last-excluded or first-excluded")
	}
	return "", false
}

// printedDays reads the number of days as printed, 0 if there is none. fits
// says whether it is one of the two counts that the dates allow. The beginning
// of such a number is someone typing it, and no problem.
func (s *sheet) printedDays(b *bill) (days int, fits bool) {
	text := strings.ToLower(strings.TrimSpace(b.typed.Days))
	text = strings.TrimSpace(strings.TrimSuffix(strings.TrimSuffix(text, "s"), "day"))
	if text == "" {
		return 0, false
	}
	both := b.inclusive()
	r := number.Readings(text)
	whole := len(r) == 1 && r[0].Places == 0 && !r[0].Value.IsNegative() && r[0].Value.LessThan(decimal.NewFromInt(10_000))
	if whole {
		days = int(r[0].Value.IntPart())
	}
	switch {
	case !whole:
		s.problem(b, "days", b.typed.Days, "a whole number of days, such as 30")
		return 0, false
	case days == both || days == both-1:
		return days, true
	case strings.HasPrefix(strconv.Itoa(both), strconv.Itoa(days)) || strings.HasPrefix(strconv.Itoa(both-1), strconv.Itoa(days)):
		return days, false
	}
	s.problem(b, "days", b.typed.Days, strconv.Itoa(both)+" (both dates belong) or "+strconv.Itoa(both-1)+
		" (one of them does not): the dates "+b.from.day.Long()+" and "+b.to.day.Long()+" allow no other")
	return days, false
}

// commonConvention gives the convention that all settled bills have, if they
// have one.
func commonConvention(line []*bill) (c Convention, agreed bool) {
	for _, b := range line {
		switch {
		case b.says.Convention == "" || b.says.Basis == BasisOnlyWay:
		case c != "" && c != b.says.Convention:
			return "", false
		default:
			c = b.says.Convention
		}
	}
	return c, c != ""
}

// askConvention asks, and takes the answer or what such dates mostly mean: a
// first and a last of a month both belong, other pairs are two register reads.
// (Common practice, no source.)
func (s *sheet) askConvention(b *bill) {
	q := remark.Question{
		ID:   s.field(b, "convention"),
		Path: s.field(b, "to"),
		Asks: "Which days belong to the bill of " + b.from.day.Long() + " to " + b.to.day.Long() + "?",
		Why:  "The two dates alone do not tell, and no other bill shows how they are meant.",
	}
	for _, c := range conventions {
		w := Way{c, c.Apply(b.from.day, b.to.day)}
		b.says.Ways = append(b.says.Ways, w)
		q.Choices = append(q.Choices, remark.Choice{
			ID: string(c), Label: c.Words(), Gives: w.Span.String() + ", " + counted(w.Span.Days()),
		})
	}
	provisional := LastExcluded
	_, _, first := b.from.day.Date()
	_, _, next := (b.to.day + 1).Date()
	if first == 1 && next == 1 {
		provisional = BothBelong
	}
	b.says.Convention, b.says.Basis = Convention(s.ask(q, string(provisional))), BasisAssumed
	if s.out.Questions[len(s.out.Questions)-1].Answered {
		b.says.Basis = BasisAnswered
	}
}

// byDate gives the dated bills by their first date, then their last, then as typed.
func (s *sheet) byDate() []*bill {
	var line []*bill
	for i := range s.bills {
		if s.bills[i].dated {
			line = append(line, &s.bills[i])
		}
	}
	sort.SliceStable(line, func(i, j int) bool {
		a, b := line[i], line[j]
		return a.from.day < b.from.day || a.from.day == b.from.day && a.to.day < b.to.day
	})
	return line
}

func before(line []*bill, i int) *bill {
	if i == 0 {
		return nil
	}
	return line[i-1]
}

func after(line []*bill, i int) *bill {
	if i+1 == len(line) {
		return nil
	}
	return line[i+1]
}
