package table

import (
	"math"

	"splittally/calc/intake/words"
	"splittally/calc/record"
	"splittally/calc/series"
)

// column is what is known of a column.
type column struct {
	heading
	values   []float64 // for each row in the order of time; NaN where there is none
	places   int
	known    int // values that are numbers
	below    int // of these those below zero
	above    int // and those above
	figures  bool
	constant bool
	bothWays bool // a register that falls as well as rises
	counts   bool // goes up by one from row to row
	behind   words.Unit

	unit settled[words.Unit]
	kind settled[series.Quantity]
	role settled[record.Role] // empty if it is not used
	sign settled[int]
	// apart: what is below zero is fed into the grid.
	apart settled[bool]
	// mean is what the head comes to as mean power in kW.
	mean float64
}

// settled is a choice with what speaks for it.
type settled[T any] struct {
	is   T
	sure bool
	why  string
}

// readFigures finds the decimal mark and reads the figures of all columns.
func (f *finder) readFigures() error {
	f.settleMarks()
	f.places = f.inTime()
	some := false
	for c := range f.columns {
		if !f.stamps.other[c] {
			f.readColumn(c)
			some = some || f.columns[c].figures
		}
	}
	if !some {
		return no("no column has figures")
	}
	f.readUnitColumn()
	return nil
}

// readUnitColumn takes the unit that a column of its own has in all rows.
func (f *finder) readUnitColumn() {
	for c := range f.columns {
		if f.columns[c].figures || f.stamps.other[c] {
			continue
		}
		first := f.bytes(f.rows[0].line, c)
		u := words.UnitOf(words.Fold(string(first)))
		if !usable(u) || u.IsPower() && len(first) == 1 {
			continue
		}
		same := 0
		for i := range f.rows {
			if string(f.bytes(f.rows[i].line, c)) == string(first) {
				same++
			}
		}
		if same*10 >= len(f.rows)*9 {
			f.title, f.inColumn = u, true
			return
		}
	}
}

// settleMarks finds the decimal mark.
func (f *finder) settleMarks() {
	var all marks
	for i := range f.rows {
		for c := range f.columns {
			if f.stamps.other[c] {
				continue
			}
			if fig, ok := readFigure(f.bytes(f.rows[i].line, c)); ok {
				all.weigh(&fig)
			}
		}
	}
	if all.none() && f.stamps.source == serialDays {
		for i := range f.rows { // the times are figures too
			if fig, ok := readFigure(f.bytes(f.rows[i].line, f.stamps.date)); ok {
				all.weigh(&fig)
			}
		}
	}
	decimal, sure, why := all.settle()
	if f.decimal = decimal; all.none() && f.delimiter == ';' {
		f.decimal = ',' // semicolons part columns where commas are decimal marks
	}
	if !sure {
		f.askDecimal(why)
	}
	switch {
	case all.blank > 0:
		f.group = ' '
	case all.apostrophe > 0:
		f.group = '\''
	case f.decimal == '.' && all.comma+all.commaGroup+all.commaEither > 0:
		f.group = ','
	case f.decimal == ',' && all.dot+all.dotGroup+all.dotEither > 0:
		f.group = '.'
	}
}

// readColumn reads the values of a column.
func (f *finder) readColumn(c int) {
	col := &f.columns[c]
	col.values = make([]float64, len(f.rows))
	others, units := 0, 0
	for i := range f.rows {
		at := f.places[i]
		col.values[at] = math.NaN()
		b := f.bytes(f.rows[i].line, c)
		fig, ok := readFigure(b)
		if !ok {
			if !words.Missing(string(b)) {
				others++
			}
			continue
		}
		v, places, ok := fig.value(b, f.decimal)
		if !ok {
			others++
			continue
		}
		col.take(at, v, places)
		if fig.unit != 0 {
			col.behind = fig.unit
			units++
		}
	}
	if units*2 < col.known {
		col.behind = 0
	}
	col.figures = col.known > 0 && others*5 <= col.known+others
	col.look()
}

func (col *column) take(at int, v float64, places int) {
	col.values[at] = v
	col.known++
	col.places = max(col.places, places)
	switch {
	case v < 0:
		col.below++
	case v > 0:
		col.above++
	}
}

// look finds columns that tell nothing: one figure throughout, or row numbers.
func (col *column) look() {
	before, same, ones, n := math.NaN(), 0, 0, 0
	for _, v := range col.values {
		if math.IsNaN(v) {
			continue
		}
		switch {
		case n == 0:
		case v == before:
			same++
		case math.Abs(v-before) == 1:
			ones++
		}
		before = v
		n++
	}
	col.constant = n > 1 && same == n-1
	col.counts = n > 3 && ones == n-1 && col.places == 0
}
