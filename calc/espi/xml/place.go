package xml

import (
	"bytes"

	"splittally/calc/remark"
)

// place is a place in the text: how many lines are before it, and how many
// characters of its own line.
type place struct{ lines, characters int }

// after gives the place after b, which begins at p.
func (p place) after(b []byte) place { return p.next(b, bytes.Count(b, newline)) }

// next gives it where it is known how many lines end in b. Counting them takes a
// fifth of all time if it is done apart from reading.
func (p place) next(b []byte, lines int) place {
	if lines > 0 {
		p.lines += lines
		p.characters = 0
		b = b[bytes.LastIndexByte(b, '\n')+1:]
	}
	for _, c := range b {
		if c&0xC0 != 0x80 { // not a further byte of a character
			p.characters++
		}
	}
	return p
}

var newline = []byte{'\n'}

// fail says what is wrong at b[i]. A negative i is the beginning of a tag that
// an earlier chunk holds.
func (s *Scanner) fail(b []byte, i int, found, wanted string) {
	if i < 0 {
		s.failAt(s.mark, found, wanted)
		return
	}
	s.failAt(s.place.after(b[:i]), found, wanted)
}

func (s *Scanner) failAt(p place, found, wanted string) {
	if s.err == nil {
		s.err = &Error{remark.Problem{Line: p.lines + 1, Column: p.characters + 1, Found: found, Wanted: wanted}}
	}
}
