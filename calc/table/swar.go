package table

import "math/bits"

// Eight letters at a time, as one number whose low byte is the first of them.
const (
	zeros  = 0x3030303030303030 // '0' in each
	beyond = 0x7676767676767676 // what takes a ten to the high bit
	highs  = 0x8080808080808080
)

// eight gives the first eight letters of b. The compiler makes one load of it.
func eight(b []byte) uint64 {
	_ = b[7]
	return uint64(b[0]) | uint64(b[1])<<8 | uint64(b[2])<<16 | uint64(b[3])<<24 |
		uint64(b[4])<<32 | uint64(b[5])<<40 | uint64(b[6])<<48 | uint64(b[7])<<56
}

// notDigits marks the letters that are no digits, at least the first two of
// them, by their high bits. x is the letters with zeros taken out by xor.
func notDigits(x uint64) uint64 { return (x + beyond | x) & highs }

// eightDigits gives the number that eight digits are, from zeros taken out.
func eightDigits(x uint64) uint64 {
	const pairs = 0x000000FF000000FF
	x = x*10 + x>>8
	return ((x&pairs)*0x000F424000000064 + (x>>16&pairs)*0x0000271000000001) >> 32
}

// shortFigure reads a figure of at most seven letters at a place of a line: its
// digits as one number, how many are decimals, and how long it is; 0 if it is
// none.
func shortFigure(v uint64, decimal byte) (n uint64, places, length int) {
	x := v ^ zeros
	other := notDigits(x)
	first := bits.TrailingZeros64(other) &^ 7
	if byte(v>>(first&63)) == decimal {
		other &= other - 1
		end := bits.TrailingZeros64(other) &^ 7
		low := uint64(1)<<(first&63) - 1
		x = x&low | x>>8&^low
		if other == 0 || end == 8 {
			return 0, 0, 0
		}
		return eightDigits(x << ((72 - end) & 63)), (end-first)>>3 - 1, end >> 3
	}
	if other == 0 || first == 0 {
		return 0, 0, 0
	}
	return eightDigits(x << ((64 - first) & 63)), 0, first >> 3
}

// figureAt reads a figure of at most 18 digits at the beginning of b.
func figureAt(b []byte, decimal byte) (n uint64, places, length int) {
	if len(b) < 16 {
		return plainFigure(b, decimal)
	}
	v := eight(b)
	if n, places, length = shortFigure(v, decimal); length > 0 {
		return n, places, length
	}
	return longFigure(v, b, decimal)
}

var tens = [9]uint64{1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8}

// longFigure reads a figure of eight letters or more, of which v are the first.
func longFigure(v uint64, b []byte, decimal byte) (n uint64, places, length int) {
	x := v ^ zeros
	other := notDigits(x)
	first := bits.TrailingZeros64(other) &^ 7
	rest := eight(b[8:]) ^ zeros
	more := bits.TrailingZeros64(notDigits(rest)) >> 3
	if other == 0 || other&(other-1) != 0 || byte(v>>(first&63)) != decimal || more > 7 {
		return plainFigure(b, decimal)
	}
	low := uint64(1)<<(first&63) - 1
	n = eightDigits((x&low | x>>8&^low) << 8)
	if more > 0 {
		n = n*tens[more] + eightDigits(rest<<((64-more*8)&63))
	}
	return n, 7 - first>>3 + more, 8 + more
}
