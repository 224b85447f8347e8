package table

import "encoding/binary"

// rows reads rows that follow one another plainly, and gives how many bytes they
// are: 0 if the next line must be read by itself.
func (r *Reader) rows(b []byte) int {
	if r.line < r.layout.Skip || r.stamp.lacks {
		return 0
	}
	next, step, room := r.series.Run()
	if len(room) == 0 {
		return 0
	}
	at, n, width := 0, 0, len(r.chans)
	for n < len(room) {
		line := b[at:]
		wall, begin := r.begins(line)
		if begin == 0 || wall != next {
			break
		}
		length := r.figuresOf(line, begin, room[n:n+width])
		if length == 0 {
			break
		}
		at += length
		n += width
		next += step
	}
	r.series.Ran(n/width, r.line+1)
	r.line += n / width
	return at
}

// begins reads the stamp of a line, and gives where its figures begin: 0 if it
// is no plain one, or has another offset than the row before.
func (r *Reader) begins(line []byte) (wall int64, begin int) {
	t := &r.stamp
	if len(line) < maxTemplate {
		return 0, 0
	}
	at, ok := t.fits(line)
	if !ok {
		if !r.learn(line) {
			return 0, 0
		}
		at, _ = t.clock(line)
	}
	offset := t.offset
	if r.layout.Stamp.Zone == Instant {
		off := r.offsetAt(at)
		at, offset = at+off, int(off/1000)
	}
	if offset != r.offset {
		return 0, 0
	}
	return at, t.length
}

// figuresOf reads the figures of a line, and gives its length: 0 if one of them
// is not plain.
func (r *Reader) figuresOf(line []byte, at int, out []int64) int {
	delimiter := r.layout.Delimiter
	for c := r.after; ; c++ {
		first := -1
		if c < len(r.cols) {
			first = int(r.cols[c])
		}
		if first >= 0 {
			ch := &r.chans[first]
			n, places, end := plainFigure(line[at:], r.layout.Decimal)
			if end == 0 || places >= len(ch.factor) || n > ch.most[places] {
				return 0
			}
			at += end
			ch.places = max(ch.places, places)
			v := int64(n) * ch.factor[places]
			out[first] = ch.turn(v)
			if ch.part > 0 {
				out[first+1] = r.chans[first+1].turn(v)
			}
		} else {
			for at < len(line) && line[at] != delimiter && line[at] != '\n' && line[at] != '\r' {
				at++
			}
		}
		if at+1 >= len(line) || at > MaxLine {
			return 0
		}
		switch line[at] {
		case '\n':
			return r.lineOf(c, at+1)
		case '\r':
			if line[at+1] == '\n' {
				at++
			}
			return r.lineOf(c, at+1)
		case delimiter:
			at++
		default:
			return 0
		}
	}
}

// lineOf gives the length of a line that ends with a column.
func (r *Reader) lineOf(column, length int) int {
	if column < r.last {
		return 0
	}
	return length
}

// learn makes the template of a line, which it fits then.
func (r *Reader) learn(line []byte) bool {
	end := lineEnd(line)
	if end < 0 || end > MaxLine {
		return false
	}
	r.cut(line[:end])
	at, s, ok := r.written()
	if !ok {
		r.err = nil // it is found again when the line is read by itself
		return false
	}
	t := &r.stamp
	if !t.places(r, s) {
		return false
	}
	t.base, t.offset = 0, 0
	shown, ok := t.clock(line)
	t.base = at - shown
	switch r.layout.Stamp.Zone {
	case Offset:
		if !s.zoned {
			return false
		}
		t.offset = s.offset
	case Instant:
		t.base -= int64(s.offset) * 1000
	}
	t.compare(line)
	return ok
}

// places finds the digits of the clock in the line that the sheet holds. Only
// stamps before all figures are so read.
func (t *template) places(r *Reader, s stamp) bool {
	st := &r.layout.Stamp
	t.forget()
	if st.Form > MonthFirst || st.Hours || s.full {
		return false
	}
	c := r.sheet.cells[st.Date]
	if st.Time >= 0 {
		c = r.sheet.cells[st.Time]
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
	end := r.sheet.cells[max(st.Date, st.Time)].to
	for end < len(b) && b[end] != r.layout.Delimiter {
		end++
	}
	if t.minute < 0 || end >= maxTemplate-1 || end == len(b) {
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
func (t *template) compare(line []byte) {
	var mask [maxTemplate]byte
	for i := range t.length {
		mask[i] = 0xFF
	}
	for _, at := range [3]int{t.hour, t.minute, t.second} {
		if at >= 0 {
			mask[at], mask[at+1] = 0, 0
		}
	}
	t.words = (t.length + 7) / 8
	for i := range t.words {
		t.mask[i] = binary.LittleEndian.Uint64(mask[i*8:])
		t.text[i] = binary.LittleEndian.Uint64(line[i*8:]) & t.mask[i]
	}
}
