package intake

import (
	"slices"
	"strconv"

	"splittally/calc/calendar"
	"splittally/calc/intake/scan"
	"splittally/calc/remark"
)

// lastGuess is the latest year that is offered where nothing at all tells the
// year and the day of the last edit is not known.
const lastGuess = 2026

// years gives each row the year of its date: the written one, or base plus the
// turns of the year since the first row. Rows run forward or backward in time.
type years struct {
	turns []int // of each row, against the first; 0 for rows with a year
	free  bool  // whether any row has no year
}

// settleYears finds the years of all rows.
func (a *attempt) settleYears(order scan.Order) []int {
	y := a.turnsOfYear(order)
	all := make([]int, len(a.p.rows))
	if !y.free {
		return all
	}
	base := a.baseYear(order, y)
	for i := range all {
		all[i] = base + y.turns[i]
	}
	return all
}

// turnsOfYear counts the turns of the year between rows. A step of more than
// half a year against the run of the rows is one.
func (a *attempt) turnsOfYear(order scan.Order) years {
	y := years{turns: make([]int, len(a.p.rows))}
	const leap = 2024
	day := func(i int) (int, bool) {
		d := a.p.rows[i].first
		if d.Year != 0 || d.Form == scan.TwoDigit {
			return 0, false
		}
		on, ok := d.On(order, leap)
		return int(on), ok
	}
	up, down := 0, 0
	for i := 1; i < len(a.p.rows); i++ {
		d, ok := day(i)
		e, had := day(i - 1)
		switch {
		case !ok || !had:
		case d > e && d-e < 180 || d < e-180:
			up++
		case d < e && e-d < 180 || d > e+180:
			down++
		}
	}
	a.turns(&y, day, up >= down)
	return y
}

// turns counts the turns into y; day gives the day of a row in a leap year.
func (a *attempt) turns(y *years, day func(int) (int, bool), forward bool) {
	turn, before, had := 0, 0, false
	for i := range a.p.rows {
		r := &a.p.rows[i]
		if r.dates > 0 && r.first.Yearless() {
			y.free = true
		}
		d, ok := day(i)
		if !ok {
			y.turns[i] = turn
			continue
		}
		switch {
		case had && forward && before-d > 180:
			turn++
		case had && !forward && d-before > 180:
			turn--
		}
		y.turns[i] = turn
		before, had = d, true
	}
}

// fit says how well a base year fits: ok is false if a date would not exist or
// lie in the future.
func (a *attempt) fit(order scan.Order, y years, base int) (weekdays, misses, near int, ok bool) {
	for i := range a.p.rows {
		r := &a.p.rows[i]
		if r.dates == 0 || !r.first.Yearless() {
			continue
		}
		d, exists := r.first.On(order, base+y.turns[i])
		if !exists {
			// A date that no year has is wrong by itself and decides nothing.
			if _, ever := r.first.On(order, 2024); ever {
				return 0, 0, 0, false
			}
			continue
		}
		if a.o.Today > 0 && d > a.o.Today {
			return 0, 0, 0, false
		}
		if r.weekday >= 0 {
			if int(d.Weekday()) == r.weekday {
				weekdays++
			} else {
				misses++
			}
		}
		if a.o.Near.Has(d) {
			near++
		}
	}
	return weekdays, misses, near, true
}

// fits gives the years, latest first, that agree with the most weekdays, and
// the greatest counts of weekdays and of days of the bills.
func (a *attempt) fits(order scan.Order, y years, latest int) (fits []candidate, most, nearest int) {
	for base := latest + 1; base > latest-15 && base >= calendar.FirstYear+30; base-- {
		weekdays, misses, near, ok := a.fit(order, y, base)
		if ok && weekdays >= misses && (base <= latest || a.o.Today > 0 || near > 0) {
			fits = append(fits, candidate{base, weekdays, near})
			most, nearest = max(most, weekdays), max(nearest, near)
		}
	}
	fits = slices.DeleteFunc(fits, func(c candidate) bool { return c.weekdays < most })
	return fits, most, nearest
}

// candidate is a year that may be the first row's.
type candidate struct{ year, weekdays, near int }

// baseYear finds the year of the first row.
func (a *attempt) baseYear(order scan.Order, y years) int {
	for i, r := range a.p.rows { // a row with a year anchors the others
		if r.dates > 0 && !r.first.Yearless() {
			if d, ok := r.first.On(order, 0); ok {
				return anchor(d, y, i, a.p.rows, order)
			}
		}
	}
	latest := lastGuess
	if a.o.Today > 0 {
		latest, _, _ = a.o.Today.Date()
	}
	fits, most, nearest := a.fits(order, y, latest)
	if said := a.yearSaid(); said != 0 {
		for _, c := range fits {
			if c.year == said {
				a.notice("year-from-text", "The year "+strconv.Itoa(said)+" was taken from the lines around the table.")
				return said
			}
		}
	}
	if nearest > 0 {
		fits = slices.DeleteFunc(fits, func(c candidate) bool { return c.near < nearest })
	}
	switch {
	case len(fits) == 0:
		return latest
	case len(fits) == 1 && nearest > 0:
		a.notice("year-from-bills", "No year is written; "+strconv.Itoa(fits[0].year)+" was taken, which the bills cover.")
		return fits[0].year
	case most > 0 && a.o.Today > 0:
		a.notice("year-from-weekdays", "No year is written; "+strconv.Itoa(fits[0].year)+" is the latest in which the weekdays agree.")
		return fits[0].year
	}
	var offered []int
	for _, c := range fits[:min(len(fits), 4)] {
		offered = append(offered, c.year)
	}
	return a.askYear(offered)
}

// anchor gives the base year that makes row i, which has its year, follow the
// rows around it.
func anchor(d calendar.Day, y years, i int, rows []row, order scan.Order) int {
	year, month, _ := d.Date()
	base := year - y.turns[i]
	// The nearest row without a year may lie across a turn of the year.
	for gap := 1; gap < len(rows); gap++ {
		for _, k := range [2]int{i + gap, i - gap} {
			if k < 0 || k >= len(rows) || !rows[k].first.Yearless() {
				continue
			}
			on, ok := rows[k].first.On(order, 2024)
			if !ok {
				continue
			}
			_, other, _ := on.Date()
			switch {
			case other-month > 6:
				return year - 1 - y.turns[k]
			case month-other > 6:
				return year + 1 - y.turns[k]
			}
			return year - y.turns[k]
		}
	}
	return base
}

// yearSaid gives the one year that the lines around the table name, 0 if none
// or several.
func (a *attempt) yearSaid() int {
	if len(a.p.years) == 0 {
		return 0
	}
	low, high := slices.Min(a.p.years), slices.Max(a.p.years)
	if low != high {
		return 0
	}
	return low
}

func (a *attempt) askYear(offered []int) int {
	if given, err := strconv.Atoi(a.o.Answers[a.id("year")]); err == nil && given >= calendar.FirstYear && given <= calendar.LastYear && !slices.Contains(offered, given) {
		offered = append(offered, given)
	}
	var choices []remark.Choice
	for _, y := range offered {
		choices = append(choices, remark.Choice{ID: strconv.Itoa(y), Label: "The first line is of " + strconv.Itoa(y)})
	}
	taken := a.ask("year", "Of which year are these readings?", "No year is written on the lines.", choices[0].ID, choices...)
	year, _ := strconv.Atoi(taken)
	return year
}
