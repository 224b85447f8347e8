package interval_test

import (
	"fmt"
	"strings"

	"splittally/calc/record"
)

// formsField is a column as it is written: its heading and the cell of a reading.
type formsField struct {
	head   string
	cell   func(i int) string
	column *formsColumn // of figures
	text   bool
}

// timeFields gives the columns of times.
func (f *formsFile) timeFields() (fields []formsField) {
	m, w := &f.form, f.words
	heads := w.time
	if !m.neutral {
		heads = map[string][]string{"start": w.from, "end": w.to, "both": w.from}[m.stamped]
	}
	head := pickOne(f.r, heads)
	n := 1
	if m.apart {
		n = 2
	}
	parts := func(head, of string) {
		for k := range n {
			name := head
			if m.apart {
				name = [][]string{w.date, w.clock}[k][0]
				if !m.neutral {
					name = head + " " + strings.ToLower(name)
				}
				if m.numbers && k == 1 {
					name = "Hour"
					if m.stamped == "end" {
						name = pickOne(f.r, []string{"Hour", "Hour ending", "HE"})
					}
				}
			}
			fields = append(fields, formsField{head: name, text: true, cell: func(i int) string {
				cells := f.stamps(i)
				if of == "to" {
					cells = cells[n:]
				}
				return cells[k]
			}})
		}
	}
	parts(head, "from")
	if m.stamped == "both" {
		parts(w.to[0], "to")
	}
	return fields
}

// figureFields gives the columns of figures.
func (f *formsFile) figureFields() (fields []formsField) {
	m := &f.form
	style := pickOne(f.r, []string{"%s (%s)", "%s (%s)", "%s (%s)", "%s [%s]", "%s [%s]", "%s %s", "%s_%s", "%s in %s", "unit", "none"})
	if m.heads {
		f.tag("heading %s", style)
	}
	for _, c := range f.columns {
		head := c.head
		switch {
		case style == "unit" && len(f.columns) == 1:
			head = c.unit
		case style == "none":
			f.doubtUnits()
		case style == "unit":
			head += " (" + c.unit + ")"
		default:
			head = fmt.Sprintf(style, head, c.unit)
		}
		fields = append(fields, formsField{head: head, column: c, cell: func(i int) string {
			if c.absent[i] {
				return m.blank
			}
			s := f.figure(c.figures[i], f.places)
			if m.unitInCell {
				s += " " + c.unit
			}
			return s
		}})
	}
	if !m.heads {
		f.doubtUnits()
	}
	return fields
}

func (f *formsFile) doubtUnits() {
	if !f.form.unitInCell {
		f.doubt["unit"], f.doubt["kind"] = true, true
	}
	if !f.form.heads {
		f.doubt["role"] = len(f.columns) > 1 || f.columns[0].role != record.Import
	}
}

// extraFields draws columns that are neither times nor energies.
func (f *formsFile) extraFields() (fields []formsField) {
	if !f.form.heads || !f.chance(4) {
		return nil
	}
	for range 1 + f.r.IntN(3) {
		head := pickOne(f.r, formsExtras)
		if head == "Note" && f.form.delimiter == " " {
			continue // an empty cell can't be told
		}
		f.tag("extra %s", head)
		base := f.r.Float64()
		cell := func(i int) string {
			x := int64((base + 0.1*float64(i%9)) * 10)
			switch head {
			case "Status":
				return "OK"
			case "Quality":
				return []string{"A", "A", "A", "E"}[i%4]
			case "Note":
				return []string{"", "", "", "", "checked"}[i%5]
			case "Meter":
				return "1004711"
			case "Voltage (V)":
				x += 2300
			case "Frequency (Hz)":
				x = 500
			case "Price (ct/kWh)", "Cost ($)":
				x += 240
			default:
				x += 55
			}
			return f.figure(x, 1)
		}
		fields = append(fields, formsField{head: head, cell: cell, text: head == "Status" || head == "Quality" || head == "Note"})
	}
	return fields
}

// write writes the file.
func (f *formsFile) write() {
	m := &f.form
	fields := f.timeFields()
	times := len(fields)
	rest := append(f.figureFields(), f.extraFields()...)
	if f.chance(4) && len(f.columns) == 1 {
		f.r.Shuffle(len(rest), func(i, j int) { rest[i], rest[j] = rest[j], rest[i] })
	}
	fields = append(fields, rest...)
	if f.chance(8) {
		f.tag("times-last")
		fields = append(append([]formsField(nil), fields[times:]...), fields[:times]...)
	}
	for i, x := range fields {
		f.heads = append(f.heads, x.head)
		if x.column != nil {
			x.column.index = i
		}
	}
	var lines []string
	if f.chance(5) {
		lines = f.preamble()
	}
	heading := f.line(fields, func(x formsField) string { return x.head })
	if m.heads {
		lines = append(lines, heading)
	}
	body := f.rows(fields, heading)
	lines = append(lines, body...)
	if f.chance(8) {
		f.tag("total")
		f.junk[0]++
		f.junk[1]++
		lines = append(lines, f.line(fields, func(x formsField) string {
			if x.column != nil {
				return f.figure(123_456, f.places)
			}
			if x.text && x.head == fields[0].head {
				return "Total"
			}
			return ""
		}))
	}
	if f.chance(10) {
		f.tag("footer")
		lines = append(lines, "", "End of report")
		f.junk[0]++
		f.junk[1]++
	}
	text := strings.Join(lines, m.eol)
	if !f.chance(5) {
		text += m.eol
	}
	f.answer()
	f.encode(text)
}

func (f *formsFile) preamble() (lines []string) {
	f.tag("preamble")
	of := []string{
		"Account number" + f.form.delimiter + "0047 11", "Customer: A. Example", "12 Example Lane", "# made by the data page",
		"Readings from 01/03/2024 to 31/03/2024", "", "Meter" + f.form.delimiter + "77001", "Service point;1234", "All times are local.",
	}
	for range 1 + f.r.IntN(5) {
		lines = append(lines, pickOne(f.r, of))
	}
	return lines
}
