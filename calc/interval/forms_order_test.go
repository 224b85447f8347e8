package interval_test

import (
	"slices"
	"strings"

	"splittally/calc/record"
)

// ordered gives the order in which readings are written.
func (f *formsFile) ordered() []int {
	order := make([]int, len(f.at))
	for i := range order {
		order[i] = i
	}
	switch f.form.order {
	case "newest":
		slices.Reverse(order)
	case "blocks":
		var blocks [][]int
		from := 0
		for i := 1; i < len(order); i++ {
			if i-from > len(order)/4 && !f.h.nearTurn(f.at[i], 30) {
				blocks = append(blocks, order[from:i])
				from = i
			}
		}
		blocks = append(blocks, order[from:])
		f.r.Shuffle(len(blocks), func(i, j int) { blocks[i], blocks[j] = blocks[j], blocks[i] })
		order = slices.Concat(blocks...)
	}
	return order
}

// encode turns the text into the bytes of the file.
func (f *formsFile) encode(text string) {
	switch f.form.encoding {
	case "bom":
		f.text = []byte("\ufeff" + text)
	case "utf16le":
		f.text = utf16Of([]byte(text), false, true)
	case "utf16be":
		f.text = utf16Of([]byte(text), true, true)
	case "latin":
		for _, c := range text {
			if c > 255 {
				c = '?'
			}
			f.text = append(f.text, byte(c))
		}
	default:
		f.text = []byte(text)
	}
}

// answer notes what a person who knows the file would say to each setting, and
// which of them the file truly leaves open.
func (f *formsFile) answer() {
	m := &f.form
	order := "day-first"
	switch {
	case strings.HasPrefix(m.layout, "2006"):
		order = "year-first"
	case strings.HasPrefix(m.layout, "01/"), strings.HasPrefix(m.layout, "1/"), strings.HasPrefix(m.layout, "01-"):
		order = "month-first"
	}
	f.answers["order"] = order
	f.answers["stamps"] = strings.Replace(m.stamped, "both", "start", 1)
	f.answers["decimal"] = map[string]string{".": "point", ",": "comma"}[m.decimal]
	f.answers["delimiter"] = m.delimiter
	f.answers["zone"] = "written"
	if m.zone == "Z" || m.zone == "seconds" || m.zone == "millis" {
		f.answers["zone"] = "own"
		f.doubt["zone"] = true
	}
	_, from, to := f.h.clock.At(f.h.from)
	if offset, _, _ := f.h.clock.At(f.h.from); m.zone == "offset" && offset == 0 && f.h.from >= from && f.h.to <= to {
		f.doubt["zone"] = true // +00:00 may be the home's clock or that of a machine
		f.answers["zone"] = "written"
	}
	if f.h.step <= 120 || f.uneven {
		f.doubt["order"] = true // the head has a day or two
	}
	if f.modulus > 0 || f.anew >= 0 {
		f.doubt["kind"] = true // it falls in the head
	}
	f.doubt["stamps"] = m.neutral || !m.heads && m.stamped != "both"
	f.doubt["decimal"] = f.places == 3 || m.group != "" || m.trim
}

// line writes a line of cells.
func (f *formsFile) line(fields []formsField, cell func(formsField) string) string {
	m := &f.form
	cells := make([]string, len(fields))
	for i, x := range fields {
		s := cell(x)
		if m.delimiter == " " {
			s = strings.ReplaceAll(s, " ", "_")
		}
		if m.quotes == "all" || m.quotes == "text" && x.text || strings.Contains(s, m.delimiter) {
			s = `"` + s + `"`
		}
		cells[i] = s
	}
	return strings.Join(cells, m.delimiter)
}

// rows writes the rows in their order, with repeated, contradicting and other
// lines among them.
func (f *formsFile) rows(fields []formsField, heading string) (lines []string) {
	order := f.ordered()
	repeat, clash, page := f.chance(8), f.chance(12) && f.kind == "energy", f.chance(20) && f.form.heads
	for n, i := range order {
		if f.lost[i] {
			continue
		}
		write := func(x formsField) string { return x.cell(i) }
		lines = append(lines, f.line(fields, write))
		quiet := n > 3 && n < len(order)-3 && !f.h.nearTurn(f.at[i], 6) && !f.uneven
		if quiet && repeat && f.chance(200) && !f.columns[0].absent[i] {
			f.tag("repeated")
			f.odd[record.Duplicate]++
			f.oddAt(i)
			lines = append(lines, f.line(fields, write))
		}
		if quiet && clash && f.chance(200) && !f.columns[0].absent[i] {
			f.tag("clash")
			f.odd[record.Conflict]++
			f.oddAt(i)
			lines = append(lines, f.line(fields, func(x formsField) string {
				if x.column == f.columns[0] {
					return f.figure(x.column.figures[i]+7, f.places)
				}
				return x.cell(i)
			}))
		}
		if page && n > 60 && n%97 == 0 {
			f.tag("page")
			f.junk[1]++
			lines = append(lines, heading)
		}
	}
	return lines
}
