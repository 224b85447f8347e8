package table

import (
	"bytes"
	"strconv"

	"splittally/calc/intake/words"
)

// HeadLength is how many bytes of a file Find looks at, at most.
const HeadLength = 64 << 10

// Bounds of a table. What has more columns than that is no long table of
// readings but a wide one, with the hours of a day side by side.
const (
	maxColumns = 128
	leastRows  = 3
)

// NoReadings is the error of a file that holds no interval readings that the
// Reader can read: daily totals and tables with one row a day are such ones,
// which package intake reads if they are short.
type NoReadings struct {
	Line  int    // the line that shows it, from 1; 0 if it is none alone
	Found string // what stands there; may be empty
	Why   string // in words, without a full stop
}

// Error gives the reason as a sentence without a full stop.
func (e *NoReadings) Error() string {
	text := e.Why
	if e.Line > 0 {
		text = "line " + strconv.Itoa(e.Line) + ": " + text
	}
	if e.Found != "" {
		text += ": “" + e.Found + "”"
	}
	return text
}

// Find tells from the head of a file how its rows are to be read. The head is
// UTF-8 or Latin-1 without a byte order mark; whole says that it is all of the
// file, else its last line is passed over as it may be a part of one. No more
// than HeadLength is looked at.
//
// Everything that can be taken in more than one way is among the settings, in
// the order in which a person would ask. The map settings has what a person
// chose, IDs of Settings -> IDs of Choices: it is taken and is Sure, unless the
// head itself contradicts it.
//
// The error is a *NoReadings: there are no readings within days here. A table
// with one row a day has none, however long.
func Find(head []byte, whole bool, settings map[string]string) (Layout, []Setting, error) {
	if len(head) > HeadLength {
		head, whole = head[:HeadLength], false
	}
	f := finder{given: settings, whole: whole, sheet: sheet{head: head}}
	f.lines, f.numbers = cutLines(head, whole)
	for _, step := range [...]func() error{
		f.pickDelimiter, f.readNames, f.pickStamps, f.takeRows, f.settleOrder, f.settleStep,
		f.readFigures, f.settleUnits, f.settleRoles,
	} {
		if err := step(); err != nil {
			return Layout{}, nil, err
		}
	}
	f.settleEnds()
	f.settleZone()
	f.settleSigns()
	return f.layout(), f.settings(), nil
}

// finder is what is known so far.
type finder struct {
	sheet
	given map[string]string
	whole bool  // the head is all of the file
	width int   // columns
	likes []int // lines that look like rows, of the first ones
	skip  int   // lines before the first row

	columns  []column
	title    words.Unit // a unit that stands above the table; 0 if none or several do
	inColumn bool       // it stands in a column of its own
	foreign  bool       // headings are not in English
	stamps   stamps
	rows     []row
	order    order
	step     int64
	even     bool  // the spacing is
	newest   bool  // the newest row comes first
	places   []int // of each row in the order of time

	decimal, group byte
	ends           bool
	zone           Zone
	asked          []Setting // of the file as a whole
}

// row is a line with a readable stamp.
type row struct {
	line int
	stamp
	at int64 // milliseconds since 1970: of the clock shown, less its offset if it has one
}

// no gives the error that a file holds no readings.
func no(why string) error { return &NoReadings{Why: why} }

// triedLines is how many lines decide on the delimiter, unless none of them is a
// row.
const triedLines = 40

// likedLines is how many lines decide on the columns of the stamps: more than a
// day of half hours.
const likedLines = 60

// delimiters in the order in which they are preferred.
const delimiters = ";\t|, "

// pickDelimiter takes the delimiter that makes most lines rows: a stamp, and a
// figure or what stands for one that is missing.
func (f *finder) pickDelimiter() error {
	chosen, other, best, second := f.tryDelimiters(triedLines)
	if best == 0 {
		chosen, other, best, second = f.tryDelimiters(len(f.lines))
	}
	if best == 0 {
		return no("no line has a date or time and a figure")
	}
	// Commas may be decimal marks, and blanks stand within stamps.
	if second*5 > best*4 && other != ',' && other != ' ' {
		chosen = f.askDelimiter(chosen, other)
	}
	f.cut(chosen, len(f.lines))
	first := f.firstRow()
	for line := first; line < min(first+likedLines, len(f.lines)); line++ {
		if f.looksLikeRow(line) {
			f.likes = append(f.likes, line)
		}
	}
	return f.settleWidth()
}

// firstRow gives the first line that looks like a row; there must be one.
func (f *finder) firstRow() int {
	line := 0
	for !f.looksLikeRow(line) {
		line++
	}
	return line
}

// tryDelimiters counts the rows among the first lines that each delimiter makes,
// and gives the best two.
func (f *finder) tryDelimiters(lines int) (chosen, other byte, best, second int) {
	for i := range len(delimiters) {
		d := delimiters[i]
		if bytes.IndexByte(f.head, d) < 0 {
			continue
		}
		f.cut(d, lines)
		n := 0
		for line := range len(f.first) - 1 {
			if f.looksLikeRow(line) {
				n++
			}
		}
		switch {
		case n > best:
			second, other = best, chosen
			best, chosen = n, d
		case n > second:
			second, other = n, d
		}
	}
	return chosen, other, best, second
}

// settleWidth takes the number of cells that most rows have as that of columns.
func (f *finder) settleWidth() error {
	most := 0
	count := make([]int, maxColumns+2)
	for _, line := range f.likes {
		n := min(len(f.of(line)), maxColumns+1)
		count[n]++
		if count[n] > count[most] {
			most = n
		}
	}
	if most > maxColumns {
		return no("there are more than " + strconv.Itoa(maxColumns) + " columns, as where the hours of a day stand side by side")
	}
	f.width = most
	kept := f.likes[:0]
	for _, line := range f.likes {
		if n := len(f.of(line)); n == most || n > most/2 && len(f.likes) > 1 {
			kept = append(kept, line)
		}
	}
	f.likes = kept
	f.skip = kept[0]
	return nil
}

// looksLikeRow says whether a line has a stamp and a figure.
func (f *finder) looksLikeRow(line int) bool {
	stamped, figures, number := false, false, false
	for c, cell := range f.of(line) {
		if c > maxColumns || stamped && figures {
			break
		}
		b := f.head[cell.from:cell.to]
		if len(b) == 0 {
			figures = figures || stamped
			continue
		}
		if s, ok := readStamp(b); ok && (s.shape != clockOnly || stamped) {
			if _, figure := readFigure(b); figure && stamped && s.shape != clockOnly {
				figures = true // 21330420 need not be a day of 2133
			}
			stamped, figures = true, figures || number // 38122.19 was no time
			number = false
		} else if _, _, unix := readUnix(b); unix && !stamped {
			stamped = true
		} else if _, ok := readFigure(b); ok {
			if _, _, serial := serialOf(b); serial && !stamped {
				stamped, number = true, true
			} else {
				figures = true
			}
		} else if stamped && words.Missing(string(b)) {
			figures = true
		}
	}
	return stamped && figures
}
