package intake

import (
	"slices"

	"splittally/calc/intake/scan"
	"splittally/calc/intake/words"
)

// Why a line that is a heading of days counts as used.
const headsDays = "the day of the lines around"

// turn says what a line is in a list in which days and figures take turns.
type turn uint8

const (
	neither turn = iota
	dayTurn
	figureTurn
)

// turnOf says which a line is.
func (p *paper) turnOf(i int) turn {
	f := &p.facts[i]
	if f.blank || f.rule || f.comment || aggregate(f.label) {
		return neither
	}
	switch {
	case (f.dates == 1 || f.month > 0 || f.relative != 0 || f.weekday >= 0) && f.numbers == 0 && f.missing == 0 && f.words <= 2 && f.money == 0:
		return dayTurn
	case f.dates == 0 && f.relative == 0 && f.month == 0 && f.words <= 4 && (f.numbers > 0 || f.missing > 0 && f.words == 0):
		return figureTurn
	}
	return neither
}

// inherit sees whether the figures stand on other lines than their days: day
// and figure on alternate lines, a day above its hours, a month above a list of
// day numbers. It makes the rows then.
func (p *paper) inherit(core int) bool {
	days, figures := 0, 0
	var order []int
	for i := range p.facts {
		switch p.turnOf(i) {
		case dayTurn:
			days++
			order = append(order, i)
		case figureTurn:
			figures++
			order = append(order, i)
		}
	}
	if days == 0 || figures == 0 || figures <= 2*core || 2*days < figures && p.figuresBefore(order) > figures/2 {
		return false
	}
	below := p.turnOf(order[0]) == dayTurn || p.turnOf(order[len(order)-1]) != dayTurn
	rows, lines := p.pair(order, below)
	if len(rows) == 0 {
		return false
	}
	p.dated = slices.ContainsFunc(rows, func(r row) bool { return r.dates > 0 })
	p.readHeading(order[0])
	p.findColumns(lines)
	for ri := range rows {
		r := &rows[ri]
		if r.figures == nil {
			r.figures = p.figuresOf(r.line)
		} else {
			for range p.columns {
				r.figures = append(r.figures, absent)
			}
		}
		p.rows = append(p.rows, *r)
	}
	for _, i := range order {
		if p.turnOf(i) == dayTurn && p.lines[i].Use == Ignored {
			p.lines[i].Use, p.lines[i].Why = Used, headsDays
		}
	}
	p.markStrays(order[0], order[len(order)-1])
	return true
}

// figuresBefore counts the figures above the first day.
func (p *paper) figuresBefore(order []int) int {
	for n, i := range order {
		if p.turnOf(i) == dayTurn {
			return n
		}
	}
	return len(order)
}

// pair gives each line of figures the day above it, or below it. A day with no
// figure is a row of its own, whose figures are absent.
func (p *paper) pair(order []int, below bool) (rows []row, lines []int) {
	heads, used := -1, false
	if !below {
		order = reversed(order)
	}
	bare := func() {
		if heads >= 0 && !used && p.dayOfHead(heads).Form != scan.Month {
			r := p.headRow(heads, heads)
			r.figures = []int{}
			rows = append(rows, r)
		}
	}
	for _, i := range order {
		if p.turnOf(i) == dayTurn {
			bare()
			heads, used = i, false
			continue
		}
		if heads < 0 {
			continue
		}
		r := p.headRow(i, heads)
		if r.first.Form == scan.Month && !p.dayNumber(i, &r) {
			continue
		}
		used = true
		rows, lines = append(rows, r), append(lines, i)
	}
	bare()
	if !below {
		rows, lines = reversed(rows), reversed(lines)
	}
	return rows, lines
}

func reversed[T any](s []T) []T {
	out := make([]T, 0, len(s))
	for i := len(s) - 1; i >= 0; i-- {
		out = append(out, s[i])
	}
	return out
}

// dayOfHead gives the date that a heading of days holds.
func (p *paper) dayOfHead(head int) scan.Date {
	f := &p.facts[head]
	if f.firstDate >= 0 {
		return p.sheet.Items[f.firstDate].Date
	}
	if f.month > 0 {
		return scan.Date{Form: scan.Month, Month: f.month}
	}
	return scan.Date{}
}

// headRow makes a row of a line with the day of another.
func (p *paper) headRow(line, head int) row {
	r := p.rowOf(line)
	r.figures = nil
	f := &p.facts[head]
	r.dateAt = f.firstDate
	r.weekday = f.weekday
	if r.weekday < 0 {
		r.weekday = p.facts[line].weekday
	}
	r.first, r.dates = p.dayOfHead(head), 1
	if f.firstDate < 0 && f.month == 0 {
		r.dates, r.relative = 0, f.relative
	}
	return r
}

// dayNumber takes the first number of a line below the name of a month as the
// day: "1  12.4". The number is then no figure any more.
func (p *paper) dayNumber(line int, r *row) bool {
	f := &p.facts[line]
	if f.firstNumber < 0 || f.numbers < 2 && f.missing+f.dashes == 0 {
		return false
	}
	it := &p.sheet.Items[f.firstNumber]
	if len(it.Readings) != 1 || it.Readings[0].Places != 0 || it.Unit != 0 {
		return false
	}
	day := it.Readings[0].Value.IntPart()
	if day < 1 || day > 31 {
		return false
	}
	r.first = scan.Date{Form: scan.Known, Year: r.first.Year, Month: r.first.Month, Day: int(day)}
	p.remove(line, f.firstNumber)
	r.dateAt = -1
	return true
}

// usable says whether a line without a day can be a row of figures.
func (p *paper) usable(i int) bool {
	f := &p.facts[i]
	return !f.blank && !f.rule && !f.comment && f.numbers > 0 && f.dates == 0 && !(aggregate(f.label) && f.numbers > 0) && f.label != words.Today
}
