package intake

import (
	"slices"

	"splittally/calc/energy"
)

// withoutTotals takes out totals over days that are also given one by one, and
// totals that overlap an earlier one. What it takes out is told. The figures are
// in order of their first days.
func (a *attempt) withoutTotals(figures []figure) []figure {
	if !slices.ContainsFunc(figures, func(f figure) bool { return f.span.Days() > 1 }) {
		return figures
	}
	var kept []figure
	for i := range figures {
		f := &figures[i]
		if f.span.Days() > 1 && a.isTotal(figures, i) {
			continue
		}
		if n := len(kept); f.span.Days() > 1 && n > 0 && f.span.First < kept[n-1].span.End && kept[n-1].span.Days() > 1 {
			a.wrong(f.line-1, a.p.rows[f.row].dateAt, "days that no other line covers")
			continue
		}
		kept = append(kept, *f)
	}
	return kept
}

// isTotal says whether figure i only sums shorter ones that lie within its
// days, and compares it with them.
func (a *attempt) isTotal(figures []figure, i int) bool {
	total := figures[i]
	within, known := 0, 0
	var sum, slack energy.Energy
	for k := max(0, i-1); k < len(figures) && figures[k].span.First < total.span.End; k++ {
		f := figures[k]
		if k == i || f.span.Days() >= total.span.Days() || f.span.First < total.span.First || f.span.End > total.span.End {
			continue
		}
		within++
		if f.known {
			known += f.span.Days()
			sum, slack = plus(sum, f.energy), plus(slack, f.rounding)
		}
	}
	if within == 0 {
		return false
	}
	if !total.known {
		a.ignore(total.line-1, "names days that other lines give")
		return true
	}
	a.ignore(total.line-1, "a total of days that other lines give")
	where := "The total on " + lineList([]int{total.line})
	switch {
	case known < total.span.Days():
		a.notice("total-row-ignored", where+" covers days that other lines give; these were taken.")
	case (sum - total.energy).Abs() <= slack+total.rounding:
		a.notice("total-row-agrees", where+" agrees with the rows.")
	default:
		a.notice("total-row-differs", where+" is "+total.energy.String()+", but the rows add up to "+sum.String()+".")
	}
	return true
}
