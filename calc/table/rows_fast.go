package table

import (
	"bytes"

	"splittally/calc/record"
)

// rows reads the rows at the beginning of b whose stamps are written alike, and
// gives how many bytes they are: 0 if the next line must be read by itself.
func (r *Reader) rows(b []byte) int {
	if r.line < r.layout.Skip || r.odd {
		return 0
	}
	at := 0
	for len(b)-at >= reach {
		n := r.run(b[at:])
		if n == 0 {
			if n = r.one(b[at:]); n == 0 {
				return at
			}
		}
		at += n
	}
	return at
}

// run reads rows that the series expects, and gives how many bytes they are.
func (r *Reader) run(b []byte) int {
	next, offset, step, room := r.series.Run()
	if r.layout.Stamp.Zone == Local {
		offset = 0
	}
	if len(room) == 0 {
		return 0
	}
	at, n, width := 0, 0, len(r.chans)
	r.learned = true
	for n < len(room) && len(b)-at >= reach {
		if r.plain && r.learned {
			r.learned = false
			length, rows := r.plainRows(b[at:], next, offset, step, room[n:])
			at, n, next = at+length, n+rows, next+step*int64(rows)
			if rows > 0 {
				continue
			}
		}
		wall, length := r.fast(b[at:])
		if length == 0 || wall != next || r.row.Have != r.every || r.fastOffset != offset {
			break
		}
		r.accept()
		copy(room[n:], r.figures)
		at += length
		n += width
		next += step
	}
	r.series.Ran(n/width, r.line+1)
	r.line += n / width
	return at
}

// one reads one row that the series does not expect.
func (r *Reader) one(b []byte) int {
	wall, length := r.fast(b)
	if length == 0 {
		return 0
	}
	r.line++
	for i := range r.chans {
		if r.row.Have>>i&1 == 0 && r.chans[i].part >= 0 { // once for both parts
			r.series.Odd(record.NoFigure, r.line, wall)
		}
	}
	r.add(wall, r.fastOffset)
	return length
}

// add adds the row whose figures were read.
func (r *Reader) add(wall int64, offset int) {
	r.accept()
	row := &r.row
	row.Wall, row.Offset, row.Line, row.Figures = wall, offset, r.line, r.figures
	r.series.Add(row)
}

// accept notes the decimals of a row that counts.
func (r *Reader) accept() {
	for i := range r.chans {
		if ch := &r.chans[i]; r.row.Have>>i&1 != 0 {
			ch.places = max(ch.places, ch.seen)
		}
	}
}

// fast reads a line whose stamp fits the template, and whose figures are plain
// or lack: its time by the clock, and its length, which is 0 if it is no such
// line. Nothing is counted.
func (r *Reader) fast(b []byte) (wall int64, length int) {
	at, stop := 0, r.before
	r.row.Have = 0
	if stop > 0 {
		if at = r.cells(b, 0, 0, stop); at == 0 || len(b)-at < reach {
			return 0, 0
		}
	}
	line := (*[reach]byte)(b[at:])
	begin := 0
	if r.unix {
		wall, begin = unixAt(line, r.layout.Delimiter)
		r.fastOffset = 0
	} else {
		var ok bool
		if wall, ok = r.stamp.fits(line); !ok {
			end := lineEnd(b)
			if end < at || !r.learn(b[at:], end-at) {
				return 0, 0
			}
			wall, _ = r.stamp.clock(line)
		}
		begin, r.fastOffset = r.stamp.length, r.stamp.offset
	}
	if begin == 0 {
		return 0, 0
	}
	switch r.layout.Stamp.Zone {
	case Instant:
		off := r.offsetAt(wall)
		wall, r.fastOffset = wall+off, int(off/1000)
	case Local:
		r.fastOffset = 0
	}
	return wall, r.cells(b, at+begin, r.after, len(r.cols)+1)
}

// unixAt reads Unix seconds or milliseconds and the delimiter behind them.
func unixAt(line *[reach]byte, delimiter byte) (ms int64, length int) {
	x := load(line, 0) ^ zeros
	if notDigits(x) != 0 {
		return 0, 0
	}
	n, at := int64(eightDigits(x)), 8
	for at < 13 && line[at]-'0' <= 9 {
		n = n*10 + int64(line[at]-'0')
		at++
	}
	if line[at] != delimiter {
		return 0, 0
	}
	switch at {
	case 10:
		return n * 1000, 11
	case 13:
		return n, 14
	}
	return 0, 0
}

// cells reads the cells of a line from a place and a column on, up to another
// column or the end of the line, and gives where it stops: behind a delimiter or
// the end; 0 if a cell is not plain, or the line has too few.
func (r *Reader) cells(b []byte, at, c, to int) int {
	delimiter := r.layout.Delimiter
	for ; c < to; c++ {
		if c > r.last { // the rest of the line does not matter
			n := lineEnd(b[at:])
			if n < 0 || at+n > MaxLine {
				return 0
			}
			at += n
		} else if c < len(r.cols) && r.cols[c] >= 0 {
			n := r.figure(b[at:], int(r.cols[c]))
			if n < 0 {
				return 0
			}
			at += n
		} else {
			n := bytes.IndexByte(b[at:min(len(b), at+MaxLine)], delimiter)
			if n < 0 || bytes.IndexByte(b[at:at+n], '\n') >= 0 || bytes.IndexByte(b[at:at+n], '"') >= 0 || bytes.IndexByte(b[at:at+n], '\r') >= 0 {
				return 0
			}
			at += n
		}
		if at+1 >= len(b) || at > MaxLine {
			return 0
		}
		switch b[at] {
		case delimiter:
			at++
		case '\r':
			if b[at+1] == '\n' {
				at++
			}
			fallthrough
		case '\n':
			if c < r.last || c < r.after {
				return 0
			}
			return at + 1
		default:
			return 0
		}
	}
	return at
}

// figure reads the figure of a cell, and gives how long the cell is: −1 if it is
// not plain.
func (r *Reader) figure(b []byte, first int) int {
	ch := &r.chans[first]
	n, places, length := figureAt(b, r.layout.Decimal)
	if length == 0 {
		if len(b) > 0 && (b[0] == r.layout.Delimiter || b[0] == '\n' || b[0] == '\r') {
			return 0
		}
		return r.oddCell(b, first)
	}
	if length < len(b) && b[length] != r.layout.Delimiter && b[length] != '\n' && b[length] != '\r' {
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
	}
}
