package intake

import (
	"slices"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/ledger"
	"splittally/calc/remark"
)

// attempt works a paper out under one set of answers.
type attempt struct {
	p *paper
	o Options

	mark    rune // the decimal mark, '.' or ','
	units   []unitOf
	placed  []placed // the rows that have a day, in the order of the text
	ledgers []ledger.Ledger
	partial []calendar.Day  // days of which only a part was measured
	sums    []energy.Energy // of the figures of each column, as written
	counts  []int           // of these figures
	derived []bool          // columns that follow from others and are left out
	merged  string          // the name of the first column where it is the sum of all

	lines     []Line
	blamed    map[int]bool // items that a problem points at
	unitText  string
	problems  []remark.Problem
	questions []remark.Question
	notices   []remark.Notice
}

// placed is a row with its days.
type placed struct {
	row  int
	span calendar.Span // a day, or the days of a total
	gave []amount      // for each column
}

// attemptWith runs the stages. Each leaves the rows that it can't use marked as
// wrong and goes on with the others.
func attemptWith(p *paper, o Options) *attempt {
	a := &attempt{p: p, o: o, mark: '.', lines: slices.Clone(p.lines)}
	a.blameStrays()
	if len(p.rows) == 0 || len(p.columns) == 0 {
		a.refuse()
		return a
	}
	a.tellDates()
	a.settleMark()
	a.settleUnits()
	a.settleDays()
	a.tellAhead()
	a.weighRows()
	a.findDerived()
	a.build()
	a.tellPartial()
	a.checkTotals()
	a.tellDropped()
	return a
}

func (a *attempt) result() Result {
	arrange(a.problems, func(p *remark.Problem) int { return p.Line })
	return Result{Ledgers: a.ledgers, Lines: a.lines, Unit: a.unitText, Problems: a.problems, Questions: a.questions, Notices: a.notices}
}
