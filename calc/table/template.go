package table

import "encoding/binary"

// template is what the lines of a file begin with, up to and with the delimiter
// behind the stamp, as long as the day stays the same: all but the digits of the
// clock. A line that fits it needs no reading of its stamp.
type template struct {
	length int    // in bytes; 0 if there is none
	words  int    // how many of 8 bytes it takes
	text   [maxTemplate / 8]uint64
	mask   [maxTemplate / 8]uint64 // bytes that are compared
	hour   int    // where its two digits stand; −1 if they are compared too
	minute int
	second int // −1 if there are none
	base   int64 // the time by the clock with the digits that are left out at zero
	offset int   // in seconds
	lacks  bool // lines of this file can't have one
}

// maxTemplate is how long a template can be. So many bytes must follow the
// beginning of a line that is compared with one.
const maxTemplate = 64

// forget makes a template that no line fits.
func (t *template) forget() { t.words, t.mask[0], t.text[0] = 1, 0, 1 }

// pair reads two digits; more than 99 if they are none.
func pair(b []byte, at int) int64 {
	t, o := b[at]-'0', b[at+1]-'0'
	if t > 9 || o > 9 {
		return 1000
	}
	return int64(t)*10 + int64(o)
}

// fits gives the time by the clock of a line that fits.
func (t *template) fits(b []byte) (wall int64, ok bool) {
	for i := range t.words {
		if binary.LittleEndian.Uint64(b[i*8:])&t.mask[i] != t.text[i] {
			return 0, false
		}
	}
	return t.clock(b)
}

// clock gives the time by the clock with the digits of a line.
func (t *template) clock(b []byte) (wall int64, ok bool) {
	minute, second, hour := pair(b, t.minute), int64(0), int64(0)
	if t.second >= 0 {
		second = pair(b, t.second)
	}
	if t.hour >= 0 {
		hour = pair(b, t.hour)
	}
	return t.base + hour*hourLength + minute*minuteLength + second*1000, hour < 24 && minute < 60 && second < 60
}
