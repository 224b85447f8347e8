package interval

import "unicode/utf8"

// encoding is how a file's letters are written.
type encoding uint8

const (
	utf8Text encoding = iota // or ASCII
	utf16Little
	utf16Big
)

// letters turns a file's bytes into UTF-8, chunk by chunk. Only UTF-16 is turned
// as it comes; a byte of Latin-1 is turned where a text is kept or shown, since
// no stamp or figure has one.
type letters struct {
	is   encoding
	half []byte // the first byte of a unit that a chunk's end has cut
	high rune   // the first unit of a pair that it has cut; 0 if none
	out  []byte
}

// encodingOf tells the encoding of a file by its first bytes, and how long its
// mark is. Text without a mark whose every second byte is zero is UTF-16.
func encodingOf(head []byte) (is encoding, mark int) {
	switch {
	case len(head) >= 3 && head[0] == 0xEF && head[1] == 0xBB && head[2] == 0xBF:
		return utf8Text, 3
	case len(head) >= 2 && head[0] == 0xFF && head[1] == 0xFE:
		return utf16Little, 2
	case len(head) >= 2 && head[0] == 0xFE && head[1] == 0xFF:
		return utf16Big, 2
	}
	var zeros [2]int
	look := head[:min(len(head), 512)&^1]
	for i, c := range look {
		if c == 0 {
			zeros[i%2]++
		}
	}
	const most = 10 // of ten units nine are plain letters
	switch units := len(look) / 2; {
	case units < 4:
	case zeros[1]*most >= units*(most-1) && zeros[0] == 0:
		return utf16Little, 0
	case zeros[0]*most >= units*(most-1) && zeros[1] == 0:
		return utf16Big, 0
	}
	return utf8Text, 0
}

// turn gives the bytes of a chunk as UTF-8. What it gives is valid until the
// next call.
func (l *letters) turn(chunk []byte) []byte {
	if l.is != utf16Little && l.is != utf16Big {
		return chunk
	}
	l.out = l.out[:0]
	for i := 0; i < len(chunk); i++ {
		l.half = append(l.half, chunk[i])
		if len(l.half) < 2 {
			continue
		}
		unit := rune(l.half[0]) | rune(l.half[1])<<8
		if l.is == utf16Big {
			unit = rune(l.half[1]) | rune(l.half[0])<<8
		}
		l.half = l.half[:0]
		l.unit(unit)
	}
	return l.out
}

func (l *letters) unit(u rune) {
	switch {
	case u >= 0xD800 && u < 0xDC00:
		l.high = u
		return
	case u >= 0xDC00 && u < 0xE000 && l.high != 0:
		u = 0x10000 + (l.high-0xD800)<<10 + (u - 0xDC00)
	}
	l.high = 0
	l.out = utf8.AppendRune(l.out, u) // a unit that is no letter becomes U+FFFD
}

// asUTF8 gives a text that may be Latin-1 as UTF-8.
func asUTF8(text []byte) string {
	if utf8.Valid(text) {
		return string(text)
	}
	out := make([]byte, 0, len(text)+len(text)/8)
	for _, c := range text {
		out = utf8.AppendRune(out, rune(c))
	}
	return string(out)
}

// isBinary says that bytes are no text: it has letters that no text has.
func isBinary(head []byte) bool {
	odd := 0
	for _, c := range head {
		if c < ' ' && c != '\n' && c != '\r' && c != '\t' && c != '\f' && c != 0x1A {
			odd++
		}
	}
	return odd*100 > len(head) || len(head) > 0 && odd == len(head)
}
