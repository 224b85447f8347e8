package table

// template is what the lines of a file begin with, from the stamp up to and with
// the delimiter behind it, as long as the day stays the same: all but the digits
// of the clock. A line that fits it needs no reading of its stamp.
type template struct {
	length int                     // in bytes; 0 if there is none
	text   [maxTemplate / 8]uint64 // without the digits of the clock
	mask   [maxTemplate / 8]uint64 // of the bytes that are compared
	hour   int                     // where its two digits stand; −1 if they are compared too
	minute int
	second int   // −1 if there are none
	base   int64 // the time with all digits that are left out at zero: see time
	offset int   // as written, in seconds
}

const (
	// maxTemplate is how long a template can be.
	maxTemplate = 56
	// reach is how many bytes must follow the beginning of a line that is read
	// fast, so that nothing has to ask where the text ends.
	reach = 96
)

// forget makes a template that no line fits.
func (t *template) forget() { t.length, t.mask[0], t.text[0] = 0, 0, 1 }

// pair reads two digits; it is 1000 or more if they are none.
func pair(b *[reach]byte, at int) int64 {
	c := b[at&63 : at&63+2]
	t, o := c[0]-'0', c[1]-'0'
	if t > 9 || o > 9 {
		return 1000
	}
	return int64(t)*10 + int64(o)
}

// fits gives the time of a line that fits.
func (t *template) fits(b *[reach]byte) (at int64, ok bool) {
	other := (t.text[0] ^ load(b, 0)&t.mask[0]) | (t.text[1] ^ load(b, 8)&t.mask[1]) |
		(t.text[2] ^ load(b, 16)&t.mask[2]) | (t.text[3] ^ load(b, 24)&t.mask[3])
	if t.length > 32 {
		for i := 4; i < len(t.text); i++ {
			other |= t.text[i] ^ load(b, i*8)&t.mask[i]
		}
	}
	if other != 0 {
		return 0, false
	}
	return t.clock(b)
}

// clock gives the time with the digits of a line.
func (t *template) clock(b *[reach]byte) (at int64, ok bool) {
	minute, second, hour := pair(b, t.minute), int64(0), int64(0)
	if t.second >= 0 {
		second = pair(b, t.second)
	}
	if t.hour >= 0 {
		hour = pair(b, t.hour)
	}
	return t.base + hour*hourLength + minute*minuteLength + second*1000, hour < 24 && minute < 60 && second < 60
}

// learn makes the template of a line, of which it is told how long it is, and
// which fits it then.
func (r *Reader) learn(line []byte, length int) bool {
	t := &r.stamp
	t.forget()
	r.learned = true
	r.cut(line[:length])
	r.cutAt = r.before
	at, s, ok := r.written()
	if !ok {
		r.err = nil // it is found again when the line is read by itself
		return false
	}
	if !t.places(r, s) {
		return false
	}
	var begin [reach]byte
	copy(begin[:], line)
	t.base, t.offset = 0, s.offset
	shown, ok := t.clock(&begin)
	t.base = at - shown
	switch r.layout.Stamp.Zone {
	case Offset:
		ok = ok && s.zoned
	case Instant:
		t.base -= int64(s.offset) * 1000
	}
	if !ok {
		t.forget()
		return false
	}
	t.compare(&begin)
	return true
}

// places finds the digits of the clock in the line that the sheet holds.
func (t *template) places(r *Reader, s stamp) bool {
	st := &r.layout.Stamp
	if st.Form > MonthFirst || st.Hours || s.full {
		return false
	}
	c, _ := r.spanOf(st.Date)
	if st.Time >= 0 {
		c, _ = r.spanOf(st.Time)
	}
	b := r.sheet.head
	t.hour, t.minute, t.second = -1, -1, -1
	if n := digitsAt(b[c.from:c.to]); n == 12 || n == 14 {
		t.hour, t.minute = c.from+8, c.from+10
		if n == 14 {
			t.second = c.from + 12
		}
	} else {
		t.colons(b, c, s.half)
	}
	last, _ := r.spanOf(r.after - 1)
	end := last.to
	for end < len(b) && b[end] != r.layout.Delimiter {
		end++
	}
	if t.minute < 0 || end >= maxTemplate || end == len(b) {
		return false
	}
	t.length = end + 1
	return true
}

// colons finds the digits beside the colons of a clock.
func (t *template) colons(b []byte, c span, half bool) {
	at := c.from
	for at < c.to && b[at] != ':' {
		at++
	}
	if at+3 > c.to || digitsAt(b[at+1:c.to]) != 2 {
		return
	}
	t.minute = at + 1
	if at+6 <= c.to && b[at+3] == ':' && digitsAt(b[at+4:c.to]) == 2 {
		t.second = at + 4
	}
	if d := at - 2; !half && d >= c.from && digitsAt(b[d:at]) == 2 && (d == c.from || b[d-1] < '0' || b[d-1] > '9') {
		t.hour = d
	}
}

// compare keeps the bytes of a line that others are compared with.
func (t *template) compare(line *[reach]byte) {
	var mask [maxTemplate]byte
	for i := range t.length {
		mask[i] = 0xFF
	}
	for _, at := range [3]int{t.hour, t.minute, t.second} {
		if at >= 0 {
			mask[at], mask[at+1] = 0, 0
		}
	}
	for i := range t.text {
		t.mask[i] = eight(mask[i*8:])
		t.text[i] = eight(line[i*8:]) & t.mask[i]
	}
}
