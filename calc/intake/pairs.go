package intake

import (
	"splittally/calc/intake/scan"
)

// layPairs finds rows in lines that hold several days, each with its figure
// behind it: tables side by side, or a list run on in one line.
func (p *paper) layPairs() bool {
	paired, dated := 0, 0
	for i := range p.facts {
		if p.facts[i].dates > 0 && p.facts[i].numbers > 0 {
			dated++
			if len(p.pairsOf(i)) > 1 {
				paired++
			}
		}
	}
	if paired == 0 || 2*paired <= dated {
		return false
	}
	first, across := -1, false
	for i := range p.facts {
		for place, r := range p.pairsOf(i) {
			if first < 0 {
				first = i
			}
			if place == 1 && len(p.rows) == 1 {
				across = !follows(p.rows[0].first, r.first)
			}
			p.rows = append(p.rows, r)
		}
	}
	if across { // tables side by side are read one after the other
		place, before := 0, -1
		arrange(p.rows, func(r *row) int {
			place++
			if r.line != before {
				place, before = 0, r.line
			}
			return place
		})
	}
	p.dated, p.grid = true, true
	p.columns = []column{{}}
	p.readHeading(first)
	p.explainRest()
	return true
}

// follows says whether a date is the day after another, in a list that runs on
// along the line.
func follows(a, b scan.Date) bool {
	if a.Form == scan.Known {
		return b.Day-a.Day == 1 || a.Day-b.Day == 1
	}
	return abs(a.A-b.A) == 1 && a.B == b.B || abs(a.B-b.B) == 1 && a.A == b.A
}

// pairsOf gives the rows of a line in which every day has one figure, or a mark
// for none, before the next day; none if it is not such a line.
func (p *paper) pairsOf(line int) []row {
	var rows []row
	l := p.sheet.Lines[line]
	for i := l.First; i < l.Past; i++ {
		it := &p.sheet.Items[i]
		n := len(rows) - 1
		switch {
		case it.Kind == scan.DateOf:
			if n >= 0 && rows[n].figures[0] == absent {
				return nil // a range
			}
			rows = append(rows, row{line: line, first: it.Date, dates: 1, from: -1, till: -1, weekday: -1, dateAt: i, figures: []int{absent}})
		case it.Kind == scan.Number:
			if n < 0 || rows[n].figures[0] != absent {
				return nil
			}
			rows[n].figures[0] = i
		case it.Kind == scan.Missing && n >= 0 && rows[n].figures[0] == absent:
			rows[n].figures[0] = noData
		case it.Kind == scan.TimeOf:
			return nil
		}
	}
	return rows
}
