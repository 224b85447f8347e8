package number

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// fold writes text into room with every form of a digit, sign and mark turned
// into its plain one: digits, '+', '-', '.', ',', apostrophe, blank and 'e'. Blanks
// around the text are left out. ok is false if anything else stands in it, a
// sign stands where none belongs, or it is too long for a number.
func fold(room []byte, text string) (plain []byte, ok bool) {
	text = Trim(text)
	for i, c := range text {
		b := foldRune(c)
		if b == 0 || len(room) == cap(room) {
			return nil, false
		}
		if b == '-' || b == '+' {
			afterE := len(room) > 0 && room[len(room)-1] == 'e'
			if len(room) > 0 && !afterE {
				return nil, false
			}
			if next, _ := utf8.DecodeRuneInString(text[i+utf8.RuneLen(c):]); !startsNumber(foldRune(next)) {
				return nil, false
			}
		}
		room = append(room, b)
	}
	return room, true
}

// startsNumber says whether a number without sign can begin with b.
func startsNumber(b byte) bool { return b >= '0' && b <= '9' || isDecimalMark(b) }

// foldRune gives the plain form of a rune, 0 if no number holds it.
func foldRune(c rune) byte {
	switch {
	case c >= '0' && c <= '9':
		return byte(c)
	case c >= '０' && c <= '９':
		return byte(c-'０') + '0'
	case Blank(c):
		return ' '
	}
	switch c {
	case '.', '．', '。':
		return '.'
	case ',', '，':
		return ','
	case '\'', '’', '‘', 'ʼ', '＇':
		return '\''
	case '-', '−', '–', '－', '‑', '‐', '﹣':
		return '-'
	case '+', '＋':
		return '+'
	case 'e', 'E', 'ｅ', 'Ｅ':
		return 'e'
	}
	return 0
}

// Blank says whether c is a blank of any kind and width: a space or line end,
// or one of the marks without width that copying leaves behind (byte order
// mark, zero-width space, direction marks, soft hyphen).
func Blank(c rune) bool {
	switch c {
	case '\uFEFF', '\u200B', '\u200E', '\u200F', '\u2060', '\u00AD':
		return true
	}
	return unicode.IsSpace(c)
}

// Trim gives text without the blanks of any kind around it.
func Trim(text string) string { return strings.TrimFunc(text, Blank) }

// IsBlank says whether nothing is typed: text is empty or holds blanks alone.
func IsBlank(text string) bool { return Trim(text) == "" }
