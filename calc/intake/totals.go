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
	for _, row := range a.p.labels {
		if row.label != words.Total && row.label != words.Average || len(row.items) == 0 {
			continue
		}
		agrees := 0
		for _, item := range row.items {
			if a.matches(item, row.label) {
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
		if err != nil || a.counts[c] == 0 {
			continue
		}
		half := halfDigit(places, unit)
		want, slack := a.sums[c], half+rounding(a, c)
		if label == words.Average {
			want /= energy.Energy(a.counts[c])
			slack = half + rounding(a, c)/energy.Energy(a.counts[c])
		}
		if (given - want).Abs() <= slack {
			return true
		}
	}
	return false
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
