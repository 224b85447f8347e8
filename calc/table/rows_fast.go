package table

import (
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
		n := 0
		if r.uneven < manyUneven || r.uneven%manyUneven == 0 {
			n = r.run(b[at:])
		}
		if n == 0 {
			r.uneven++
			if n = r.one(b[at:]); n == 0 {
				return at
			}
		}
		at += n
	}
	return at
}

// manyUneven is after how many rows that the series did not expect it is asked
// only now and then.
const manyUneven = 16

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
	for n < len(room) && len(b)-at >= reach {
		if r.plain && r.tryPlain() {
			length, rows := r.plainRows(b[at:], next, offset, step, room[n:])
			at, n, next = at+length, n+rows, next+step*int64(rows)
			if rows > 0 {
				r.wait = 0
				continue
			}
		}
		r.figures = room[n : n+width : n+width]
		wall, length := r.fast(b[at:])
		if length == 0 || wall != next || r.row.Have != r.every || r.fastOffset != offset {
			break
		}
		r.accept()
		at += length
		n += width
		next += step
	}
	r.figures = r.own
	if n/width >= 4 {
		r.uneven = 0
	}
	r.series.Ran(n/width, r.line+1)
	r.line += n / width
	return at
}

// tryPlain says whether the next row may well be a plain one: where few are, it
// is tried ever more seldom.
func (r *Reader) tryPlain() bool {
	if r.learned || r.waited >= r.wait {
		r.learned, r.waited = false, 0
		r.wait = min(2*r.wait+1, 64)
		return true
	}
	r.waited++
	return false
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
