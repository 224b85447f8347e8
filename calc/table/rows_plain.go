package table

import (
	"math/bits"
)

// load gives eight letters of a line, pairAt two of them.
func load(line *[reach]byte, at int) uint64 { return eight(line[at&63 : at&63+8]) }

func pairAt(line *[reach]byte, at int) uint16 {
	b := line[at&63 : at&63+2]
	return uint16(b[0]) | uint16(b[1])<<8
}

// plainRows reads rows of a stamp and one figure, one step after another, from
// the time next on, and puts the figures into room: how many bytes they are, and
// how many.
func (r *Reader) plainRows(b []byte, next int64, offset int, step int64, room []int64) (at, n int) {
	for n < len(room) {
		a, count := r.aimFor(next+step*int64(n), offset, step, len(room)-n)
		if count == 0 {
			break
		}
		length, rows := r.plainHour(&a, b[at:], step/1000, room[n:n+count])
		at, n = at+length, n+rows
		if rows < count {
			break
		}
	}
	return at, n
}

// plainHour reads the rows of one hour. It is where the time of large files
// goes. Where most figures are written alike, what the last one looked like
// helps to read the next; where they are not, that would cost more than it saves.
func (r *Reader) plainHour(a *aim, b []byte, step int64, room []int64) (at, n int) {
	if !r.varied {
		forms := 0
		at, n, forms = r.alikeRun(a, b, step, room)
		r.varied = forms*8 > n+8
		if n == len(room) {
			return at, n
		}
	}
	length, rows := r.variedRun(a, b[at:], step, room[n:])
	return at + length, n + rows
}

// longLine reads the figure of a line that has the stamp aimed at, and gives the
// length of the line; 0 if the figure is not plain.
func (r *Reader) longLine(line *[reach]byte, begin int) (v int64, length int) {
	ch := &r.chans[0]
	n, places, end := figureAt(line[begin&63:], r.layout.Decimal)
	end += begin
	if end == begin || places >= len(ch.factor) || n > ch.most[places] || end >= reach-1 {
		return 0, 0
	}
	if line[end] == '\r' {
		end++
	}
	if line[end] != '\n' {
		return 0, 0
	}
	ch.places = max(ch.places, places)
	return int64(n) * ch.factor[places], end + 1
}

// form is how a figure of up to seven letters and the end of its line are
// written: where its digits, its mark and the end stand.
type form struct {
	marks, where uint64 // what notDigits gives, and as far as it matters
	text, mask   uint64 // the decimal mark and the end
	low          uint64 // the digits before the mark
	shift        int    // what moves the last digit into the high byte
	size         int64  // of the last digit
	places       int
	length       int // in bytes, with the end of the line
}

// formOf gives the form of the eight letters where a figure begins; false if it
// is not so short, or its digits could be too many.
func (ch *channel) formOf(v uint64, decimal byte) (f form, ok bool) {
	marks := notDigits(v ^ zeros)
	first := bits.TrailingZeros64(marks) &^ 7
	end, digits := first, first>>3
	f.low = ^uint64(0)
	if byte(v>>(first&63)) == decimal {
		end = bits.TrailingZeros64(marks&(marks-1)) &^ 7
		f.low = 1<<(first&63) - 1
		f.text, f.mask = uint64(decimal)<<(first&63), 0xFF<<(first&63)
		digits = end>>3 - 1
		f.places = digits - first>>3
	}
	if end >= 64 || digits == 0 || ch.small[f.places&7] < tens[digits&7]-1 {
		return f, false
	}
	switch c := byte(v >> (end & 63)); {
	case c == '\n':
		f.length = end>>3 + 1
	case c == '\r' && end < 56 && byte(v>>((end+8)&63)) == '\n':
		f.length = end>>3 + 2
	default:
		return f, false
	}
	upTo := ^uint64(0) >> ((64 - f.length*8) & 63)
	f.mask |= upTo &^ (1<<(end&63) - 1)
	f.text = v & f.mask
	f.marks, f.where = marks&upTo, highs&upTo
	f.shift = 64 - digits*8
	f.size = ch.sizes[f.places&7]
	return f, true
}

// alikeRun reads rows with figures of up to seven letters, until another comes,
// and counts the forms that they have. It tells a row by a few comparisons of
// eight letters, without a loop over them. What a figure looks like is taken from
// the row before, so that where the next row begins does not wait for it. Each
// if within leaves the inner loop, since a branch that is taken costs much in
// Go's WebAssembly.
func (r *Reader) alikeRun(a *aim, b []byte, step int64, room []int64) (at, n, forms int) {
	ch, begin, second := &r.chans[0], a.length, a.at
	text0, text1, text2, text3 := a.text[0], a.text[1], a.text[2], a.text[3]
	mask0, mask1, mask2, mask3 := a.mask[0], a.mask[1], a.mask[2], a.mask[3]
	firstAt, secondAt, both, by, base := a.first&63, a.second&63, a.both, a.by, a.base+1
	last, got, places := len(b)-reach, 0, ch.places
read:
	for n < len(room) && at <= last {
		line := (*[reach]byte)(b[at:])
		f, ok := ch.formOf(load(line, begin), r.layout.Decimal)
		if !ok {
			break
		}
		forms++
		marks, where, text, mask, low, shift := f.marks, f.where, f.text, f.mask, f.low, f.shift&63
		size, length := f.size, begin+f.length
		if n > got {
			ch.places = max(ch.places, places)
		}
		got, places = n, f.places
		for n < len(room) && at <= last {
			line := (*[reach]byte)(b[at:])
			first := second * by >> divided
			short := first + (second-first*base)&both
			other := (text0 ^ load(line, 0)&mask0) | (text1 ^ load(line, 8)&mask1) |
				(text2 ^ load(line, 16)&mask2) | (text3 ^ load(line, 24)&mask3) |
				uint64(digits[first&127]^pairAt(line, firstAt)) |
				uint64(digits[short&127]^pairAt(line, secondAt))
			if other != 0 {
				break read
			}
			v := load(line, begin)
			x := v ^ zeros
			if (v^text)&mask|((x+beyond|x)&where^marks) != 0 {
				continue read
			}
			room[n] = int64(eightDigits((x&low|x>>8&^low)<<shift)) * size
			n++
			at += length
			second += step
		}
	}
	if n > got {
		ch.places = max(ch.places, places)
	}
	a.at = second
	return at, n, forms
}

// variedRun reads rows with figures of any length. It does what
// shortFigure does, written out, since a call costs as much.
func (r *Reader) variedRun(a *aim, b []byte, step int64, room []int64) (at, n int) {
	ch, decimal, begin, second := &r.chans[0], r.layout.Decimal, a.length, a.at
	text0, text1, text2, text3 := a.text[0], a.text[1], a.text[2], a.text[3]
	mask0, mask1, mask2, mask3 := a.mask[0], a.mask[1], a.mask[2], a.mask[3]
	firstAt, secondAt, both, by, base := a.first&63, a.second&63, a.both, a.by, a.base+1
	most, last := 0, len(b)-reach
	for n < len(room) && at <= last {
		line := (*[reach]byte)(b[at:])
		first := second * by >> divided
		short := first + (second-first*base)&both
		other := (text0 ^ load(line, 0)&mask0) | (text1 ^ load(line, 8)&mask1) |
			(text2 ^ load(line, 16)&mask2) | (text3 ^ load(line, 24)&mask3) |
			uint64(digits[first&127]^pairAt(line, firstAt)) | uint64(digits[short&127]^pairAt(line, secondAt))
		if other != 0 {
			break
		}
		v := load(line, begin)
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
		length >>= 3
		end := begin + length
		if marks == 0 || length <= places || number > ch.small[places&7] || line[end&63] != '\n' {
			v, length := r.longLine(line, begin)
			if length == 0 {
				break
			}
			room[n] = v
			at += length
		} else {
			room[n] = int64(number) * ch.sizes[places&7]
			most = max(most, places)
			at += end + 1
		}
		n++
		second += step
	}
	a.at = second
	ch.places = max(ch.places, most)
	return at, n
}
