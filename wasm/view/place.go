package view

import (
	"strings"
	"unicode/utf16"
)

// place finds a place of a text for a browser, which counts in UTF-16 units:
// from where to where to select what was found at a line and a column. Lines
// and columns count from 1, columns in characters. If found does not stand
// there the rest of the line is meant. A place beyond the text is its end.
func place(text string, line, column int, found string) (from, to int) {
	at := 0
	for n := 1; n < line; n++ {
		end := strings.IndexByte(text[at:], '\n')
		if end < 0 {
			at = len(text)
			break
		}
		at += end + 1
	}
	rest, _, _ := strings.Cut(text[at:], "\n")
	for n := 1; n < column && rest != ""; n++ {
		for i := range rest[1:] + "x" {
			// The index in rest of the next character: i counts from rest[1:].
			if !startsCharacter(rest, i+1) {
				continue
			}
			at, rest = at+i+1, rest[i+1:]
			break
		}
	}
	if found != "" && strings.HasPrefix(rest, found) {
		rest = found
	}
	from = units(text[:at])
	return from, from + units(rest)
}

// startsCharacter says whether a character, or the end, is at a byte of text.
func startsCharacter(text string, at int) bool {
	return at >= len(text) || text[at]&0xc0 != 0x80
}

// units counts the UTF-16 units of a text.
func units(text string) int {
	n := 0
	for _, r := range text {
		n += utf16.RuneLen(r)
	}
	return n
}
