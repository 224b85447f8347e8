package report

import (
	"strings"
	"unicode/utf8"
)

// The size of a paper as the page prints it, in points. It allows for a wide
// type, DejaVu Sans, on the shorter sheet, Letter; static/style.css has the
// same sizes, and the tests of wasm/e2e print papers and count their sheets.
const (
	sheets      = 1480.0 // two sheets of Letter, less what is lost where one ends and a reserve
	lineTall    = 10.05
	leadTall    = 11.0
	rowTall     = 11.8
	headTall    = 18.6 // a heading and the space around it
	captionTall = 12.0
	tableSpace  = 5.0
	paraSpace   = 2.4
	pointSpace  = 0.6
	topTall     = 55.0  // title, stamp and what is around them
	pictureTall = 168.0 // two pictures side by side

	lineLetters = 123 // in a line of text
	leadLetters = 97  // in one of the lead, which is bold
	rowLetters  = 122 // in a row of a table, with two for each gap
)

// points is about how tall a paper is.
func (p Paper) points() float64 {
	sum := topTall
	for _, s := range p.Lead {
		sum += paraSpace + leadTall*wrapped(s, leadLetters)
	}
	for _, s := range p.Sections {
		if s.Title != "" {
			sum += headTall
		}
		pictures := 0
		for _, b := range s.Blocks {
			sum += b.points()
			if b.Picture.Kind != NoPicture {
				pictures++
			}
		}
		sum += pictureTall * float64((pictures+1)/2)
	}
	return sum
}

func (b Block) points() (sum float64) {
	for _, said := range b.Words {
		sum += paraSpace + lineTall*wrapped(said, lineLetters)
	}
	for _, said := range b.Points {
		sum += pointSpace + lineTall*wrapped(said, lineLetters-6)
	}
	if len(b.Points) > 0 {
		sum += paraSpace
	}
	if b.Table != nil {
		sum += b.Table.points()
	}
	return sum
}

// wrapped is how many lines a text takes.
func wrapped(text string, letters int) float64 {
	letters = max(1, letters)
	return float64((utf8.RuneCountInString(text) + letters - 1) / letters)
}

// points is about how tall a table is. Heads are broken to the width of their
// columns, which share what is to spare; if they are too wide together, rows are
// broken as well.
func (t *Table) points() float64 {
	wide, head := 0, 1.0
	columns := make([]int, len(t.Head))
	for i, name := range t.Head {
		for _, word := range strings.Fields(name) {
			columns[i] = max(columns[i], utf8.RuneCountInString(word))
		}
		for _, row := range t.Rows {
			columns[i] = max(columns[i], utf8.RuneCountInString(row[i]))
		}
		wide += columns[i] + 2
	}
	spare := max(0, rowLetters-wide) / len(t.Head)
	for i, name := range t.Head {
		head = max(head, wrapped(name, columns[i]+spare))
	}
	sum := tableSpace + rowTall*head
	if t.Caption != "" {
		sum += captionTall
	}
	return sum + rowTall*float64(len(t.Rows))*float64((wide+rowLetters-1)/rowLetters)
}
