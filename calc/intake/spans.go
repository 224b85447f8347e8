package intake

import (
	"splittally/calc/calendar"
	"splittally/calc/intake/scan"
	"splittally/calc/remark"
)

// settleSpans sees whether figures that are days apart from each other are
// totals of the time between. Words such as “week of” decide; an even step of
// several days makes it likely; otherwise it is asked.
func (a *attempt) settleSpans(figures []figure) []figure {
	step, even, apart := steps(figures)
	if !apart {
		return figures
	}
	words := a.p.weekly && step == 7
	taken := "days"
	switch {
	case words && !a.asked("totals-of-weeks"):
		taken = "from"
		if a.p.weekEnding {
			taken = "until"
		}
		a.notice("totals-of-weeks", "The figures were taken as totals of weeks, each shared evenly among its seven days.")
	case a.asked("totals-of-weeks"):
		taken = a.taken("totals-of-weeks")
	case len(figures) < 3:
		return figures
	default:
		switch {
		case monthEnds(figures):
			taken = "until"
		case even:
			taken = "from"
		}
		why := "No two dates are next to each other."
		if even {
			why = "The dates are an even " + plural(step, "day") + " apart."
		}
		taken = a.ask("totals-of-weeks", "Is each figure the energy of its one day, or of all days up to the next date?", why, taken,
			remark.Choice{ID: "days", Label: "Of its one day; the days between are missing"},
			remark.Choice{ID: "from", Label: "Of the days from its date on, up to the next date"},
			remark.Choice{ID: "until", Label: "Of the days after the date before, up to its own"})
	}
	switch taken {
	case "from":
		return stretch(figures, step)
	case "until":
		return stretchBack(figures, step)
	}
	return figures
}

// steps measures how far single days lie apart: apart if no two are next to
// each other, even if all steps are alike (months count as alike). The step is
// the last one.
func steps(figures []figure) (step int, even, apart bool) {
	if len(figures) < 2 {
		return 0, false, false
	}
	least, most := 1<<30, 0
	for i := range figures {
		f := &figures[i]
		if f.span.Days() != 1 {
			return 0, false, false
		}
		if i > 0 {
			step = int(f.span.First - figures[i-1].span.First)
			least, most = min(least, step), max(most, step)
		}
	}
	_, _, first := figures[0].span.First.Date()
	_, _, last := figures[len(figures)-1].span.First.Date()
	monthly := (first == last || monthEnds(figures)) && least >= 28 && most <= 31
	return step, least == most || monthly, least > 1
}

// monthEnds says whether each figure is of the last day of a month.
func monthEnds(figures []figure) bool {
	for i := range figures {
		if dayOf(figures[i].span.End) != 1 {
			return false
		}
	}
	return true
}

// stretch makes each figure the total from its day up to the next one's; the
// last one's is as long as the step before it.
func stretch(figures []figure, step int) []figure {
	for i := range figures {
		if i+1 < len(figures) {
			figures[i].span.End = figures[i+1].span.First
		} else {
			figures[i].span.End = figures[i].span.First + calendar.Day(step)
			if y, m, d := figures[i].span.First.Date(); d == 1 && step >= 28 && step <= 31 {
				if whole, ok := wholeOf(scan.Date{Form: scan.Month, Year: y, Month: m}, 0, 0); ok {
					figures[i].span = whole
				}
			}
		}
	}
	return figures
}

// stretchBack makes each figure the total of the days after the one before, up
// to its own day; the first one's is as long as the step after it.
func stretchBack(figures []figure, step int) []figure {
	if len(figures) > 1 {
		step = int(figures[1].span.First - figures[0].span.First)
	}
	before := figures[0].span.End - calendar.Day(step)
	if monthEnds(figures) {
		before = figures[0].span.First - calendar.Day(dayOf(figures[0].span.First)-1)
	}
	for i := range figures {
		end := figures[i].span.End
		figures[i].span.First = before
		before = end
	}
	return figures
}
