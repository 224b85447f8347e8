package account

import (
	"slices"

	"github.com/shopspring/decimal"

	"splittally/calc/tariff"
)

// subtotals marks printed lines that add up at least two above, all of them or
// those since the last such line, and that are none of the computed lines.
func subtotals(list []printed, lines []tariff.Line) {
	var all, since decimal.Decimal
	above, recent := 0, 0
	for i := range list {
		p := &list[i]
		if !p.known {
			return // what follows can't be added up
		}
		isAll, isRecent := above > 1 && p.amount.Equal(all), recent > 1 && p.amount.Equal(since)
		isLine := slices.ContainsFunc(lines, func(l tariff.Line) bool { return l.Amount.Equal(p.amount) || fold(l.Name) == fold(p.name) })
		if p.isSum = (isAll || isRecent) && !isLine && !p.amount.IsZero(); p.isSum {
			since, recent = decimal.Zero, 0
			continue
		}
		all, since = all.Add(p.amount), since.Add(p.amount)
		above, recent = above+1, recent+1
	}
}
