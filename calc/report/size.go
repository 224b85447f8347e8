package report

import "unicode/utf8"

// The size of a sheet, as the page prints it: lines of text, and letters in a
// line. The tests of wasm/e2e print papers and count the sheets; the figures
// here allow for a wide type (DejaVu Sans) on the shorter sheet (Letter).
const (
	letters    = 112
	sheets     = 112  // lines of two sheets, with some to spare for what may not be parted
	headLines  = 2.2  // of a heading with the space around it
	rowLines   = 1.12 // of a table's row
	pictureTop = 14.5 // of two pictures side by side
)

// lines is about how many lines a paper takes.
func (p Paper) lines() float64 {
	sum := 4.0 // title and stamp
	for _, s := range p.Lead {
		sum += 1.25 * wrapped(s, 0.88*letters)
	}
	for _, s := range p.Sections {
		if s.Title != "" {
			sum += headLines
		}
		pictures := 0.0
		for _, b := range s.Blocks {
			if b.Picture.Kind != NoPicture {
				pictures++
			}
			for _, said := range b.Words {
				sum += 0.25 + wrapped(said, letters)
			}
			for _, said := range b.Points {
				sum += 0.1 + wrapped(said, letters-4)
			}
			if b.Table != nil {
				sum += b.Table.lines()
			}
		}
		sum += pictureTop * float64(int(pictures+1)/2)
	}
	return sum
}

// wrapped is how many lines a text takes in a width; a word in five is broken
// off before the end of a line.
func wrapped(text string, width float64) float64 {
	n := float64(int(float64(utf8.RuneCountInString(text))*1.04/width) + 1)
	return n
}

// lines is about how many lines a table takes: if its columns together are too
// wide, its rows are broken.
func (t *Table) lines() float64 {
	wide := 0
	for i := range t.Head {
		widest := t.widest(i)
		wide += widest + 3
	}
	sum := 0.6
	if t.Caption != "" {
		sum += 1.3 * wrapped(t.Caption, letters)
	}
	return sum + rowLines*float64(len(t.Rows)+1)*float64(wide/letters+1)
}

// widest is how many letters the widest cell of a column has. A head is broken
// into two lines where it must.
func (t *Table) widest(column int) int {
	n := utf8.RuneCountInString(t.Head[column]) / 2
	for _, row := range t.Rows {
		n = max(n, utf8.RuneCountInString(row[column]))
	}
	return n
}
