package intake

import (
	"splittally/calc/calendar"
	"splittally/calc/intake/scan"
	"splittally/calc/remark"
)

// trial counts how well one order of day and month fits the text.
type trial struct {
	order    scan.Order
	id       string
	label    string
	dots     bool // every date is written with dots
	valid    int  // dates that exist
	weekdays int  // weekdays that agree
	daily    int  // steps of one day between dates next to each other
	regular  int  // these, and steps of one month
	near     int  // days that the bills cover
}

// settleOrder finds the order of the parts of dates in digits. Tried in turn:
// which order gives days that exist, agrees with the weekdays, gives steps of a
// day or a month, falls on the bills. Dots are day first in every country that
// writes them (common practice, no source). Otherwise it is asked.
func (a *attempt) settleOrder() scan.Order {
	trials := a.trials()
	if len(trials) == 0 {
		return scan.DayFirst
	}
	for i := range trials {
		a.try(&trials[i])
	}
	if trials[0].dots && trials[0].valid > 0 {
		trials = append(trials[:1], trials[2:]...) // not month first
	}
	for _, merit := range []func(trial) int{
		func(t trial) int { return t.valid },
		func(t trial) int { return t.weekdays },
		func(t trial) int { return t.regular },
		func(t trial) int { return t.daily },
	} {
		trials = bestBy(trials, merit)
	}
	byBills := len(trials) > 1
	trials = bestBy(trials, func(t trial) int { return t.near })
	if len(trials) == 1 {
		if byBills {
			a.notice("day-order-from-bills", "Dates were read with the "+map[string]string{"day-first": "day", "month-first": "month", "year-first": "year"}[trials[0].id]+" first, since they then fall on the days of the bills.")
		}
		return trials[0].order
	}
	return a.askOrder(trials)
}

// trials gives the orders that the dates in digits may have; none if there are
// no such dates.
func (a *attempt) trials() []trial {
	open, dots, two := 0, 0, 0
	for i := range a.p.rows {
		for _, d := range [2]*scan.Date{&a.p.rows[i].first, &a.p.rows[i].last} {
			if d.Form != scan.DayMonth && d.Form != scan.TwoDigit {
				continue
			}
			open++
			if d.Mark == '.' {
				dots++
			}
			if d.Form == scan.TwoDigit {
				two++
			}
		}
	}
	if open == 0 {
		return nil
	}
	trials := []trial{{order: scan.DayFirst, id: "day-first", label: "Day first", dots: dots == open}}
	trials = append(trials, trial{order: scan.MonthFirst, id: "month-first", label: "Month first"})
	if two == open && a.yearMayLead() {
		trials = append(trials, trial{order: scan.YearFirst, id: "year-first", label: "Year first"})
	}
	return trials
}

// bestBy keeps the trials with the greatest merit.
func bestBy(trials []trial, merit func(trial) int) []trial {
	best := 0
	for _, t := range trials {
		best = max(best, merit(t))
	}
	var kept []trial
	for _, t := range trials {
		if merit(t) == best {
			kept = append(kept, t)
		}
	}
	return kept
}

// yearMayLead says whether the first parts of two-digit dates can be years:
// they are at most two, next to each other.
func (a *attempt) yearMayLead() bool {
	low, high := 100, -1
	for ri := range a.p.rows {
		r := &a.p.rows[ri]
		if r.first.Form == scan.TwoDigit {
			low, high = min(low, r.first.A), max(high, r.first.A)
		}
	}
	return high-low <= 1
}

// try counts how well an order fits. Dates without a year are tried in a leap
// year.
func (a *attempt) try(t *trial) {
	const leap = 2024
	var days []calendar.Day
	for ri := range a.p.rows {
		r := &a.p.rows[ri]
		d, ok := r.first.On(t.order, leap)
		if !ok {
			continue
		}
		t.valid++
		if r.weekday >= 0 && !r.first.Yearless() && int(d.Weekday()) == r.weekday {
			t.weekdays++
		}
		if a.o.Near.Has(d) && !r.first.Yearless() {
			t.near++
		}
		days = append(days, d)
		if r.dates == 2 {
			if _, ok := r.last.On(t.order, leap); ok {
				t.valid++
			}
		}
	}
	arrange(days, func(d *calendar.Day) int { return int(*d) })
	for i := 1; i < len(days); i++ {
		switch step := days[i] - days[i-1]; {
		case step == 1:
			t.daily++
			t.regular++
		case step >= 28 && step <= 31 && dayOf(days[i]) == dayOf(days[i-1]):
			t.regular++
		}
	}
}

// dayOf gives the day of the month.
func dayOf(d calendar.Day) int {
	_, _, day := d.Date()
	return day
}

func (a *attempt) askOrder(trials []trial) scan.Order {
	provisional := trials[0].id
	var choices []remark.Choice
	for _, t := range trials {
		choices = append(choices, remark.Choice{ID: t.id, Label: t.label})
		if t.order == scan.MonthFirst && a.mark != ',' {
			provisional = t.id // the order of the countries with decimal points and slashes
		}
	}
	example := ""
	for ri := range a.p.rows {
		r := &a.p.rows[ri]
		if r.dateAt >= 0 && (r.first.Form == scan.DayMonth || r.first.Form == scan.TwoDigit) {
			it := &a.p.sheet.Items[r.dateAt]
			example = a.p.sheet.Lines[a.p.lineOf(r.dateAt)].Text[it.From:it.To]
			break
		}
	}
	taken := a.ask("day-order", "Which stands first in “"+example+"”, the day or the month?",
		"Every date in the text exists in either order, and nothing else decides.", provisional, choices...)
	for _, t := range trials {
		if t.id == taken {
			return t.order
		}
	}
	return trials[0].order
}
