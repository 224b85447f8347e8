package intake

import (
	"slices"
	"strings"

	"splittally/calc/intake/scan"
)

// layDates finds rows in a table on its side: days across, and a line for each
// monitor below them.
func (p *paper) layDates(heading int) bool {
	f := &p.facts[heading]
	if f.dates < 3 || f.numbers > 0 || f.times > 0 {
		return false
	}
	var dates []int
	for i := p.sheet.Lines[heading].First; i < p.sheet.Lines[heading].Past; i++ {
		if p.sheet.Items[i].Kind == scan.DateOf {
			dates = append(dates, i)
		}
	}
	var lines []int
	for i := heading + 1; i < len(p.facts) && len(lines) < maxColumns; i++ {
		if below := &p.facts[i]; below.dates == 0 && below.numbers > 0 && !aggregate(below.label) && below.numbers <= len(dates) {
			lines = append(lines, i)
		}
	}
	if len(lines) == 0 || p.facts[lines[0]].numbers*2 < len(dates) {
		return false
	}
	p.columns = make([]column, len(lines))
	for c, line := range lines {
		p.columns[c].name, p.columns[c].unit, _ = headingCell(p.wordsBefore(line))
		for place, item := range p.numbersOf(line) {
			p.rows = append(p.rows, p.sideways(line, c, p.dateAbove(dates, item, place), item))
		}
	}
	p.dated, p.grid, p.blocks = true, true, true
	p.lines[heading].Use, p.lines[heading].Why = Used, "names the columns"
	p.explainRest()
	return true
}

// daysAcross turns a line of four numbers or more, each one more than the one
// before, into days of the one month that the text names, if figures as many
// stand in the line below.
func (p *paper) daysAcross() {
	month, _, ok := p.monthNamed()
	for i := 0; ok && i+1 < len(p.facts); i++ {
		f := &p.facts[i]
		at := p.numbersOf(i)
		if f.dates > 0 || f.words > 0 || len(at) < 4 || p.facts[i+1].numbers < len(at)-1 || p.facts[i+1].dates > 0 {
			continue
		}
		first, _ := p.smallNumber(at[0], 31)
		counts := first > 0
		for k, item := range at {
			n, small := p.smallNumber(item, 31)
			counts = counts && small && n == first+k
		}
		if !counts {
			continue
		}
		for k, item := range at {
			it := &p.sheet.Items[item]
			*it = scan.Item{Kind: scan.DateOf, Cell: it.Cell, From: it.From, To: it.To, Date: scan.Date{Form: scan.Known, Year: month.Year, Month: month.Month, Day: first + k}}
		}
		p.facts[i] = p.gather(i)
	}
}

// wordsBefore gives the text of a line before its first number.
func (p *paper) wordsBefore(line int) string {
	text := p.sheet.Lines[line].Text[:p.sheet.Items[p.facts[line].firstNumber].From]
	return strings.Trim(strings.TrimSpace(text), ":;,|\t \"")
}

// dateAbove gives the item of the date that a figure stands below: in the same
// cell, or in the same place.
func (p *paper) dateAbove(dates []int, item, place int) int {
	if p.sheet.Delimiter != 0 {
		if i := slices.IndexFunc(dates, func(d int) bool { return p.sheet.Items[d].Cell == p.sheet.Items[item].Cell }); i >= 0 {
			return dates[i]
		}
	}
	return dates[min(place, len(dates)-1)]
}

// sideways makes the row of one figure of column c.
func (p *paper) sideways(line, c, date, item int) row {
	figures := slices.Repeat([]int{absent}, len(p.columns))
	figures[c] = item
	return row{line: line, first: p.sheet.Items[date].Date, dates: 1, from: -1, till: -1, weekday: -1, dateAt: -1, figures: figures}
}
