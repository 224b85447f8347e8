package intake

import (
	"strconv"

	"splittally/calc/energy"
	"splittally/calc/intake/words"
)

// checkTotals compares the rows of sums and means with the figures above them.
func (a *attempt) checkTotals() {
	if a.asked("register") {
		return
	}
	before := -1
	for _, row := range a.p.labels {
		above := before
		before = row.line
		if row.label != words.Total && row.label != words.Average || len(row.items) == 0 {
			continue
		}
		agrees := 0
		for _, item := range row.items {
			if a.matches(item, row.label) || a.matchesAbove(item, row.label, above, row.line) {
				agrees++
			}
		}
		where := "The " + map[words.Label]string{words.Total: "total", words.Average: "average"}[row.label] + " on line " + strconv.Itoa(row.line+1)
		if agrees > 0 {
			a.notice("total-row-agrees", where+" agrees with the rows.")
			continue
		}
		it := &a.p.sheet.Items[row.items[0]]
		a.notice("total-row-differs", where+" is "+a.p.sheet.Lines[row.line].Text[it.From:it.To]+", but the rows add up to "+a.sums[0].String()+" in "+plural(a.counts[0], "figure")+".")
	}
}

// matches says whether a figure is the sum, or the mean, of any column, as far
// as rounding lets one tell.
func (a *attempt) matches(item int, label words.Label) bool {
	it := &a.p.sheet.Items[item]
	v, places, ok := a.value(it)
	if !ok {
		return false
	}
	for c := range a.p.columns {
		unit := a.unitFor(it, c).Size()
		given, _, err := energy.FromDecimal(v, unit)
		if err == nil && agree(given, halfDigit(places, unit), label, a.sums[c], rounding(a, c), a.counts[c]) {
			return true
		}
	}
	return false
}

// matchesAbove says whether a figure is the sum, or the mean, of any column's
// figures between two lines: of a week or a month within the table.
func (a *attempt) matchesAbove(item int, label words.Label, after, line int) bool {
	it := &a.p.sheet.Items[item]
	v, places, ok := a.value(it)
	if !ok {
		return false
	}
	for c := range a.p.columns {
		unit := a.unitFor(it, c).Size()
		given, _, err := energy.FromDecimal(v, unit)
		if err != nil {
			continue
		}
		var sum, slack energy.Energy
		n := 0
		for pi := range a.placed {
			pl := &a.placed[pi]
			if at := a.p.rows[pl.row].line; at > after && at < line && pl.gave[c].known {
				sum, slack = plus(sum, pl.gave[c].energy), plus(slack, pl.gave[c].rounding)
				n++
			}
		}
		if agree(given, halfDigit(places, unit), label, sum, slack, n) {
			return true
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

// rounding gives the most that rounding can have hidden of a column's sum.
func rounding(a *attempt, c int) energy.Energy {
	var sum energy.Energy
	for pi := range a.placed {
		pl := &a.placed[pi]
		sum = plus(sum, pl.gave[c].rounding)
	}
	return sum
}
