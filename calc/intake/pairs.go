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
	first := -1
	for i := range p.facts {
		for _, r := range p.pairsOf(i) {
			if first < 0 {
				first = i
			}
			p.rows = append(p.rows, r)
		}
	}
	p.dated = true
	p.columns = []column{{}}
	p.readHeading(first)
	p.explainRest()
	return true
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
