package intake

import (
	"slices"

	"splittally/calc/intake/scan"
	"splittally/calc/intake/words"
)

// layTable finds the rows of a table with a reading to each line, or of a list
// in which days and figures take turns.
func (p *paper) layTable() {
	p.carryDates()
	core := p.coreLines()
	switch {
	case p.inherit(len(core)):
	case len(core) > 0:
		p.buildRows(core)
	default:
		p.layUndated()
	}
	p.explainRest()
}

// coreLines gives the lines that hold a day and a figure or a missing mark, and
// are neither totals nor sentences.
func (p *paper) coreLines() []int {
	var lines, wordy []int
	labelled := 0
	for i := range p.facts {
		f := &p.facts[i]
		if f.blank || f.rule || f.comment || f.dates == 0 && f.relative == 0 && f.carried == 0 || f.numbers+f.missing+f.dashes == 0 {
			continue
		}
		lines = append(lines, i)
		wordy = append(wordy, f.words)
		if aggregate(f.label) && f.labelFirst {
			labelled++
		}
	}
	if len(lines) == 0 {
		return nil
	}
	most := 2 + 2*middle(wordy)
	totals := 2*labelled < len(lines)
	return slices.DeleteFunc(lines, func(i int) bool {
		f := &p.facts[i]
		switch {
		case totals && aggregate(f.label) && f.labelFirst && f.numbers > 0:
			return true
		case p.sheet.Delimiter == 0 && f.words > most:
			p.lines[i].Why = "a sentence, not a row of the table"
			return true
		}
		return false
	})
}

// aggregate says whether a label makes its row a sum, a mean or the like.
func aggregate(l words.Label) bool {
	return l == words.Total || l == words.Average || l == words.Extreme || l == words.Count
}

// buildRows makes a row of each core line.
func (p *paper) buildRows(core []int) {
	p.dated = true
	core = p.withBlankDays(core)
	first, last := core[0], core[len(core)-1]
	p.readHeading(first)
	p.findColumns(core)
	for _, i := range core {
		p.rows = append(p.rows, p.rowOf(i))
	}
	p.markWide(core)
	p.layBlocks()
	p.markStrays(first, last)
}

// withBlankDays adds the lines between the first and the last that hold a day
// and nothing else: in a table that is a day without a figure.
func (p *paper) withBlankDays(core []int) []int {
	all := core[:0:0]
	first, last, next := core[0], core[len(core)-1], 0
	for i := first; i < len(p.facts); i++ {
		f := &p.facts[i]
		if next < len(core) && core[next] == i {
			all = append(all, i)
			next++
			continue
		}
		bare := f.dates == 1 && f.numbers+f.brackets == 0 && f.words == 0 && !f.comment && f.money == 0
		if bare && (i < last || p.sheet.Delimiter != 0 && p.sheet.Lines[i].Cells > 1) && !aggregate(f.label) {
			all = append(all, i)
		}
	}
	return all
}

// rowOf reads the days, times and weekday of a line.
func (p *paper) rowOf(line int) row {
	f := &p.facts[line]
	r := row{line: line, from: -1, till: -1, weekday: f.weekday, dateAt: f.firstDate, relative: f.relative}
	items := p.sheet.Of(line)
	between := false // a figure stands behind the first date: another date is a remark
	for ii := range items {
		it := &items[ii]
		between = between || r.dates == 1 && it.Kind == scan.Number
		switch {
		case it.Kind == scan.DateOf && r.dates == 0:
			r.first, r.dates = it.Date, 1
		case it.Kind == scan.DateOf && r.dates == 1 && !it.Bracket && !between:
			r.last, r.dates = it.Date, 2
		case it.Kind == scan.TimeOf && r.from < 0:
			r.from, r.zone, r.zoned = it.Minute, it.Offset, it.Zoned
		case it.Kind == scan.TimeOf && r.till < 0:
			r.till = it.Minute
		}
	}
	if f.carried > 0 && r.dates == 0 {
		r.dateAt = f.carried
		r.first, r.dates = p.sheet.Items[r.dateAt].Date, 1
	}
	p.oneClock(&r)
	if r.dates > 0 {
		r.relative = 0
	}
	if r.dates == 2 && r.first.Yearless() && r.last.Year != 0 {
		r.first.Year, r.lent = r.last.Year, true
	}
	p.setHour(&r)
	r.figures = p.figuresOf(line)
	return r
}

// markRemarks tells of lines that have numbers beside their figures.
func (p *paper) markRemarks() {
	if p.sheet.Delimiter != 0 || len(p.dropped) > 0 {
		return
	}
	for i := 0; i < len(p.rows); {
		line, used := p.rows[i].line, 0
		for ; i < len(p.rows) && p.rows[i].line == line; i++ {
			for _, item := range p.rows[i].figures {
				if item >= 0 {
					used++
				}
			}
		}
		if f := &p.facts[line]; used > 0 && f.numbers+f.others > used && p.lines[line].Use == Used && p.lines[line].Why == "" && !p.grid {
			p.lines[line].Why = "the rest is a remark"
		}
	}
}

// explainRest says of each line that is no row why it is not.
func (p *paper) explainRest() {
	isRow := make([]bool, len(p.lines))
	for ri := range p.rows {
		r := &p.rows[ri]
		isRow[r.line] = true
		if !r.wrong {
			p.lines[r.line].Use, p.lines[r.line].Why = Used, ""
		}
	}
	p.markRemarks()
	for i := range p.lines {
		l, f := &p.lines[i], &p.facts[i]
		if isRow[i] {
			continue
		}
		if l.Use != Ignored || l.Why != "no day and no figure on it" {
			continue
		}
		switch {
		case f.blank:
			l.Why = "blank"
		case f.rule:
			l.Why = "a drawn line"
		case f.comment:
			l.Why = "a comment"
		case aggregate(f.label) && f.numbers > 0 && len(p.rows) > 0:
			l.Why = map[words.Label]string{words.Total: "a total, not a day", words.Average: "an average, not a day", words.Extreme: "a least or greatest value, not a day", words.Count: "a count, not a day"}[f.label]
			p.labels = append(p.labels, labelRow{line: i, label: f.label, items: p.numbersOf(i)})
		case f.dates == 0 && f.numbers > 0:
			l.Why = "no day on it"
		case f.dates > 0 && f.money > 0:
			l.Why = "an amount of money, not energy"
		case f.dates > 0:
			l.Why = "no figure on it"
		case f.dateName || f.units > 0:
			l.Why = "a heading"
		case f.words > 0:
			l.Why = "words alone"
		}
	}
}

// numbersOf gives the items of a line that can be figures.
func (p *paper) numbersOf(line int) []int {
	var at []int
	l := p.sheet.Lines[line]
	for i := l.First; i < l.Past; i++ {
		it := &p.sheet.Items[i]
		if it.Kind == scan.Number && it.Unit != words.Money && it.Unit != words.Other && (!it.Bracket || it.Unit.IsEnergy()) {
			at = append(at, i)
		}
	}
	return at
}
