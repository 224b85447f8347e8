package table

import (
	"bytes"
	"strconv"

	"splittally/calc/energy"
	"splittally/calc/record"
	"splittally/calc/series"
	"splittally/calc/zone"
)

// MaxLine is the longest line that is read, in bytes.
const MaxLine = 64 << 10

// LineError is the error of a file that is no table: a line longer than
// MaxLine. What came before it is kept.
type LineError struct{ Line int }

func (e *LineError) Error() string {
	return "line " + strconv.Itoa(e.Line) + " is longer than " + strconv.Itoa(MaxLine) + " bytes, so the rest of the file was not read as rows"
}

// OrderError is the error of a date that is a day only if day and month stand
// the other way round than Layout.Stamp.Form has them. The file must be read
// from its beginning in the form Other.
type OrderError struct {
	Line  int
	Found string // the stamp's cell
	Other Form
}

func (e *OrderError) Error() string {
	return "line " + strconv.Itoa(e.Line) + ": " + strconv.Quote(e.Found) + " has day and month the other way round"
}

// Reader reads the rows of a table, in chunks of any size. NewReader makes one.
//
// It keeps no more of the text than one unfinished line, and adds up in package
// series, which tells its own bounds.
type Reader struct {
	layout Layout
	rules  *zone.Rules
	series *series.Series
	chans  []channel
	cols   []int8 // for each column the first channel of it; −1 if its figures are not read
	last   int    // the last column that is needed

	err          error
	carry        []byte // the beginning of a line
	cr           bool   // the last line ended with CR: an LF belongs to it
	line         int    // lines that are finished
	decided      bool
	sheet        sheet
	row          series.Row
	figures      []int64 // of the row: room of a run, or own
	own          []int64
	wait, waited int // see tryPlain
	stamp        template
	before       int             // the first column of the stamp
	after        int             // the column behind it
	every        uint64          // a bit for each channel
	unix         bool            // stamps are Unix times
	odd          bool            // rows can only be read by themselves
	plain        bool            // rows have a stamp and one figure
	uneven       int             // rows on end that the series did not expect
	varied       bool            // figures are written with more or less digits
	cutAt        int             // the column of the sheet's first cell
	learned      bool            // a template was made
	fastOffset   int             // of the row that was read fast
	pad          [2 * reach]byte // the end of a chunk
	until        zoneUntil
}

// Table is what the rows of a table came to.
type Table struct {
	series.Sums
	Made []Made // one for each of Sums.Channels
	// Decided says that some date is a day in one order of day and month only.
	Decided bool
	Lines   int
}

// Made says what a channel of a Table is made of.
type Made struct {
	Column   int // of Layout.Columns
	Role     record.Role
	Rounding energy.Energy // half of the last digit of one reading, as energy of one interval
	Sums     bool          // false for a register
}

// NewReader starts to read a table. rules are needed if the layout's Zone is
// Instant; without them the clock is UTC.
func NewReader(l Layout, rules *zone.Rules) *Reader {
	r := &Reader{layout: l, rules: rules}
	r.before, r.after = l.Stamp.Date, max(l.Stamp.Date, l.Stamp.Time)+1
	if l.Stamp.Time >= 0 {
		r.before = min(r.before, l.Stamp.Time)
	}
	r.sheet.delimiter = l.Delimiter
	r.stamp.forget()
	channels := r.makeChannels()
	r.series = series.New(channels, series.Options{Step: l.Step, Ends: l.Ends, Zoned: l.Stamp.Zone != Local})
	r.own = make([]int64, len(r.chans))
	r.figures = r.own
	r.every = 1<<len(r.chans) - 1
	r.unix = l.Stamp.Form == Seconds || l.Stamp.Form == Millis
	r.odd = l.Delimiter == ' ' || len(r.chans) == 0 || l.Stamp.Hours || l.Stamp.Form == Serial
	for c := r.before; c < r.after; c++ {
		r.odd = r.odd || c < len(r.cols) && r.cols[c] >= 0 // a figure between date and time
	}
	r.plain = !r.odd && len(r.chans) == 1 && r.before == 0 && r.chans[0].column == r.after &&
		len(r.cols) == r.after+1 && r.chans[0].sign > 0
	return r
}

// Write reads a chunk of the file. It ends at the first error, which every later
// call gives again: a *LineError or an *OrderError.
func (r *Reader) Write(chunk []byte) error {
	if r.err == nil && len(chunk) > 0 {
		if chunk = r.finish(chunk); r.err == nil {
			r.begin(chunk[r.lines(chunk):])
		}
	}
	return r.err
}

// finish finishes the line that the chunk before has begun, and gives what is
// left of the chunk.
func (r *Reader) finish(chunk []byte) []byte {
	if r.cr && chunk[0] == '\n' {
		chunk = chunk[1:]
	}
	r.cr = false
	if len(r.carry) == 0 {
		return chunk
	}
	end := lineEnd(chunk)
	if end < 0 {
		r.begin(chunk)
		return nil
	}
	r.begin(chunk[:end])
	if r.err != nil {
		return nil
	}
	line := r.carry
	r.carry = r.carry[:0]
	r.oneLine(line)
	return chunk[r.pastEnd(chunk, end):]
}

// begin keeps the beginning of a line.
func (r *Reader) begin(b []byte) {
	if r.err != nil {
		return
	}
	if len(r.carry)+len(b) > MaxLine {
		r.err = &LineError{r.line + 1}
		return
	}
	r.carry = append(r.carry, b...)
}

// lineEnd gives the place of the first CR or LF; −1 if there is none.
func lineEnd(b []byte) int {
	if len(b) > MaxLine+1 {
		b = b[:MaxLine+1]
	}
	n := bytes.IndexByte(b, '\n')
	if n >= 0 {
		b = b[:n]
	}
	if cr := bytes.IndexByte(b, '\r'); cr >= 0 {
		return cr
	}
	return n
}

// pastEnd gives the place behind the end of a line.
func (r *Reader) pastEnd(b []byte, end int) int {
	if b[end] == '\n' {
		return end + 1
	}
	if end+1 == len(b) {
		r.cr = true
		return end + 1
	}
	if b[end+1] == '\n' {
		return end + 2
	}
	return end + 1
}

// lines reads the whole lines of a chunk, and gives where the last of them ends.
func (r *Reader) lines(b []byte) int {
	at := 0
	for r.err == nil {
		at += r.rows(b[at:])
		if at == len(b) || r.err != nil {
			return at
		}
		if rest := b[at:]; len(rest) < reach {
			clear(r.pad[copy(r.pad[:], rest):])
			if n := r.rows(r.pad[:]); n > 0 {
				at += n
				r.cr = at == len(b) && b[at-1] == '\r'
				continue
			}
		}
		end := lineEnd(b[at:])
		if end < 0 {
			return at
		}
		r.oneLine(b[at : at+end])
		at += r.pastEnd(b[at:], end)
	}
	return at
}

// oneLine reads a line by itself.
func (r *Reader) oneLine(line []byte) {
	if len(line) > MaxLine {
		r.err = &LineError{r.line + 1}
		return
	}
	r.line++
	if r.line <= r.layout.Skip {
		return
	}
	r.readLine(line)
}

// Close ends the reading. What was read before an error is in the Table too.
func (r *Reader) Close() (Table, error) {
	if r.err == nil && len(r.carry) > 0 {
		r.oneLine(r.carry)
		r.carry = nil
	}
	t := Table{Sums: r.series.Done(), Decided: r.decided, Lines: r.line}
	for i := range r.chans {
		ch := &r.chans[i]
		col := &r.layout.Columns[ch.column]
		t.Made = append(t.Made, Made{ch.column, ch.role, ch.rounding(col.Quantity, r.layout.Step), col.Quantity != series.Register})
	}
	return t, r.err
}
