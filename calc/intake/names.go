package intake

import (
	"slices"
	"strings"

	"splittally/calc/intake/scan"
	"splittally/calc/intake/words"
	"splittally/calc/number"
)

// dropColumns leaves out columns that are no energy: row numbers, remarks, and
// what the heading calls money or weather.
func (p *paper) dropColumns(core []int, count map[int]int, best int) {
	energy := slices.ContainsFunc(p.columns, func(c column) bool { return c.unit.IsEnergy() || c.unit.IsPower() })
	p.findHours(core)
	kept := slices.DeleteFunc(slices.Clone(p.columns), func(c column) bool {
		return p.isNoEnergy(&c, core, count, best, energy)
	})
	if len(kept) == 0 {
		allMoney := slices.ContainsFunc(p.columns, func(c column) bool { return c.label != words.Ordinal })
		p.noEnergy = p.noEnergy || allMoney
	}
	for _, c := range p.columns {
		if c.key != p.hourKey-1 && !slices.ContainsFunc(kept, func(k column) bool { return k.key == c.key }) {
			p.dropped = append(p.dropped, c)
		}
	}
	p.columns = kept
}

// isNoEnergy says whether a column is to be left out. energy tells whether any
// column has a unit of energy or power.
func (p *paper) isNoEnergy(c *column, core []int, count map[int]int, best int, energy bool) bool {
	if c.key == p.hourKey-1 {
		return true
	}
	switch c.label {
	case words.Cost, words.Weather, words.Ordinal, words.Note, words.Count:
		return !c.unit.IsEnergy() && !c.unit.IsPower()
	case words.Difference, words.Average, words.Extreme:
		return p.instruments() > 1 // a difference beside one register is the energy
	case words.Register, words.Total:
		if c.unit == 0 && energy {
			return false
		}
	}
	switch {
	case c.unit == words.Money || c.unit == words.Other:
		return true
	case c.unit.IsPower() && slices.ContainsFunc(p.columns, func(o column) bool { return o.unit.IsEnergy() }):
		return true // the peak beside the energy
	case c.unit == 0 && 5*count[c.key] < best && (c.name == "" || p.wordsIn(c.key/8, core)):
		return true
	case p.countsRows(c.key, core) && len(p.columns) > 1:
		return true
	case len(p.columns) > 1 && len(core) > 2 && !p.readable(c.key, core):
		p.unread = true
		return true // “8-15” degrees
	case c.unit == 0 && len(p.columns) > 1 && p.neverChanges(c.key, core):
		p.constant = p.constant || c.name == ""
		return true // the hours of a day, the number of a meter
	}
	return false
}

// aside says whether a column of this label stands beside one of figures.
func aside(l words.Label) bool {
	switch l {
	case words.Difference, words.Average, words.Extreme, words.Cost, words.Weather, words.Ordinal, words.Note, words.Count:
		return true
	}
	return false
}

// instruments counts the columns that can be of instruments, one for a single
// column of register reads and two at least for any other.
func (p *paper) instruments() int {
	n := 0
	for _, c := range p.columns {
		switch {
		case aside(c.label):
		case c.label == words.Register:
			n++
		default:
			n += 2
		}
	}
	return n
}

// wordsIn says whether words stand in a cell of some lines: then the numbers in
// others are remarks.
func (p *paper) wordsIn(cell int, lines []int) bool {
	for _, line := range lines {
		for _, it := range p.sheet.Of(line) {
			if it.Cell == cell && it.Kind == scan.Word {
				return true
			}
		}
	}
	return false
}

// allMoney says whether the columns that were left out are of money.
func (p *paper) allMoney() bool {
	return slices.ContainsFunc(p.dropped, func(c column) bool { return c.label == words.Cost || c.unit == words.Money })
}

// countsRows says whether a column numbers the rows 1, 2, 3 …
func (p *paper) countsRows(key int, core []int) bool {
	if len(core) < 3 {
		return false
	}
	before := int64(-1)
	for _, line := range core {
		i := slices.IndexFunc(p.slots(line), func(s slot) bool { return s.key == key })
		if i < 0 {
			return false
		}
		item := p.slots(line)[i].item
		if item < 0 || len(p.sheet.Items[item].Readings) != 1 || p.sheet.Items[item].Readings[0].Places != 0 {
			return false
		}
		n := p.sheet.Items[item].Readings[0].Value.IntPart()
		first := n <= 1 || item < p.facts[line].firstDate // any number may stand before the days
		if before < 0 && !first || before >= 0 && n != before+1 {
			return false
		}
		before = n
	}
	return true
}

// readable says whether any figure of a column can be read.
func (p *paper) readable(key int, core []int) bool {
	for _, line := range core {
		for _, s := range p.slots(line) {
			if s.key == key && s.item >= 0 && len(p.sheet.Items[s.item].Readings) > 0 {
				return true
			}
		}
	}
	return false
}

// neverChanges says whether a column holds the same whole number in each of four
// rows or more: one that is the hours of a day, or more than a home uses in one.
func (p *paper) neverChanges(key int, core []int) bool {
	var first *number.Reading
	for _, line := range core {
		i := slices.IndexFunc(p.slots(line), func(s slot) bool { return s.key == key && s.item >= 0 })
		if i < 0 {
			return false
		}
		rs := p.sheet.Items[p.slots(line)[i].item].Readings
		if len(rs) != 1 || rs[0].Places != 0 || first != nil && !rs[0].Value.Equal(first.Value) {
			return false
		}
		first = &rs[0]
	}
	n := first.Value.IntPart()
	return len(core) > 3 && (n == 24 || n > 300)
}

// nameColumns takes names and units from the heading, and from the first full
// row where the figures stand.
func (p *paper) nameColumns(core []int) {
	for _, line := range core {
		found := p.slots(line)
		if len(found) < len(p.columns) {
			continue
		}
		for i := range p.columns {
			for _, s := range found {
				if s.key == p.columns[i].key && s.item >= 0 {
					p.columns[i].begins, p.columns[i].ends = p.sheet.Items[s.item].From, p.sheet.Items[s.item].To
				}
			}
		}
		break
	}
	for _, h := range p.headings {
		var cells []string
		if p.sheet.Delimiter != 0 {
			cells = p.headingTexts(h)
		} else if cells = p.figureHeadings(h, len(p.columns)); len(cells) > len(p.columns)+3 {
			continue
		}
		if len(p.columns) == 1 && p.sheet.Delimiter == 0 {
			for _, cell := range cells {
				p.columns[0].describe(cell)
			}
			continue
		}
		for i := range p.columns {
			c, at := &p.columns[i], i
			if p.sheet.Delimiter != 0 {
				at = c.key / 8
			}
			if at < len(cells) {
				c.describe(cells[at])
			}
		}
	}
}

// figureHeadings gives the cells of a heading without cells that name figures:
// not those of dates, and, if more than most are left, not those of money,
// weather, numbers of rows and remarks.
func (p *paper) figureHeadings(line, most int) []string {
	var all, energy []string
	for _, text := range p.headingTexts(line) {
		_, unit, label := headingCell(text)
		if (label == words.DateName || label == words.HourName) && unit == 0 {
			continue
		}
		all = append(all, text)
		if label != words.Cost && label != words.Weather && label != words.Ordinal && label != words.Note && unit != words.Money && unit != words.Other {
			energy = append(energy, text)
		}
	}
	if len(all) > most {
		return energy
	}
	return all
}

// describe takes up one cell of a heading.
func (c *column) describe(text string) {
	name, unit, label := headingCell(text)
	if unit != 0 && c.unit == 0 {
		c.unit = unit
	}
	if label != 0 && c.label == 0 {
		c.label = label
	}
	if name == "" && c.name == "" && unit == words.Other {
		name = text // there is nothing else to call it by
	}
	if name != "" {
		c.name = strings.TrimSpace(c.name + " " + name)
	}
}
