package table

import (
	"strings"
	"unicode/utf8"

	"splittally/calc/intake/scan"
	"splittally/calc/intake/words"
)

// readNames reads the headings of the columns, from the nearest line above the
// first row that has words and no figures, and the one above that if the first
// has only units.
func (f *finder) readNames() error {
	names := make([]string, f.width)
	at := f.above(f.likes[0])
	if at >= 0 && f.delimiter == ',' && f.commasAreDecimals(at) {
		return &NoReadings{
			Line: f.numbers[f.likes[0]] + 1, Found: short(f.text(f.likes[0])),
			Why: "the commas both part the columns and stand for decimals; the file needs another delimiter, such as a semicolon",
		}
	}
	if at >= 0 {
		cells := f.headingCells(at)
		for n := f.above(at); n >= 0 && (unitsOnly(cells) || cells[0] == ""); n = -1 {
			for c, over := range f.headingCells(n) {
				if c < len(cells) && over != "" {
					cells[c] = strings.TrimRight(over+" "+cells[c], " ")
				}
			}
		}
		copy(names, cells)
	}
	f.columns = make([]column, f.width)
	for c := range f.columns {
		f.columns[c].heading = readHeading(names[c])
		f.foreign = f.foreign || speaksForeign(names[c])
	}
	f.readTitle(at)
	return nil
}

// above gives the line above another that may be a heading; −1 if there is none.
func (f *finder) above(line int) int {
	for i := line - 1; i >= 0 && i >= line-4; i-- {
		text := f.text(i)
		if f.blank(i) || scan.IsRule(text) {
			continue
		}
		named := 0
		for _, c := range f.of(i) {
			b := f.head[c.from:c.to]
			if _, ok := readFigure(b); ok {
				return -1
			}
			if s, ok := readStamp(b); ok && s.shape != clockOnly {
				return -1
			}
			if len(b) > 0 {
				named++
			}
		}
		if named > 1 && named*2 >= min(f.width, 6) || named == 1 && f.width == 1 {
			return i
		}
		return -1
	}
	return -1
}

// commasAreDecimals says whether rows have a comma more for each figure than
// the heading has.
func (f *finder) commasAreDecimals(line int) bool {
	n := 0
	for c, cell := range f.of(line) {
		if cell.to > cell.from {
			n = c + 1
		}
	}
	if n >= f.width || n < 2 || f.width != 2*n-1 && f.width != 2*n-2 {
		return false
	}
	for _, line := range f.likes {
		for c := 2*n - f.width; c < f.width; c++ {
			b := f.bytes(line, c)
			if d := digitsAt(b); d != len(b) && (len(b) == 0 || b[0] != '-') {
				return false
			}
		}
	}
	return true
}

// headingCells gives the cells of a heading as texts. Where blanks part the
// columns, two part those of the heading, or one that is not before a bracket.
func (f *finder) headingCells(line int) []string {
	cells := make([]string, f.width)
	if f.delimiter != ' ' {
		for c, cell := range f.of(line) {
			if c < f.width {
				cells[c] = strings.ReplaceAll(decoded(f.head[cell.from:cell.to]), `""`, `"`)
			}
		}
		cells[0] = strings.TrimLeft(cells[0], "#/ ")
		return cells
	}
	var parts []string
	for part := range strings.FieldsSeq(strings.TrimLeft(f.text(line), "# ")) {
		if n := len(parts); n > 0 && strings.IndexAny(part, "([") == 0 {
			parts[n-1] += " " + part
			continue
		}
		parts = append(parts, part)
	}
	if len(parts) == f.width {
		copy(cells, parts)
	} else if len(parts) > 0 {
		cells[f.width-1] = strings.Join(parts, " ")
	}
	return cells
}

// unitsOnly says whether all cells that are not empty are units.
func unitsOnly(cells []string) bool {
	units := 0
	for _, c := range cells {
		if c == "" || c == "-" {
			continue
		}
		bare := words.Fold(strings.Trim(c, "()[] "))
		if strings.Contains(bare, "yyyy") || strings.Contains(bare, "hh:mm") {
			continue // how the times are written
		}
		if words.UnitOf(bare) == 0 && words.LabelOf(bare) != words.DateName {
			return false
		}
		if words.UnitOf(bare) != 0 {
			units++
		}
	}
	return units > 0
}

// readTitle takes the one unit that the lines above the heading speak of.
func (f *finder) readTitle(heading int) {
	if heading < 0 {
		heading = f.skip
	}
	for line := range heading {
		for _, t := range headingTokens(f.text(line)) {
			u := words.UnitOf(words.Fold(t.text))
			switch {
			case !u.IsEnergy() && (!u.IsPower() || len(t.text) < 2):
			case f.title == 0:
				f.title = u
			case f.title != u:
				f.title = words.Other
			}
		}
	}
	if f.title == words.Other {
		f.title = 0
	}
}

// foreignWords are folded words of headings of languages whose dates have the
// day first.
const foreignWords = " datum zeit uhrzeit zeitpunkt zeitstempel von bis verbrauch bezug energie jour heure horodatage debut fin fecha hora " +
	"consumo desde hasta data ora inizio fine prelievo tijd tijdstip verbruik van tot tid tidpunkt dato klokkeslett forbruk forbrug fra til " +
	"valor valeur wert waarde puissance potencia potenza leistung effekt "

// speaksForeign says whether a heading is in a language other than English.
func speaksForeign(name string) bool {
	for _, t := range headingTokens(name) {
		if strings.Contains(foreignWords, " "+words.Fold(t.text)+" ") {
			return true
		}
		for i := range len(t.text) {
			if t.text[i] >= 0xc3 {
				return true
			}
		}
	}
	return false
}

// decoded gives bytes as a text: UTF-8 if they are that, else Latin-1.
func decoded(b []byte) string {
	if utf8.Valid(b) {
		return string(b)
	}
	r := make([]rune, len(b))
	for i, c := range b {
		r[i] = rune(c)
	}
	return string(r)
}

// short cuts a text that is shown to at most 60 characters.
func short(text string) string {
	text = strings.TrimSpace(text)
	if r := []rune(text); len(r) > 60 {
		return string(r[:60]) + "…"
	}
	return text
}
