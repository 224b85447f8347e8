// Package scan cuts a pasted text into lines, the lines into cells, and the
// cells into items: dates, times, numbers with their units, missing marks and
// words. It says what stands where and what each thing could be; which of the
// possibilities holds is for the next step, which sees the whole text.
//
// Nothing is lost on the way: every line of the text is there, in order.
package scan

import (
	"splittally/calc/intake/words"
	"splittally/calc/number"
)

// Kind says what an Item is.
type Kind uint8

// The kinds of items. Punctuation makes no item.
const (
	Word    Kind = iota // letters; Fold holds their folded form
	DateOf              // a day, a month or a week; Date holds it
	TimeOf              // a time of day; Minute holds it
	Number              // Readings holds what it can be; none if it is malformed
	Missing             // a mark for a figure that is not known
	Dash                // a lone dash: a separator or a missing mark
)

// Item is one meaningful piece of a line.
type Item struct {
	Kind     Kind
	Unit     words.Unit // of a Number, or what a Word is
	Cell     int        // the cell it stands in, from 0
	From, To int        // where in Line.Text, in bytes
	Fold     string     // of a Word
	Readings []number.Reading
	Date     Date
	Minute   int  // of a time: 0 to 1440, for 24:00
	Offset   int  // of a time: minutes east of Greenwich
	Zoned    bool // of a time: whether an offset was written
	Bracket  bool // stands in brackets
	Lost     bool // of a Number without readings: the end of a line was lost, and other readings are run into it
	Spaced   bool // of a Number: one plain blank parts it from a number before it, of which it may be the next three digits
}

// Line is one line of the text.
type Line struct {
	Text        string // with wide and odd characters made plain, one for one
	First, Past int    // its items in Sheet.Items
	Cells       int
}

// MaxLine bounds the bytes of a line that is looked into; a longer one has no
// items.
const MaxLine = 8000

// Sheet is a text cut up.
type Sheet struct {
	Lines     []Line
	Items     []Item
	Delimiter byte // what parts cells: tab, ';', '|', ',', or DecimalCommas; 0 if the text has no columns but those made of blanks
	Doubtful  bool // commas part the columns, and perhaps the decimals too: the text does not decide between ',' and DecimalCommas
}

// Of gives the items of a line.
func (s *Sheet) Of(line int) []Item { return s.Items[s.Lines[line].First:s.Lines[line].Past] }

// Read cuts up a text.
func Read(text string) *Sheet {
	texts := Lines(text)
	s := &Sheet{Lines: make([]Line, len(texts))}
	for i, t := range texts {
		s.Lines[i].Text = t
	}
	s.Delimiter = delimiter(texts)
	if s.Delimiter == ',' {
		is, doubtful, likely := unquoted(texts)
		s.Doubtful = doubtful
		if is || doubtful && likely {
			s.Delimiter = DecimalCommas
		}
	}
	return s.cut()
}

// ReadParted cuts up a text of which it is known what parts its cells.
func ReadParted(text string, delimiter byte) *Sheet {
	texts := Lines(text)
	s := &Sheet{Lines: make([]Line, len(texts)), Delimiter: delimiter, Doubtful: true}
	for i, t := range texts {
		s.Lines[i].Text = t
	}
	return s.cut()
}

// cut scans all lines.
func (s *Sheet) cut() *Sheet {
	s.Items = make([]Item, 0, 3*len(s.Lines))
	for i := range s.Lines {
		s.line(&s.Lines[i])
	}
	return s
}

// line cuts one line into cells and scans each.
func (s *Sheet) line(l *Line) {
	l.First = len(s.Items)
	l.Past = l.First
	if len(l.Text) > MaxLine {
		return
	}
	eachCell(l.Text, s.Delimiter, func(cell, from, to int) {
		l.Cells = cell + 1
		x := lexer{text: l.Text, at: from, end: to, cell: cell, items: s.Items, free: s.Delimiter == 0}
		x.run()
		s.Items = x.items
	})
	l.Past = len(s.Items)
	s.plainWeeks(l)
	s.plainRanges(l)
}

// plainRanges turns "8-15" in a cell of its own, beside a date with its year,
// into a number without readings: it is no date of the row.
func (s *Sheet) plainRanges(l *Line) {
	known := -1
	for i := l.First; i < l.Past; i++ {
		switch it := &s.Items[i]; {
		case it.Kind != DateOf:
		case it.Date.Year != 0 || it.Date.Form == TwoDigit:
			known = it.Cell
		case known >= 0 && it.Cell != known && it.Date.Form == DayMonth && it.Date.Mark == '-':
			*it = Item{Kind: Number, Cell: it.Cell, From: it.From, To: it.To}
		}
	}
}

// plainWeeks turns the number of a week into a mere word where days are written
// beside it: "Week 40: 2 Oct - 8 Oct".
func (s *Sheet) plainWeeks(l *Line) {
	weeks, days := 0, 0
	for i := l.First; i < l.Past; i++ {
		if s.Items[i].Kind == DateOf {
			if s.Items[i].Date.Form == Week {
				weeks++
			} else {
				days++
			}
		}
	}
	if weeks == 0 || days == 0 {
		return
	}
	for i := l.First; i < l.Past; i++ {
		if s.Items[i].Kind == DateOf && s.Items[i].Date.Form == Week {
			s.Items[i].Kind, s.Items[i].Fold = Word, "week"
		}
	}
}

// Column gives the place of byte offset at in text, in characters from 1.
func Column(text string, at int) int {
	n := 1
	for i := range text {
		if i >= at {
			break
		}
		n++
	}
	return n
}
