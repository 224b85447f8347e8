package table

import (
	"splittally/calc/record"
	"splittally/calc/series"
)

// cellAt gives a cell of the line that the sheet holds.
func (r *Reader) cellAt(column int) ([]byte, bool) {
	if column < 0 || column >= len(r.sheet.cells) {
		return nil, false
	}
	c := r.sheet.cells[column]
	return r.sheet.head[c.from:c.to], true
}

// cut cuts a line into its cells.
func (r *Reader) cut(line []byte) {
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
	row := &r.row
	row.Wall, row.Offset, row.Line, row.Figures, row.Have = wall, offset, r.line, r.figures, 0
	for i := range r.chans {
		r.takeFigure(i)
	}
	r.series.Add(row)
	r.offset = offset
}

func isBlank(cells []span) bool {
	for _, c := range cells {
		if c.to > c.from {
			return false
		}
	}
	return true
}

// takeFigure reads the figure of a channel into the row.
func (r *Reader) takeFigure(i int) {
	ch := &r.chans[i]
	b, _ := r.cellAt(ch.column)
	v, is := ch.read(b, &r.layout)
	if ch.part >= 0 { // once for both parts
		r.count(is)
	}
	if is == isFigure || is == finerFigure {
		r.figures[i] = ch.turn(v)
		r.row.Have |= 1 << i
	}
}

// count counts what is odd about a figure.
func (r *Reader) count(is outcome) {
	switch is {
	case noFigure:
		r.series.Odd(record.NoFigure, r.line, r.row.Wall)
	case finerFigure:
		r.series.Odd(record.Finer, r.line, series.NoTime)
	case largeFigure:
		r.series.Odd(record.TooLarge, r.line, r.row.Wall)
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
