package scan

import (
	"slices"
	"strings"

	"splittally/calc/number"
)

// sampled bounds how many lines are looked at to find out what parts columns.
const sampled = 80

// delimiter finds what parts the cells of most lines that hold digits. Commas
// are the hard case, since they also stand within numbers and dates.
func delimiter(lines []string) byte {
	var rows []string
	for _, l := range lines {
		if len(rows) < sampled && strings.ContainsAny(l, "0123456789") {
			rows = append(rows, l)
		}
	}
	for _, d := range []byte{'\t', ';', '|'} {
		n := 0
		for _, r := range rows {
			if strings.IndexByte(strings.TrimSpace(r), d) >= 0 || d == '\t' && strings.IndexByte(r, d) > 0 {
				n++
			}
		}
		if n > 0 && 2*n >= len(rows) {
			return d
		}
	}
	if commaSeparated(rows) {
		return ','
	}
	return 0
}

// DecimalCommas stands for commas that part columns and decimals alike, since
// nobody quoted the numbers: "2024-01-01,12,4".
const DecimalCommas = 1

// unquoted sees whether the commas of rows that are parted by commas may be
// decimal marks as well: behind the first cell there are only whole numbers, in
// pairs. The number of names in the heading decides; without one doubtful is
// true, and likely says that each second part is a single digit.
func unquoted(lines []string) (is, doubtful, likely bool) {
	heading, pairs, singles, tens, rows := 0, 0, 0, 0, 0
	for _, l := range lines {
		if IsBlank(l) || rows > sampled {
			continue
		}
		cells := Cells(strings.TrimRight(l, ", "), ',')
		if !strings.ContainsAny(l, "0123456789") {
			if rows == 0 && len(cells) > 1 {
				heading = len(cells)
			}
			continue
		}
		rows++
		whole := len(cells) > 1
		for _, cell := range cells[1:] {
			whole = whole && allDigits(cell)
		}
		switch {
		case !whole:
		case len(cells) == 2:
			singles++
		case len(cells)%2 == 1 && (heading == 0 || len(cells) == 2*heading-1):
			pairs++
			if len(cells[2]) > 1 {
				tens++
			}
		}
	}
	if 2*pairs <= rows || singles > 0 && heading > 2 || 4*(rows-pairs-singles) > rows {
		return false, false, false
	}
	return heading > 1, heading < 2, 4*tens <= pairs
}

func allDigits(s string) bool {
	return s != "" && len(s) <= 6 && strings.Trim(s, "0123456789") == ""
}

// commaSeparated says whether commas part columns: cut at them, most rows have
// a cell that is a date and nothing else, and another that is a number.
func commaSeparated(rows []string) bool {
	fit := 0
	for _, r := range rows {
		if strings.IndexByte(r, ',') >= 0 && rowOfCells(r) {
			fit++
		}
	}
	return fit > 0 && 2*fit >= len(rows)
}

// rowOfCells cuts a row at commas and says whether one cell is a whole date or a
// bare whole number and another a plain number.
func rowOfCells(row string) bool {
	dates, numbers, others := 0, 0, 0
	eachCell(row, ',', func(_, from, to int) {
		text := row[from:to]
		x := lexer{text: row, at: from, end: to}
		x.run()
		switch {
		case wholeTime(x.items):
			dates++
		case len(number.Readings(text)) > 0:
			numbers++
		case len(x.items) == 1 && x.items[0].Kind == Number && x.items[0].Unit != 0:
			others++
		case len(x.items) == 0 || x.items[0].Kind == Missing || x.items[0].Kind == Dash:
			others++
		}
	})
	if strings.IndexByte(row, '"') < 0 && dates == 1 && decimalCommas(row) {
		return false
	}
	return dates > 0 && numbers+others > 0 || numbers > 1 && dates == 0
}

// wholeTime says whether the items of a cell are a date, a time, or both, with at
// most the letters of a time zone behind.
func wholeTime(items []Item) bool {
	n := len(items)
	if n > 0 && items[0].Kind == DateOf {
		items = items[1:]
	}
	if len(items) > 0 && items[0].Kind == TimeOf {
		items = items[1:]
		if len(items) == 1 && items[0].Kind == Word && len(items[0].Fold) <= 5 {
			items = nil
		}
	}
	return n > 0 && len(items) == 0
}

// decimalCommas says whether the commas of a row of one date belong to its
// numbers: at least one stands within a number when the row is read as a whole,
// and each of the others is followed by a blank, as in "3 Oct, 12,4 kWh".
func decimalCommas(row string) bool {
	x := lexer{text: row, end: len(row), free: true}
	x.run()
	within := 0
	for i := range row {
		if row[i] != ',' {
			continue
		}
		in := slices.ContainsFunc(x.items, func(it Item) bool {
			return it.Kind == Number && it.From < i && i < it.To && len(it.Readings) > 0
		})
		switch {
		case in:
			within++
		case i+1 < len(row) && row[i+1] != ' ':
			return false
		}
	}
	return within > 0
}

// eachCell calls found for each cell of a line with its bounds, quotes left
// out. A quoted cell may hold the delimiter. Without a delimiter the line is
// one cell. Bars around the whole line open no cell.
func eachCell(line string, delimiter byte, found func(cell, from, to int)) {
	if delimiter == 0 {
		found(0, 0, len(line))
		return
	}
	at, end := 0, len(line)
	if delimiter == '|' {
		trimmed := strings.Trim(line, " \t")
		at = strings.Index(line, trimmed)
		end = at + len(trimmed)
		if strings.HasPrefix(trimmed, "|") {
			at++
		}
		if end > at && strings.HasSuffix(trimmed, "|") {
			end--
		}
	}
	for cell := 0; ; cell++ {
		from, to, next := oneCell(line, at, end, delimiter)
		found(cell, from, to)
		if next < 0 {
			return
		}
		at = next
	}
}

// oneCell bounds the cell that begins at at; next is where the following one
// begins, -1 after the last.
func oneCell(line string, at, end int, delimiter byte) (from, to, next int) {
	if delimiter == DecimalCommas {
		from, to, next = oneCell(line, at, end, ',')
		if _, decimals, after := oneCell(line, max(next, at), end, ','); next >= 0 && allDigits(line[from:to]) && allDigits(line[next:decimals]) {
			return from, decimals, after
		}
		return from, to, next
	}
	from = at
	for from < end && (line[from] == ' ' || line[from] == '\t' && delimiter != '\t') {
		from++
	}
	if from < end && line[from] == '"' {
		if closing := closingQuote(line, from+1, end); closing >= 0 {
			rest := closing + 1
			for rest < end && line[rest] != delimiter {
				rest++
			}
			if rest < end {
				return from + 1, closing, rest + 1
			}
			return from + 1, closing, -1
		}
	}
	to = from
	for to < end && line[to] != delimiter {
		to++
	}
	next = to + 1
	if to == end {
		next = -1
	}
	for to > from && line[to-1] == ' ' {
		to--
	}
	return from, to, next
}

// closingQuote finds the quote that ends a quoted cell; two quotes are one
// quote within it.
func closingQuote(line string, at, end int) int {
	for ; at < end; at++ {
		if line[at] != '"' {
			continue
		}
		if at+1 < end && line[at+1] == '"' {
			at++
			continue
		}
		return at
	}
	return -1
}

// Cells cuts one line at a delimiter, blanks and quotes around the cells left
// out.
func Cells(line string, delimiter byte) []string {
	var cells []string
	eachCell(line, delimiter, func(_, from, to int) { cells = append(cells, line[from:to]) })
	return cells
}
