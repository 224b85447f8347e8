package intake

import (
	"slices"

	"splittally/calc/energy"
	"splittally/calc/intake/scan"
	"splittally/calc/intake/words"
	"splittally/calc/remark"
)

// doubtUnit asks about a unit that the heading or the text around names, if
// figures of that size are beyond any home. Until it is answered the unit is
// taken as written.
func (a *attempt) doubtUnit(c int) {
	u := a.units[c].unit
	values := a.values(c)
	if u != words.KilowattHour && u != words.MegawattHour || len(values) == 0 || a.p.register || a.climbs(c) {
		return
	}
	usual := energy.Energy(middle(values)).KilowattHours() * a.perDay()
	if u == words.MegawattHour {
		usual *= 1000
	}
	if usual <= mostPlausible || slices.ContainsFunc(a.p.rows, func(r row) bool { return r.figures[c] >= 0 && a.p.sheet.Items[r.figures[c]].Unit != 0 }) {
		return
	}
	less := u - 1
	if !a.asked("unit") {
		a.ask("unit", "Are these figures really "+u.Name()+"?", "As "+u.Name()+" they would be far more than a home uses.", u.Name(),
			remark.Choice{ID: u.Name(), Label: u.Name() + ", as written"}, remark.Choice{ID: less.Name(), Label: less.Name()})
	}
	if a.taken("unit") == less.Name() {
		a.units[c].unit = less
	}
}

// wordBehind gives the one word that stands behind every figure of a column and
// is neither a unit nor anything else that is known.
func (a *attempt) wordBehind(c int) string {
	word, rows := "", 0
	for ri := range a.p.rows {
		r := &a.p.rows[ri]
		if r.figures[c] < 0 {
			continue
		}
		next := r.figures[c] + 1
		if next >= a.p.sheet.Lines[r.line].Past {
			return ""
		}
		it := &a.p.sheet.Items[next]
		if it.Kind != scan.Word || it.Unit != 0 || it.Cell != a.p.sheet.Items[next-1].Cell || words.LabelOf(it.Fold) != 0 || words.Month(it.Fold) != 0 || rows > 0 && it.Fold != word {
			return ""
		}
		word = it.Fold
		rows++
	}
	if rows < 2 {
		return ""
	}
	return word
}

// perDay gives roughly how many figures make a day: less than one for totals of
// weeks and months, more for intervals.
func (a *attempt) perDay() float64 {
	switch r := &a.p.rows[0]; {
	case r.onWeekday > 0:
		return 1
	case a.severalADay():
		days := 1
		for i := 1; i < len(a.p.rows); i++ {
			if a.p.rows[i].first != a.p.rows[i-1].first {
				days++
			}
		}
		return float64(len(a.p.rows)) / float64(days)
	case r.first.Form == scan.Month:
		return 1.0 / 30
	case r.first.Form == scan.Week || r.dates == 2 || a.p.weekly:
		return 1.0 / 7
	}
	if step := a.p.usualGap(); step > 5 {
		return 1 / float64(step)
	}
	return 1
}

// usualGap gives the usual number of days between the dates of one row and the
// next, 0 if there are too few.
func (p *paper) usualGap() int {
	for _, order := range [2]scan.Order{scan.DayFirst, scan.MonthFirst} {
		var days, gaps []int
		for i := range p.rows {
			if d, ok := p.rows[i].first.On(order, 2024); ok && p.rows[i].dates == 1 {
				days = append(days, int(d))
			}
		}
		for i := 1; i < len(days); i++ {
			gaps = append(gaps, abs(days[i]-days[i-1]))
		}
		if len(days) == len(p.rows) && len(gaps) > 1 {
			return middle(gaps)
		}
	}
	return 0
}
