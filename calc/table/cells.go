package table

import (
	"math/bits"

	"splittally/calc/series"
)

// outcome is what a cell of a figure came to.
type outcome uint8

const (
	noFigure outcome = iota
	isFigure
	finerFigure // digits finer than a µWh were rounded
	largeFigure // larger than maxFigure
)

// plainFigure reads digits with at most one decimal mark, and gives where they
// end: 0 if there is none, or nothing so plain.
func plainFigure(b []byte, decimal byte) (n uint64, places, end int) {
	at := 0
	for at < len(b) && b[at]-'0' <= 9 {
		n = n*10 + uint64(b[at]-'0')
		at++
	}
	digits := at
	if at < len(b) && b[at] == decimal {
		at++
		for at < len(b) && b[at]-'0' <= 9 {
			n = n*10 + uint64(b[at]-'0')
			at++
		}
		places = at - digits - 1
		digits = at - 1
	}
	if digits == 0 || digits > 18 {
		return 0, 0, 0
	}
	return n, places, at
}

// read reads a cell without blanks around it: the figure in µWh or µW, before
// its sign is turned.
func (ch *channel) read(b []byte, l *Layout) (v int64, is outcome) {
	negative := false
	body := b
	if len(b) > 1 && (b[0] == '-' || b[0] == '+') {
		negative, body = b[0] == '-', b[1:]
	}
	n, places, end := plainFigure(body, l.Decimal)
	if end == 0 || end < len(body) && string(body[end:]) != ch.tail {
		return ch.readOdd(b, l)
	}
	if end < len(body) {
		return ch.scaled(n, negative, places, 0, ch.tailSize, false)
	}
	if places < len(ch.factor) && n <= ch.most[places] {
		ch.seen = places
		v = int64(n) * ch.factor[places]
		if negative {
			v = -v
		}
		return v, isFigure
	}
	return ch.scaled(n, negative, places, 0, int64(l.Columns[ch.column].Scale), false)
}

// readOdd reads any other cell: marks of thousands, an exponent, a sign of
// another kind, a unit behind the figure.
func (ch *channel) readOdd(b []byte, l *Layout) (int64, outcome) {
	f, ok := readFigure(b)
	if !ok {
		return 0, noFigure
	}
	col := &l.Columns[ch.column]
	size := int64(col.Scale)
	if f.unit != 0 {
		fits := f.unit.IsEnergy() && col.Quantity != series.Power || f.unit.IsPower() && col.Quantity == series.Power
		if !fits {
			return 0, noFigure
		}
		size = int64(f.unit.Size())
		ch.tail, ch.tailSize = string(b[f.end:]), size
	}
	n, places, cut, ok := f.digitsOf(b, l.Decimal)
	if !ok {
		return 0, noFigure
	}
	return ch.scaled(n, f.negative, places, f.exponent, size, cut)
}

// digitsOf gives the digits of a figure as one number, at most 18 of them, and
// how many are decimals. cut says that others, not all zeros, were left out.
func (f *numeral) digitsOf(b []byte, decimal byte) (n uint64, places int, cut, ok bool) {
	digits, marks := 0, 0
	for _, c := range b[:f.end] {
		switch {
		case c == decimal:
			marks++
		case c|0x20 == 'e' && f.raised:
			return n, places, cut, marks < 2
		case (c == '.' || c == ',') && marks > 0:
			return 0, 0, false, false
		case c >= '0' && c <= '9' && digits < 18:
			n = n*10 + uint64(c-'0')
			if n > 0 {
				digits++
			}
			if marks > 0 {
				places++
			}
		case c >= '0' && c <= '9':
			cut = cut || c != '0'
			if marks == 0 {
				places--
			}
		}
	}
	return n, places, cut, marks < 2
}

// scaled gives n / 10^places · 10^exponent · size, rounded half to even.
func (ch *channel) scaled(n uint64, negative bool, places, exponent int, size int64, cut bool) (int64, outcome) {
	ch.seen = max(0, places-exponent)
	high, low := bits.Mul64(n, uint64(size))
	e := exponent - places
	for ; e > 0 && high == 0 && low <= maxFigure; e-- {
		high, low = bits.Mul64(low, 10)
	}
	rest, sticky := uint64(0), cut
	for ; e < 0 && (high > 0 || low > 0 || rest > 0); e++ {
		sticky = sticky || rest > 0
		var r uint64
		low, r = divide(&high, low)
		rest = r
	}
	if high > 0 || low > maxFigure || e > 0 && low > 0 {
		return 0, largeFigure
	}
	is := isFigure
	if rest > 0 || sticky {
		is = finerFigure
	}
	if rest > 5 || rest == 5 && (sticky || low&1 == 1) {
		low++
	}
	if negative {
		return -int64(low), is
	}
	return int64(low), is
}

// divide divides a number of two words by ten.
func divide(high *uint64, low uint64) (q, r uint64) {
	h := *high
	*high = h / 10
	return bits.Div64(h%10, low, 10)
}
