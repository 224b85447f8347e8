package table

import (
	"bytes"

	"splittally/calc/intake/words"
)

// numeral is the look of a number, before its decimal mark is known.
type numeral struct {
	negative bool
	plus     bool // written with a sign +
	digits   int  // in all, before an exponent
	before   int  // digits before the first mark
	after    int  // digits behind the last mark
	zero     bool // begins with a single 0 before its mark
	dots     int
	commas   int
	last     byte // the last of these marks; 0 if there is none
	group    byte // a blank or apostrophe between digits; 0 if there is none
	exponent int
	raised   bool // has an exponent
	end      int  // where its own bytes end; a unit may follow
	unit     words.Unit
}

// readFigure looks at a cell that may hold a number, perhaps with a unit behind
// it, and nothing else.
func readFigure(b []byte) (f numeral, ok bool) {
	at := f.sign(b)
	for f.digits <= 30 && at < len(b) {
		c := b[at]
		if c >= '0' && c <= '9' {
			f.digit(c)
			at++
			continue
		}
		n := f.mark(b[at:])
		if n == 0 {
			break
		}
		at += n
	}
	if f.digits == 0 || f.digits > 30 {
		return f, false
	}
	at += f.raise(b[at:])
	f.end = at
	return f, f.readUnit(b[at:])
}

// sign reads a sign and gives where the digits begin.
func (f *numeral) sign(b []byte) int {
	at := 0
	switch {
	case len(b) > 0 && b[0] == '-':
		f.negative, at = true, 1
	case len(b) > 0 && b[0] == '+':
		f.plus, at = true, 1
	case len(b) > 3 && string(b[:3]) == "−":
		f.negative, at = true, 3
	}
	if at > 0 && at < len(b) && b[at] == ' ' {
		at++
	}
	return at
}

func (f *numeral) digit(c byte) {
	f.digits++
	if f.last == 0 {
		f.before++
		f.zero = f.before == 1 && c == '0'
	} else {
		f.after++
	}
}

// mark reads a decimal mark or one of thousands, of which a digit must follow
// those that are blanks, and gives its length.
func (f *numeral) mark(b []byte) int {
	switch n := 0; {
	case b[0] == '.':
		f.dots++
		f.last, f.after = '.', 0
		return 1
	case b[0] == ',':
		f.commas++
		f.last, f.after = ',', 0
		return 1
	case f.digits == 0 || f.last != 0:
		return 0
	case b[0] == '\'':
		n = 1
		fallthrough
	case len(b) > 3 && string(b[:3]) == "’":
		n = max(n, len("’")*(1-n))
		if digitsAt(b[n:]) == 3 {
			f.group = '\''
			return n
		}
	default:
		n = blankAt(b)
		if n > 0 && digitsAt(b[n:]) == 3 && b[0] != '\t' {
			f.group = ' '
			return n
		}
	}
	return 0
}

// digitsAt counts the digits that b begins with.
func digitsAt(b []byte) int {
	n := 0
	for n < len(b) && b[n] >= '0' && b[n] <= '9' {
		n++
	}
	return n
}

// raise reads an exponent, such as e-05, and gives its length.
func (f *numeral) raise(b []byte) int {
	if len(b) < 2 || b[0]|0x20 != 'e' {
		return 0
	}
	at, sign := 1, 1
	switch b[1] {
	case '-':
		at, sign = 2, -1
	case '+':
		at = 2
	}
	n := digitsAt(b[at:])
	if n == 0 || n > 2 {
		return 0
	}
	for _, c := range b[at : at+n] {
		f.exponent = f.exponent*10 + int(c-'0')
	}
	f.exponent *= sign
	f.raised = true
	return at + n
}

// readUnit reads the unit behind a number. Anything else there makes the cell
// none of a figure.
func (f *numeral) readUnit(b []byte) bool {
	b = bytes.Trim(b, " ")
	for len(b) > 0 && blankAt(b) > 0 {
		b = b[blankAt(b):]
	}
	if len(b) == 0 {
		return true
	}
	if len(b) > 12 {
		return false
	}
	f.unit = words.UnitOf(words.Fold(string(b)))
	return f.unit != 0
}

// value gives the number of a figure under a decimal mark, for judging its size
// only. It is false if the figure can't be a number so.
func (f *numeral) value(b []byte, decimal byte) (v float64, places int, ok bool) {
	marksSeen, scale := 0, 1.0
	for _, c := range b[:f.end] {
		switch {
		case c == decimal:
			marksSeen++
		case c|0x20 == 'e' && f.raised:
			return f.raiseValue(v/scale, places), max(0, places-f.exponent), marksSeen < 2
		case c >= '0' && c <= '9':
			v = v*10 + float64(c-'0')
			if marksSeen > 0 {
				scale *= 10
				places++
			}
		case (c == '.' || c == ',') && marksSeen > 0:
			return 0, 0, false
		}
	}
	if f.negative {
		v = -v
	}
	return v / scale, places, marksSeen < 2
}

func (f *numeral) raiseValue(v float64, _ int) float64 {
	for n := f.exponent; n < 0; n++ {
		v /= 10
	}
	for n := f.exponent; n > 0; n-- {
		v *= 10
	}
	if f.negative {
		v = -v
	}
	return v
}
