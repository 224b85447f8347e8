package table

import (
	"splittally/calc/record"
	"splittally/calc/series"
)

// cellAt gives a cell of the line that the sheet holds.
func (r *Reader) cellAt(column int) ([]byte, bool) {
	c, ok := r.spanOf(column)
	return r.sheet.head[c.from:c.to], ok
}

// spanOf gives the place of a cell of the line that the sheet holds, or of the
// part of it from the first column of the stamp on.
func (r *Reader) spanOf(column int) (span, bool) {
	column -= r.cutAt
	if column < 0 || column >= len(r.sheet.cells) {
		return span{}, false
	}
	return r.sheet.cells[column], true
}

// cut cuts a line into its cells.
func (r *Reader) cut(line []byte) {
	r.cutAt = 0
	r.sheet.head, r.sheet.cells = line, r.sheet.cells[:0]
	r.sheet.cutLine(span{0, len(line)})
}

// readLine reads any line: a row, or a comment, a total, a heading that comes
// again, which have no time.
func (r *Reader) readLine(line []byte) {
	r.cut(line)
	if isBlank(r.sheet.cells) {
		return
	}
	wall, offset, ok := r.time()
	switch {
	case r.err != nil:
		return
	case !ok:
		r.series.Odd(record.Unreadable, r.line, series.NoTime)
		return
	}
	r.row.Have = 0
	for i := range r.chans {
		r.takeFigure(i, wall)
	}
	r.add(wall, offset)
}

func isBlank(cells []span) bool {
	for _, c := range cells {
		if c.to > c.from {
			return false
		}
	}
	return true
}

// takeFigure reads the figure of a channel into the row, and counts what is odd
// about it.
func (r *Reader) takeFigure(i int, wall int64) {
	ch := &r.chans[i]
	if ch.part < 0 {
		return // read with the other part
	}
	b, _ := r.cellAt(ch.column)
	v, is := ch.read(b, &r.layout)
	switch is {
	case isFigure:
		r.have(i, v)
	case finerFigure:
		r.series.Odd(record.Finer, r.line, series.NoTime)
		r.have(i, v)
	case largeFigure:
		r.series.Odd(record.TooLarge, r.line, wall)
	default:
		r.series.Odd(record.NoFigure, r.line, wall)
	}
}

// turn gives a figure its sign, and of one in two parts that of the channel.
func (ch *channel) turn(v int64) int64 {
	v *= ch.sign
	switch {
	case ch.part > 0:
		return max(v, 0)
	case ch.part < 0:
		return max(-v, 0)
	}
	return v
}
