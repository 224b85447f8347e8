package table

import (
	"bytes"
	"math/bits"
)

// cells reads the cells of a line from a place and a column on, up to another
// column or the end of the line, and gives where it stops: behind a delimiter or
// the end; 0 if a cell is not plain, or the line has too few. What shortFigure
// does is written out, since a call costs as much.
func (r *Reader) cells(b []byte, at, c, to int) int {
	delimiter, decimal := r.layout.Delimiter, r.layout.Decimal
	for ; c < to && at+16 <= len(b); c++ {
		n := 0
		switch {
		case c > r.last: // the rest of the line does not matter
			n = skip(b[at:], '\n', '\n')
		case c >= len(r.cols) || r.cols[c] < 0:
			n = skip(b[at:], delimiter, '"')
		default:
			ch := &r.chans[r.cols[c]]
			v := eight(b[at:])
			x := v ^ zeros
			marks := notDigits(x)
			mark := bits.TrailingZeros64(marks) & 0x78
			length, places := mark, 0
			if byte(v>>(mark&63)) == decimal {
				marks &= marks - 1
				length = bits.TrailingZeros64(marks) & 0x78
				low := uint64(1)<<(mark&63) - 1
				x = (x&low | x>>8&^low) << 8
				places = (length-mark)>>3 - 1
			}
			number := eightDigits(x << ((64 - length) & 63))
			end := byte(v >> (length & 63))
			n = length >> 3
			if marks == 0 || n <= places || number > ch.small[places&7] || end != delimiter && end != '\n' || ch.part != 0 {
				n = r.figure(b[at:], int(r.cols[c]))
				break
			}
			ch.seen = places
			r.figures[r.cols[c]] = int64(number) * ch.sizes[places&7] * ch.sign
			r.row.Have |= ch.bit
		}
		at += n
		if n < 0 || at+1 >= len(b) || at > MaxLine {
			return 0
		}
		if b[at] == delimiter {
			at++
			continue
		}
		return r.endOf(b, at, c)
	}
	if c < to {
		return 0
	}
	return at
}

// endOf gives the place behind the end of a line at which the cell of a column
// ends; 0 if the line does not end there, or has too few cells.
func (r *Reader) endOf(b []byte, at, c int) int {
	if b[at] == '\r' && b[at+1] == '\n' {
		at++
	}
	if b[at] != '\n' && b[at] != '\r' || c < r.last || c < r.after {
		return 0
	}
	return at + 1
}

// skip gives the place of the first CR, LF or one of two other letters.
func skip(b []byte, one, other byte) int {
	const ones = 0x0101010101010101
	at := 0
	for ; at+8 <= len(b) && at <= MaxLine; at += 8 {
		v := eight(b[at:])
		cr, lf := v^'\r'*ones, v^'\n'*ones
		x, y := v^uint64(one)*ones, v^uint64(other)*ones
		found := ((cr-ones)&^cr | (lf-ones)&^lf | (x-ones)&^x | (y-ones)&^y) & highs
		if found != 0 {
			return at + bits.TrailingZeros64(found)>>3
		}
	}
	for ; at < len(b); at++ {
		if c := b[at]; c == '\r' || c == '\n' || c == one || c == other {
			return at
		}
	}
	return at
}

// figure reads the figure of a cell, and gives how long the cell is: −1 if it is
// not plain.
func (r *Reader) figure(b []byte, first int) int {
	ch := &r.chans[first]
	if len(b) < 16 {
		return -1
	}
	v := eight(b)
	n, places, length := shortFigure(v, r.layout.Decimal)
	if length == 0 {
		if b[0] == r.layout.Delimiter || b[0] == '\n' || b[0] == '\r' {
			return 0
		}
		n, places, length = longFigure(v, b, r.layout.Decimal)
	}
	if length == 0 || length < len(b) && b[length] != r.layout.Delimiter && b[length] != '\n' && b[length] != '\r' {
		return r.oddCell(b, first)
	}
	if places >= len(ch.factor) || n > ch.most[places] {
		return -1
	}
	ch.seen = places
	r.have(first, int64(n)*ch.factor[places])
	return length
}

// oddCell reads a cell with quotes, blanks, a sign or a unit. What is to be
// counted is left to the line's reading by itself.
func (r *Reader) oddCell(b []byte, first int) int {
	r.sheet.head = b[:min(len(b), reach)]
	if end := bytes.IndexByte(r.sheet.head, '\n'); end >= 0 {
		r.sheet.head = r.sheet.head[:end]
	}
	if end := bytes.IndexByte(r.sheet.head, '\r'); end >= 0 {
		r.sheet.head = r.sheet.head[:end]
	}
	c, next := r.sheet.cell(0, len(r.sheet.head))
	v, is := r.chans[first].read(r.sheet.head[c.from:c.to], &r.layout)
	if is != isFigure || next > len(r.sheet.head) && len(r.sheet.head) == reach {
		return -1
	}
	r.have(first, v)
	return next - 1
}

// have notes the figure of a column.
func (r *Reader) have(first int, v int64) {
	ch := &r.chans[first]
	r.figures[first] = ch.turn(v)
	r.row.Have |= 1 << first
	if ch.part > 0 {
		r.figures[first+1] = r.chans[first+1].turn(v)
		r.row.Have |= 2 << first
		r.chans[first+1].seen = ch.seen
	}
}
