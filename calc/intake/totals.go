package intake

import (
	"slices"
	"strconv"

	"splittally/calc/energy"
	"splittally/calc/intake/words"
)

// tally is what the figures of a column come to, up to a line of the text.
type tally struct {
	sum, slack energy.Energy // slack is the most that rounding can have hidden
	count      int
}

// tallies gives the tally of a column before each line, and after the last.
func (a *attempt) tallies(c int) []tally {
	out := make([]tally, len(a.p.lines)+1)
	for i := range a.placed {
		if g := &a.placed[i].gave[c]; g.known {
			t := &out[a.p.rows[a.placed[i].row].line+1]
			t.sum, t.slack, t.count = plus(t.sum, g.energy), plus(t.slack, g.rounding), t.count+1
		}
	}
	for i := 1; i < len(out); i++ {
		before := out[i-1]
		out[i] = tally{plus(out[i].sum, before.sum), plus(out[i].slack, before.slack), out[i].count + before.count}
	}
	return out
}

// checkTotals compares the rows of sums and means with the figures of the whole
// table, and with those between it and the next such row above or below.
func (a *attempt) checkTotals() {
	if a.asked("register") || len(a.p.labels) == 0 {
		return
	}
	columns := make([][]tally, len(a.p.columns))
	for c := range columns {
		columns[c] = a.tallies(c)
	}
	for i, row := range a.p.labels {
		if row.label != words.Total && row.label != words.Average || len(row.items) == 0 {
			continue
		}
		parts := [3][2]int{{0, len(a.p.lines)}, {0, row.line}, {row.line, len(a.p.lines)}}
		if i > 0 {
			parts[1][0] = a.p.labels[i-1].line
		}
		if i+1 < len(a.p.labels) {
			parts[2][1] = a.p.labels[i+1].line
		}
		where := "The " + map[words.Label]string{words.Total: "total", words.Average: "average"}[row.label] + " on line " + strconv.Itoa(row.line+1)
		if slices.ContainsFunc(row.items, func(item int) bool { return a.matches(item, row.label, columns, parts[:]) }) {
			a.notice("total-row-agrees", where+" agrees with the rows.")
			continue
		}
		it := &a.p.sheet.Items[row.items[0]]
		a.notice("total-row-differs", where+" is "+a.p.sheet.Lines[row.line].Text[it.From:it.To]+", but the rows add up to "+a.sums[0].String()+" in "+plural(a.counts[0], "figure")+".")
	}
}

// matches says whether a figure is the sum, or the mean, of any column's
// figures in any of some parts of the text, given by their lines.
func (a *attempt) matches(item int, label words.Label, columns [][]tally, parts [][2]int) bool {
	it := &a.p.sheet.Items[item]
	v, places, ok := a.value(it)
	if !ok {
		return false
	}
	for c, t := range columns {
		unit := a.unitFor(it, c).Size()
		given, _, err := energy.FromDecimal(v, unit)
		if err != nil {
			continue
		}
		for _, part := range parts {
			from, to := t[part[0]], t[part[1]]
			if agree(given, halfDigit(places, unit), label, to.sum-from.sum, to.slack-from.slack, to.count-from.count) {
				return true
			}
		}
	}
	return false
}

// agree says whether a figure with half of its last digit is the sum, or the
// mean, of n figures, as far as rounding lets one tell.
func agree(given, half energy.Energy, label words.Label, sum, slack energy.Energy, n int) bool {
	if n == 0 {
		return false
	}
	if label == words.Average {
		sum, slack = sum/energy.Energy(n), slack/energy.Energy(n)
	}
	return (given - sum).Abs() <= plus(half, slack)
}
