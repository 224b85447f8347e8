package intake

import (
	"strconv"

	"splittally/calc/intake/scan"
)

// checkYears tells of rows that lie most of a year away from both neighbours,
// which lie close together: their year is likely mistyped.
func (a *attempt) checkYears() {
	var lines []int
	for i := 1; i+1 < len(a.placed); i++ {
		before, d, after := a.placed[i-1].span.First, a.placed[i].span.First, a.placed[i+1].span.First
		near := after - before
		if near > -32 && near < 32 && (d-before > 180 || before-d > 180) {
			lines = append(lines, a.p.rows[a.placed[i].row].line+1)
		}
	}
	if len(lines) > 0 && 4*len(lines) < len(a.placed)+4 {
		a.notice("year-doubtful", "The date on "+lineList(lines)+" lies far from those of the lines before and after; its year may be mistyped.")
	}
}

// tellAhead tells of rows of days after the last edit of the text. A day more
// is allowed for: the clock that counts may be on the other side of the world.
func (a *attempt) tellAhead() {
	var lines []int
	for i := range a.placed {
		if a.o.Today > 0 && a.placed[i].span.First > a.o.Today+1 {
			lines = append(lines, a.p.rows[a.placed[i].row].line+1)
		}
	}
	if len(lines) > 0 {
		a.notice("days-ahead", "The date on "+lineList(lines)+" lies in the future, after the day on which the text was pasted.")
	}
}

// checkWeekdays tells of rows whose weekday is not that of their date.
func (a *attempt) checkWeekdays() {
	var lines []int
	for pi := range a.placed {
		pl := &a.placed[pi]
		r := &a.p.rows[pl.row]
		if r.weekday >= 0 && r.dates == 1 && r.first.Form != scan.Month && int(pl.span.First.Weekday()) != r.weekday {
			lines = append(lines, r.line+1)
		}
	}
	if len(lines) > 0 {
		a.notice("weekday-differs", "The weekday does not fit the date on "+lineList(lines)+"; the date was taken.")
	}
}

// lineList names lines: "line 4", "lines 4, 7 and 3 more".
func lineList(lines []int) string {
	if len(lines) == 1 {
		return "line " + strconv.Itoa(lines[0])
	}
	text := "lines "
	for i, n := range lines {
		if i == 8 {
			return text + " and " + strconv.Itoa(len(lines)-i) + " more"
		}
		if i > 0 {
			text += ", "
		}
		text += strconv.Itoa(n)
	}
	return text
}
