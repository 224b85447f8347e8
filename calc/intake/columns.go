package intake

import (
	"slices"

	"splittally/calc/intake/scan"
	"splittally/calc/intake/words"
)

// slot is one figure, or mark for a missing one, of a line, and its column.
type slot struct {
	key  int // 8 × cell + place within the cell
	item int // or noData
}

// slots gives what a line has for columns. In a text without a delimiter the
// places count through the line.
func (p *paper) slots(line int) []slot {
	var found []slot
	l := p.sheet.Lines[line]
	place, cell := 0, -1
	dateCell := -1
	if d := p.facts[line].firstDate; d >= 0 {
		dateCell = p.sheet.Items[d].Cell
	}
	for i := l.First; i < l.Past; i++ {
		it := &p.sheet.Items[i]
		if it.Cell != cell {
			place, cell = 0, it.Cell
		}
		item := i
		switch it.Kind {
		case scan.Number:
			if it.Unit == words.Money || it.Unit == words.Other || it.Bracket && !it.Unit.IsEnergy() || len(found) > 0 && p.inRemark(i, l.Past) {
				continue
			}
		case scan.Missing:
			item = noData
		case scan.Dash:
			if p.sheet.Delimiter == 0 || cell == dateCell {
				continue
			}
			item = noData
		default:
			continue
		}
		if item == noData && it.Bracket {
			continue
		}
		found = append(found, slot{8*cell + min(place, 7), item})
		place++
	}
	switch {
	case p.sheet.Delimiter == 0:
		return p.freeSlots(line, found)
	case l.Cells == 1 && dateCell == 0:
		// A line set with blanks among lines set in cells, as when two copies
		// are pasted one below the other: its figures are the same columns.
		for i := range found {
			found[i].key = 8 * (i + 1)
		}
	}
	return found
}

// inRemark says whether a number that can't be read stands before a word in a
// line without cells, as in "12.4 home 7-9 pm".
func (p *paper) inRemark(item, past int) bool {
	it := &p.sheet.Items[item]
	return p.sheet.Delimiter == 0 && len(it.Readings) == 0 && !it.Lost && item+1 < past && p.sheet.Items[item+1].Kind == scan.Word
}

// freeSlots tidies the slots of a line without cells: numbers with a unit of
// energy win over those without, and marks count only if numbers do not.
func (p *paper) freeSlots(line int, found []slot) []slot {
	if p.facts[line].energies > 0 {
		energy := slices.ContainsFunc(found, func(s slot) bool { return s.item >= 0 && p.sheet.Items[s.item].Unit.IsEnergy() })
		found = slices.DeleteFunc(found, func(s slot) bool {
			if s.item < 0 {
				return false
			}
			u := p.sheet.Items[s.item].Unit
			return u == 0 || energy && u.IsPower() // the peak beside the energy
		})
	}
	numbers := 0
	for _, s := range found {
		if s.item >= 0 {
			numbers++
		}
	}
	if n := len(p.columns); n > 0 && numbers >= n {
		found = slices.DeleteFunc(found, func(s slot) bool { return s.item < 0 })
	}
	for i := range found {
		found[i].key = i
	}
	return found
}

// findColumns decides which columns hold figures.
func (p *paper) findColumns(core []int) {
	count := map[int]int{}
	if p.sheet.Delimiter == 0 {
		most := p.usualNumbers(core)
		for k := range most {
			count[k] = len(core)
		}
	} else {
		for _, line := range core {
			for _, s := range p.slots(line) {
				if s.item >= 0 {
					count[s.key]++
				}
			}
		}
	}
	best := 0
	for _, n := range count {
		best = max(best, n)
	}
	for key, n := range count {
		if key%8 > 0 && p.sheet.Delimiter != 0 && 2*n < best {
			continue // numbers in remarks
		}
		if p.sheet.Delimiter != 0 && 4*n <= best && key/8 >= p.cellsOf(core) {
			continue // a cell too many
		}
		p.columns = append(p.columns, column{key: key})
	}
	arrange(p.columns, func(c *column) int { return c.key })
	p.columns = p.columns[:min(len(p.columns), maxColumns)]
	p.nameColumns(core)
	p.dropColumns(core, count, best)
}

// cellsOf gives how many cells most of some lines have, or the heading if it has
// more.
func (p *paper) cellsOf(lines []int) int {
	cells := make([]int, len(lines))
	for i, line := range lines {
		cells[i] = p.sheet.Lines[line].Cells
	}
	usual := middle(cells)
	for _, h := range p.headings {
		usual = max(usual, p.sheet.Lines[h].Cells)
	}
	return usual
}

// usualNumbers gives how many figures most rows have.
func (p *paper) usualNumbers(core []int) int {
	times := map[int]int{}
	for _, line := range core {
		n := 0
		for _, s := range p.slots(line) {
			if s.item >= 0 {
				n++
			}
		}
		if n > 0 {
			times[n]++
		}
	}
	usual := 0
	for n, t := range times {
		if t > times[usual] || t == times[usual] && n > usual {
			usual = n
		}
	}
	for _, h := range p.headings {
		if named := len(p.figureHeadings(h, 0)); times[named] > 0 && named > usual {
			return named
		}
	}
	return usual
}

// figuresOf fills the columns of a line.
func (p *paper) figuresOf(line int) []int {
	figures := make([]int, len(p.columns))
	for i := range figures {
		figures[i] = absent
	}
	found := p.slots(line)
	if p.sheet.Delimiter == 0 && len(p.columns) > 1 && len(found) < len(p.columns)+len(p.dropped) && len(found) > 0 {
		p.align(line, found, figures)
		return figures
	}
	for _, s := range found {
		if i := slices.IndexFunc(p.columns, func(c column) bool { return c.key == s.key }); i >= 0 {
			figures[i] = s.item
		}
	}
	return figures
}

// align puts the figures of a row that has too few under the columns that they
// stand below, by the ends of the figures in the rows that have all.
func (p *paper) align(line int, found []slot, figures []int) {
	for _, s := range found {
		if s.item < 0 {
			continue
		}
		it := &p.sheet.Items[s.item]
		best, gap := -1, 1<<30
		for c, col := range p.columns {
			d := min(abs(col.ends-it.To), abs(col.begins-it.From))
			if figures[c] == absent && d < gap {
				best, gap = c, d
			}
		}
		if best >= 0 {
			figures[best] = s.item
		}
	}
}

func abs(n int) int {
	if n < 0 {
		return -n
	}
	return n
}
