package intake

import (
	"slices"
	"strings"

	"splittally/calc/intake/scan"
	"splittally/calc/intake/words"
)

// readHeading finds the lines above the first row that name its columns: the
// nearest with words and no reading, and one more right above it.
func (p *paper) readHeading(first int) {
	for i, seen := first-1, 0; i >= 0 && seen < 6 && len(p.headings) < 2; i-- {
		f := &p.facts[i]
		if f.blank || f.rule {
			if len(p.headings) > 0 && f.blank {
				break
			}
			seen++
			continue
		}
		if !p.headsColumns(i, first) {
			break
		}
		p.headings = append([]int{i}, p.headings...)
		p.lines[i].Use, p.lines[i].Why = Used, "names the columns"
	}
}

// headsColumns says whether a line looks like a heading of the row below.
func (p *paper) headsColumns(line, first int) bool {
	f := &p.facts[line]
	l := p.sheet.Lines[line]
	named := p.sheet.Delimiter != 0 && f.dates == 0 && !p.hasNumberCell(line) && (f.dateName || p.namesLegs(line)) // “Tier 1 kWh”
	if !named && (f.dates > 1 || f.comment && !f.dateName || f.energies > 0 || aggregate(f.label) && f.numbers > 0) {
		return false
	}
	if p.sheet.Delimiter != 0 {
		return l.Cells > 1 && !p.hasNumberCell(line) && f.dates == 0 || l.Cells == 1 && f.dateName && f.words < 4
	}
	known := f.dateName || f.units > 0 && f.words <= 3 || f.label == words.Cost || f.label == words.Register && f.words <= 1
	return known && f.words <= 8 && f.dates == 0
}

// hasNumberCell says whether any cell of a line is a number and nothing else.
func (p *paper) hasNumberCell(line int) bool {
	items := p.sheet.Of(line)
	for i, it := range items {
		first := i == 0 || items[i-1].Cell != it.Cell
		last := i+1 == len(items) || items[i+1].Cell != it.Cell
		if it.Kind == scan.Number && first && last {
			return true
		}
	}
	return false
}

// headingTexts gives the cells of a heading. Without a delimiter they are
// parted by two blanks, or, if that gives one cell alone, by one.
func (p *paper) headingTexts(line int) []string {
	text := p.sheet.Lines[line].Text
	if d := p.sheet.Delimiter; d != 0 {
		return scan.Cells(text, d)
	}
	text = strings.TrimLeft(text, "# ")
	var cells []string
	for cell := range strings.SplitSeq(text, "  ") {
		if cell = strings.Trim(cell, " \t:,|"); cell != "" {
			cells = append(cells, cell)
		}
	}
	if len(cells) > 1 {
		return cells
	}
	fields := strings.FieldsFunc(text, func(c rune) bool { return c == ' ' || c == ',' || c == ':' })
	cells = cells[:0]
	for _, w := range fields {
		// A unit, in brackets or not, belongs to the word before it.
		if n := len(cells); n > 1 && words.UnitOf(words.Fold(strings.Trim(w, "()[]"))) != 0 {
			cells[n-1] += " " + w
			continue
		}
		cells = append(cells, w)
	}
	return cells
}

// headingCell sorts the words of one cell of a heading into a name, a unit and
// a label.
func headingCell(text string) (name string, unit words.Unit, label words.Label) {
	if folded := words.Fold(text); words.Price(text) || folded == "rate" || folded == "unit rate" {
		return strings.TrimSpace(text), words.Money, words.Cost
	}
	var kept []string
	for _, w := range headingWords(text) {
		bare := words.Fold(strings.Trim(w, "()[]:;\"'"))
		u := words.UnitOf(bare)
		if u == words.Kilowatt && strings.Contains(strings.ToLower(text), "kw h") {
			u = words.KilowattHour
		}
		if (w == "A" || w == "V") && len(kept) > 0 && measures(words.Fold(kept[len(kept)-1])) {
			return text, words.Other, words.Weather // peak A, max V
		}
		if u != 0 && (u != words.Other || strings.ContainsAny(w, "([°%") || words.Measured(bare)) {
			if unit == 0 || u.IsEnergy() && !unit.IsEnergy() {
				unit = u
			}
			continue
		}
		label = headingLabel(label, bare)
		if w = strings.Trim(w, "\"'"); w != "" && w != "/" && w != "-" {
			kept = append(kept, w)
		}
	}
	for n := len(kept); n > 0; n = len(kept) {
		last := words.Fold(kept[n-1])
		if last != "in" && last != "en" && last != "i" && last != "()" {
			break
		}
		kept = kept[:n-1]
	}
	return strings.Join(kept, " "), unit, label
}

// measures says whether a word before a letter in a heading makes the letter a
// unit, where it could be the name of a monitor.
func measures(word string) bool {
	label := words.LabelOf(word)
	return word == "peak" || word == "current" || label == words.Extreme || label == words.Average || label == words.Weather
}

// headingLabel gives what a heading is after one more of its words. The first
// word with a label decides, but a number of a meter is no reading of it.
func headingLabel(label words.Label, word string) words.Label {
	next := words.LabelOf(word)
	switch {
	case label == words.Register && next == words.Ordinal, next == words.Difference:
		return next
	case label != 0:
		return label
	case next == 0 && (strings.Contains(word, "temperat") || strings.HasSuffix(word, "temp")):
		return words.Weather
	}
	return next
}

// headingWords cuts a heading at blanks and marks, and before and after brackets.
func headingWords(text string) []string {
	var out []string
	from := 0
	cut := func(to, next int) {
		if to > from {
			out = append(out, text[from:to])
		}
		from = next
	}
	for i := range len(text) {
		switch text[i] {
		case '/':
			if word, _, _ := strings.Cut(text[from:], " "); !words.Measured(words.Fold(strings.Trim(word, "()[]:"))) {
				cut(i, i+1) // but not within km/h
			}
		case ' ', '\t', ',', '_', '*':
			cut(i, i+1)
		case '(', '[':
			cut(i, i)
		case ')', ']':
			cut(i+1, i+1)
		}
	}
	cut(len(text), len(text))
	return out
}

// readHints takes up what the words of headings and prose say of the figures.
func (p *paper) readHints() {
	isRow := make([]bool, len(p.lines))
	for ri := range p.rows {
		r := &p.rows[ri]
		isRow[r.line] = true
	}
	p.register = slices.ContainsFunc(p.headings, p.addsUp)
	around, within := map[words.Unit]int{}, map[words.Unit]int{}
	for i := range p.lines {
		items := p.sheet.Of(i)
		for ii := range items {
			it := &items[ii]
			switch {
			case it.Kind == scan.Number && isRow[i] && it.From > 0 && rough(p.sheet.Lines[i].Text[:it.From]):
				p.rough = append(p.rough, i+1)
			case it.Kind == scan.Word && isRow[i] && words.LabelOf(it.Fold) == words.Estimate:
				p.rough = append(p.rough, i+1)
			case it.Kind == scan.Word:
				p.hint(it.Fold, isRow[i])
				if it.Unit.IsEnergy() || it.Unit.IsPower() {
					if isRow[i] {
						within[it.Unit]++
					} else {
						around[it.Unit]++
					}
				}
			case it.Kind == scan.DateOf && !isRow[i] && it.Date.Year != 0:
				p.years = append(p.years, it.Date.Year)
			case it.Kind == scan.Number && !isRow[i] && it.Unit == 0 && len(it.Readings) == 1 && it.To-it.From == 4:
				if n := it.Readings[0].Value.IntPart(); n >= 2000 && n < 2100 {
					p.years = append(p.years, int(n))
				}
			}
		}
	}
	if len(around) == 0 {
		around = within // a unit before the figure, as in "kWh: 12.4"
	}
	if len(around) == 1 {
		for u := range around {
			p.titleUnit = u
		}
	}
	for ri := range p.rows {
		r := &p.rows[ri]
		p.timed = p.timed || r.from >= 0
	}
}

// addsUp says whether a heading speaks of running totals.
func (p *paper) addsUp(line int) bool {
	text := words.Fold(p.sheet.Lines[line].Text)
	for _, sign := range []string{"to date", "to-date", "so far", "running", "mtd", "ytd", "accumul"} {
		if strings.Contains(text, sign) {
			return true
		}
	}
	return false
}

// rough says whether the text before a figure calls it rough.
func rough(before string) bool {
	before = strings.TrimRight(before, " ")
	for _, sign := range []string{"~", "≈", "ca.", "ca", "circa", "about", "approx.", "approx", "env.", "environ", "etwa"} {
		if strings.HasSuffix(before, sign) {
			return true
		}
	}
	return false
}

// hint takes up one word.
func (p *paper) hint(word string, row bool) {
	switch words.LabelOf(word) {
	case words.Week:
		p.weekly = true
	case words.Ending:
		p.weekEnding = p.weekEnding || row
		p.ending = p.ending || !row
	case words.Starting:
		p.starting = p.starting || !row
	case words.Register:
		p.register = p.register || !row
	}
	switch word {
	case "midnight", "mitternacht", "minuit", "medianoche", "mezzanotte", "morning", "morgens", "matin", "manana", "mattina":
		p.atStart = true
	case "evening", "abends", "soir", "noche", "sera", "night":
		p.atEnd = true
	}
}
