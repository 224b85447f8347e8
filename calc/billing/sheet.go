package billing

import (
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"splittally/calc/calendar"
	"splittally/calc/remark"
)

// sheet is the work on all periods at once: a period's dates can say how its
// neighbour's are meant.
type sheet struct {
	path    string
	answers map[string]string
	bills   []bill
	out     Result
}

// bill is one period on its way to a Statement.
type bill struct {
	typed Period
	at    int // index in the list as typed
	says  Statement

	from, to date
	dated    bool // both dates are sure, and to is not before from
	metered  bool // the energy is known
	missing  []string

	// Register reads, if both could be read; see register.go.
	reads         bool
	previous, end decimal.Decimal
}

// inclusive counts the days from the first date to the last, both included.
func (b *bill) inclusive() int { return int(b.to.day-b.from.day) + 1 }

// waits says in words what keeps the statement from being given.
func (b *bill) waits() string {
	switch {
	case b.says.Given && b.says.Net:
		return "the bill charges 0 kWh net of credits, and a percentage of nothing is no number"
	case b.says.Given:
		return ""
	}
	return strings.Join(b.missing, "; ")
}

func (b *bill) lacks(what string) { b.missing = append(b.missing, what) }

// name is what the period is called in sentences; people count from 1.
func (b *bill) name() string { return "bill " + strconv.Itoa(b.at+1) }

// capitalName is the name at the start of a sentence.
func (b *bill) capitalName() string { return "B" + b.name()[1:] }

func (s *sheet) field(b *bill, field string) string {
	return s.path + "." + strconv.Itoa(b.at) + "." + field
}

func (s *sheet) problem(b *bill, field, found, wanted string) {
	s.out.Problems = append(s.out.Problems, remark.Problem{Path: s.field(b, field), Found: found, Wanted: wanted})
}

func (s *sheet) notice(b *bill, field, code, text string) {
	s.out.Notices = append(s.out.Notices, remark.Notice{Code: code, Path: s.field(b, field), Text: text})
}

// ask puts a question and gives the choice that the results rest on.
func (s *sheet) ask(q remark.Question, provisional string) string {
	taken := q.Settle(s.answers, provisional)
	s.out.Questions = append(s.out.Questions, q)
	return taken
}

// counted gives "1 day", "3 days".
func counted(n int) string {
	if n == 1 {
		return "1 day"
	}
	return strconv.Itoa(n) + " days"
}

// daysOf gives the days of a span in words: "1 day (3 Nov 2023)".
func daysOf(sp calendar.Span) string {
	if sp.Days() == 1 {
		return "1 day (" + sp.First.Long() + ")"
	}
	return counted(sp.Days()) + " (" + sp.String() + ")"
}
