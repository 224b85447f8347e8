package intake

import (
	"slices"

	"splittally/calc/intake/scan"
	"splittally/calc/intake/words"
)

// markStrays finds the lines within the table that hold a figure or a day but
// not both, and aren't totals: they are wrong, the first lines and the last are
// prose.
func (p *paper) markStrays(first, last int) {
	core := make(map[int]bool, len(p.rows))
	for ri := range p.rows {
		r := &p.rows[ri]
		core[r.line] = true
	}
	for i := first; i <= last; i++ {
		f := &p.facts[i]
		if core[i] || f.blank || f.rule || f.comment || aggregate(f.label) || p.lines[i].Why != "no day and no figure on it" {
			continue
		}
		switch {
		case f.numbers > 0 && f.dates == 0 && (f.words == 0 || f.energies > 0 && f.words <= 4 || f.words == 1 && p.endsInNumber(i)):
			p.lines[i].Use = Wrong
			p.lines[i].Why = wrongDay
		case f.dates > 0 && f.numbers == 0:
			p.wrongDayRow(i)
		}
	}
	// Right above and below the table a malformed date makes a line wrong too.
	for i := first - 1; i >= 0 && p.isMisreadRow(i, first); i-- {
		p.lines[i].Use, p.lines[i].Why = Wrong, wrongDay
	}
	for i := last + 1; i < len(p.facts); i++ {
		switch {
		case p.isMisreadRow(i, last):
			p.lines[i].Use, p.lines[i].Why = Wrong, wrongDay
		case p.lacksFigure(i, last):
			p.wrongDayRow(i)
		default:
			return
		}
	}
}

// wrongDayRow makes a row of a line with a day but no figure: the day is in the
// table, but the line is wrong.
func (p *paper) wrongDayRow(i int) {
	r := p.rowOf(i)
	p.spoil(&r, wrongFigure)
	p.rows = append(p.rows, r)
}

// lacksFigure says whether a line has the cells of a row, the first with a day,
// and something in another that is no figure.
func (p *paper) lacksFigure(i, row int) bool {
	f, l := &p.facts[i], p.sheet.Lines[i]
	return p.sheet.Delimiter != 0 && f.dates > 0 && f.numbers+f.missing+f.dashes+f.money == 0 && f.words == 0 && !aggregate(f.label) &&
		l.Cells == p.sheet.Lines[row].Cells && l.Past-l.First > 1 && p.sheet.Items[l.First].Kind == scan.DateOf
}

// isMisreadRow says whether a line holds a malformed number and a figure, and
// nothing else; or a month's name, a number that is no day of it and a figure;
// or, in cells as those of a row, a number in place of the day.
func (p *paper) isMisreadRow(i, row int) bool {
	f, l := &p.facts[i], p.sheet.Lines[i]
	if f.dates > 0 || f.numbers < 2 || f.words > 0 || aggregate(f.label) || !p.endsInNumber(i) {
		return false
	}
	date := p.facts[row].firstDate
	inCells := p.sheet.Delimiter != 0 && l.Cells == p.sheet.Lines[row].Cells && date >= 0 && p.sheet.Items[l.First].Cell == p.sheet.Items[date].Cell
	first := &p.sheet.Items[l.First]
	byMonth := first.Kind == scan.Word && words.Month(first.Fold) > 0 && f.numbers == 2
	return inCells || byMonth || len(p.sheet.Items[f.firstNumber].Readings) == 0
}

// endsInNumber says whether a line has two numbers or more, the last of which
// is the last thing on it: a misspelt date and its figure.
func (p *paper) endsInNumber(i int) bool {
	l := p.sheet.Lines[i]
	return p.facts[i].numbers > 1 && p.sheet.Items[l.Past-1].Kind == scan.Number
}

// markWide finds the few rows that have a bare figure more than all others.
// Which one is meant nobody can tell, so their lines are wrong.
func (p *paper) markWide(core []int) {
	var wide []int
	cells := p.cellsOf(core)
	for i := range p.rows {
		if p.isWide(&p.rows[i], cells) {
			wide = append(wide, i)
		}
	}
	if 4*len(wide) <= len(p.rows) {
		for _, i := range wide {
			p.spoil(&p.rows[i], wrongWide)
		}
	}
	for i := range p.rows {
		if slices.ContainsFunc(p.sheet.Of(p.rows[i].line), func(it scan.Item) bool { return it.Lost }) {
			p.spoil(&p.rows[i], wrongLost)
		}
	}
}

// spoil makes the line of a row wrong: nothing on it can be trusted.
func (p *paper) spoil(r *row, why string) {
	r.wrong, r.figures = true, slices.Repeat([]int{absent}, len(p.columns))
	p.lines[r.line].Use, p.lines[r.line].Why = Wrong, why
}

// isWide says whether a row ends in a bare figure for which no column is left:
// in a cell beyond all others', or right behind its last figure.
func (p *paper) isWide(r *row, cells int) bool {
	l := p.sheet.Lines[r.line]
	last := &p.sheet.Items[l.Past-1]
	if last.Kind != scan.Number || last.Unit != 0 || last.Bracket || slices.Contains(r.figures, l.Past-1) {
		return false
	}
	if p.sheet.Delimiter != 0 {
		return last.Cell >= cells
	}
	return p.sheet.Items[l.Past-2].Kind == scan.Number && slices.Contains(r.figures, l.Past-2) && last.From-p.sheet.Items[l.Past-2].To <= 8 && len(p.dropped) == 0
}

// What a wrong line lacks, in the words of a problem.
const (
	wrongDay    = "a day, such as 2023-10-03 or 3 Oct 2023"
	wrongLength = "a line of at most 8000 characters"
	wrongLost   = "a line for each day: here lines are run together"
	wrongWide   = "no more figures than on the other lines"
	wrongFigure = "energy, such as 12.4 kWh, or -- for a day without"
)
