package table

import (
	"bytes"
)

// span is a stretch of the head, from up to but not with to.
type span struct{ from, to int }

// sheet is the head of a file cut into lines, and its lines into cells.
type sheet struct {
	head      []byte
	lines     []span // without their ends
	numbers   []int  // of the lines in the file, from 0
	delimiter byte
	quoted    bool  // some cell of a line stood in quotes
	first     []int // for each line its first cell, and one more at the end
	cells     []span
}

// A head is read by its first lines and, beyond them, by some more all over it:
// enough to see a register rise and a date change, in a time that is not felt.
const (
	firstLines = 120
	moreLines  = 80
)

// cutLines cuts the head at CR, LF or CRLF, and gives the first lines and some
// of the rest, with their numbers from 0. The last line is left out if the head
// ends within the file, since it may be a part of one.
func cutLines(head []byte, whole bool) (lines []span, numbers []int) {
	all := make([]span, 0, 1+len(head)/16)
	for from := 0; from < len(head); {
		end := lineEnd(head[from:])
		if end < 0 {
			if whole || len(all) == 0 {
				all = append(all, span{from, len(head)})
			}
			break
		}
		end += from
		all = append(all, span{from, end})
		if from = end + 1; head[end] == '\r' && from < len(head) && head[from] == '\n' {
			from++
		}
	}
	stride := 1 + max(0, len(all)-firstLines)/moreLines
	lines, numbers = all[:0], make([]int, 0, firstLines+moreLines)
	for i := 0; i < len(all); i++ {
		if i >= firstLines && (i-firstLines)%stride != stride-1 {
			continue
		}
		lines, numbers = append(lines, all[i]), append(numbers, i)
	}
	return lines, numbers
}

// cut cuts the first lines, at most n, into cells. Blanks and quotes around a
// cell are no part of it. A blank as delimiter stands for any run of blanks.
func (s *sheet) cut(delimiter byte, n int) {
	s.delimiter, s.quoted = delimiter, false
	if s.first == nil {
		s.first, s.cells = make([]int, 0, len(s.lines)+1), make([]span, 0, 4*len(s.lines))
	}
	s.first, s.cells = s.first[:0], s.cells[:0]
	for _, l := range s.lines[:min(n, len(s.lines))] {
		s.first = append(s.first, len(s.cells))
		s.cutLine(l)
	}
	s.first = append(s.first, len(s.cells))
}

func (s *sheet) cutLine(l span) {
	at := l.from
	if s.delimiter == ' ' {
		l.to = l.from + len(bytes.TrimRight(s.head[l.from:l.to], " "))
	}
	for {
		if s.delimiter == ' ' {
			for at < l.to && s.head[at] == ' ' {
				at++
			}
		}
		cell, next := s.cell(at, l.to)
		s.cells = append(s.cells, cell)
		if next > l.to {
			return
		}
		at = next
	}
}

// cell gives the cell that begins at a place, and where the next one begins:
// past the line's end if there is none.
func (s *sheet) cell(at, end int) (c span, next int) {
	open := at
	for open < end && (s.head[open] == ' ' || s.head[open] == '\t') && s.head[open] != s.delimiter {
		open++
	}
	if open < end && s.head[open] == '"' {
		if shut := closing(s.head[:end], open+1); shut >= 0 {
			stop := shut + 1
			for stop < end && s.head[stop] != s.delimiter {
				stop++
			}
			s.quoted = true
			return s.trim(span{open + 1, shut}), stop + 1
		}
	}
	stop := at
	for stop < end && s.head[stop] != s.delimiter {
		stop++
	}
	return s.trim(span{at, stop}), stop + 1
}

// closing gives the place of the quote that closes a cell, −1 if none does.
// Two quotes in a row stand for one within it.
func closing(line []byte, at int) int {
	for ; at < len(line); at++ {
		if line[at] != '"' {
			continue
		}
		if at+1 >= len(line) || line[at+1] != '"' {
			return at
		}
		at++
	}
	return -1
}

// trim leaves out blanks at both ends, those that do not break lines included.
func (s *sheet) trim(c span) span {
	for c.from < c.to {
		n := blankAt(s.head[c.from:c.to])
		if n == 0 {
			break
		}
		c.from += n
	}
	for c.from < c.to {
		n := blankBefore(s.head[c.from:c.to])
		if n == 0 {
			break
		}
		c.to -= n
	}
	return c
}

// The blanks longer than a byte that stand around figures: the no-break space,
// the narrow one, and the byte order mark.
var wideBlanks = [...]string{"\u00a0", "\u202f", "\u2009", "\ufeff"}

// blankAt gives the length of the blank at the beginning of b, 0 if none is there.
func blankAt(b []byte) int {
	if len(b) == 0 {
		return 0
	}
	if b[0] == ' ' || b[0] == '\t' || b[0] == 0xa0 {
		return 1
	}
	if b[0] >= 0x80 {
		for _, w := range wideBlanks {
			if len(b) >= len(w) && string(b[:len(w)]) == w {
				return len(w)
			}
		}
	}
	return 0
}

// blankBefore gives the length of the blank at the end of b, 0 if none is there.
func blankBefore(b []byte) int {
	n := len(b)
	if n == 0 {
		return 0
	}
	if b[n-1] == ' ' || b[n-1] == '\t' {
		return 1
	}
	if b[n-1] >= 0x80 {
		for _, w := range wideBlanks {
			if n >= len(w) && string(b[n-len(w):]) == w {
				return len(w)
			}
		}
		if b[n-1] == 0xa0 && (n < 2 || b[n-2] < 0x80) {
			return 1
		}
	}
	return 0
}

// of gives the cells of a line.
func (s *sheet) of(line int) []span {
	if line+1 >= len(s.first) {
		return nil
	}
	return s.cells[s.first[line]:s.first[line+1]]
}

// bytes gives the bytes of a cell of a line; none if the line has no such cell.
func (s *sheet) bytes(line, column int) []byte {
	cells := s.of(line)
	if column < 0 || column >= len(cells) {
		return nil
	}
	return s.head[cells[column].from:cells[column].to]
}

// blank says whether a line has nothing in it but blanks and delimiters.
func (s *sheet) blank(line int) bool {
	for _, c := range s.of(line) {
		if c.to > c.from {
			return false
		}
	}
	return true
}

// text gives the bytes of a line as a text.
func (s *sheet) text(line int) string {
	return decoded(s.head[s.lines[line].from:s.lines[line].to])
}
