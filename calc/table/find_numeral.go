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

// marks counts what speaks for either mark as the decimal mark of a file.
type marks struct {
	dot, comma             int // only a decimal mark can stand so
	dotGroup, commaGroup   int // only a mark of thousands can stand so
	dotEither, commaEither int // three digits behind: 1.234
	small, large           int // whole numbers without a mark, below and from 1000
	blank, apostrophe      int // marks of thousands
}

// weigh takes one figure into account.
func (m *marks) weigh(f *numeral) {
	switch f.group {
	case ' ':
		m.blank++
	case '\'':
		m.apostrophe++
	}
	switch {
	case f.dots > 0 && f.commas > 0 && f.last == '.':
		m.dot++
		m.commaGroup++
	case f.dots > 0 && f.commas > 0:
		m.comma++
		m.dotGroup++
	case f.dots > 1:
		m.dotGroup++
	case f.commas > 1:
		m.commaGroup++
	case f.last == 0 && f.before > 3:
		m.large++
	case f.last == 0:
		m.small++
	default:
		m.single(f)
	}
}

// single weighs a figure with one mark.
func (m *marks) single(f *numeral) {
	group := f.after == 3 && f.before > 0 && f.before < 4 && !f.zero && f.group == 0 && !f.raised
	switch {
	case f.last == '.' && group:
		m.dotEither++
	case f.last == '.':
		m.dot++
	case group:
		m.commaEither++
	default:
		m.comma++
	}
}

// none says whether no figure had a mark.
func (m *marks) none() bool {
	return m.dot+m.comma+m.dotGroup+m.commaGroup+m.dotEither+m.commaEither == 0
}

// settle gives the decimal mark, whether it is sure, and why it is not.
func (m *marks) settle() (decimal byte, sure bool, why string) {
	group := m.small > 0 && m.large == 0 // as in 850, 1,234, 920
	switch {
	case m.dot > 0 || m.commaGroup > 0:
		return '.', m.comma == 0, "In some figures only a point can be the decimal mark, in others only a comma."
	case m.comma > 0 || m.dotGroup > 0:
		return ',', true, ""
	case m.commaEither > 0 && m.dotEither > 0:
		return ',', false, "Points and commas both stand before three digits."
	case m.commaEither > 0 && group:
		return '.', m.small > 2 && m.commaEither > 2, "Figures below a thousand have no comma, so it seems to part the thousands, as in 1,234."
	case m.commaEither > 0:
		return ',', m.large > 0, "Each comma stands before three digits, as in 1,234, so it could part the thousands."
	case m.dotEither > 0 && group && m.small > m.dotEither/8:
		return ',', m.small > 2 && m.dotEither > 2, "Figures below a thousand have no point, so it seems to part the thousands, as in 1.234."
	}
	return '.', true, ""
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
