package intake

import (
	"strings"

	"splittally/calc/intake/scan"
)

// layBlocks sees whether a text is several tables one below the other, as of
// two monitors: parted by lines that are no rows, and each with mostly the same
// days as the first. Each table becomes a column, named by the words above it.
func (p *paper) layBlocks() {
	if len(p.columns) != 1 || len(p.rows) < 4 {
		return
	}
	starts := p.blockStarts()
	if len(starts) < 2 || len(starts) > maxColumns {
		return
	}
	days := map[scan.Date]bool{}
	for i := range p.rows[:starts[1]] {
		days[p.rows[i].first] = true
	}
	for b := 1; b < len(starts); b++ {
		end := len(p.rows)
		if b+1 < len(starts) {
			end = starts[b+1]
		}
		again := 0
		for _, r := range p.rows[starts[b]:end] {
			if days[r.first] {
				again++
			}
		}
		if 2*again <= end-starts[b] || 2*again <= len(days) {
			return
		}
	}
	p.parted(starts)
}

// blockStarts gives the first row of each run of rows that other lines part
// from the rows before.
func (p *paper) blockStarts() []int {
	starts := []int{0}
	for i := 1; i < len(p.rows); i++ {
		if p.rows[i].line-p.rows[i-1].line > 1 {
			starts = append(starts, i)
		}
	}
	return starts
}

// parted makes a column of each run of rows.
func (p *paper) parted(starts []int) {
	p.blocks = true
	first := p.columns[0]
	p.columns = make([]column, len(starts))
	for b := range starts {
		end := len(p.rows)
		if b+1 < len(starts) {
			end = starts[b+1]
		}
		p.columns[b] = first
		p.columns[b].name = p.titleAbove(p.rows[starts[b]].line)
		for i := starts[b]; i < end; i++ {
			figures := make([]int, len(starts))
			for c := range figures {
				figures[c] = absent
			}
			figures[b] = p.rows[i].figures[0]
			p.rows[i].figures = figures
		}
	}
}

// titleAbove gives the words of the lines right above a table, headings left
// out, and marks them as used.
func (p *paper) titleAbove(line int) string {
	for i := line - 1; i >= 0 && i >= line-4; i-- {
		f := &p.facts[i]
		if f.blank || f.rule {
			continue
		}
		if f.numbers > 0 && f.words == 0 || f.dates > 0 {
			return ""
		}
		p.lines[i].Use, p.lines[i].Why = Used, "names the columns"
		if !f.dateName {
			return strings.Trim(strings.TrimSpace(p.sheet.Lines[i].Text), ":#*= ")
		}
	}
	return ""
}
