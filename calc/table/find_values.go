package table

import (
	"math"
	"slices"

	"splittally/calc/energy"
	numbersFor "splittally/calc/figure"
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
		at := i
		if f.newest {
			at = len(f.rows) - 1 - i
		}
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

// climb is how a run of values looks as reads of a register.
type climb struct {
	rises, falls, resets int
	step, middle         float64 // the middle one of the rises, and of the values
	strong               bool    // it can hardly be anything else
	never                bool    // it never falls
}

// climbs looks at values in the order of time.
func (col *column) climbs() climb {
	var k climb
	var rises, values []float64
	before, small := math.NaN(), 0
	for _, v := range col.values {
		if math.IsNaN(v) {
			continue
		}
		values = append(values, v)
		switch d := v - before; {
		case d > 0:
			rises = append(rises, d)
		case d < 0 && v >= 0 && v <= before/20:
			k.resets++
		case d < 0:
			k.falls++
			if -d*1000 < v {
				small++
			}
		}
		before = v
	}
	k.rises = len(rises)
	if k.rises == 0 || len(values) < 5 {
		return k
	}
	k.step, k.middle = middleOf(rises), middleOf(values)
	k.never = k.falls == 0 && k.resets == 0
	towers := k.middle > 20*k.step
	// Of all orders of twelve figures almost none only rises.
	long := k.rises >= 20 || k.rises >= 12 && len(values) == k.rises+1
	k.strong = k.never && (towers && (k.rises >= 5 || k.middle > 1000*k.step) || long) ||
		k.falls == 0 && k.resets*10 <= k.rises && k.rises >= 12 ||
		k.falls == small && k.falls*20 <= k.rises && towers
	return k
}

// middleOf gives the middle one of some numbers; it puts them in order.
func middleOf(v []float64) float64 {
	if len(v) == 0 {
		return 0
	}
	slices.Sort(v)
	return v[len(v)/2]
}

// meanPower gives what the values come to as mean power in kW, given their kind
// and unit, over the spacing of the rows.
func (f *finder) meanPower(col *column, kind series.Quantity, unit words.Unit) float64 {
	size := float64(unit.Size()) / float64(energy.KilowattHour)
	hours := float64(f.spacing()) / hourLength
	sum, n, risen, last := 0.0, 0, 0.0, math.NaN()
	for _, v := range col.values {
		if math.IsNaN(v) {
			continue
		}
		if v > last {
			risen += v - last
		}
		sum, last = sum+v, v
		n++
	}
	switch {
	case n == 0 || hours == 0:
		return 0
	case kind == series.Power:
		return size * sum / float64(n)
	case kind == series.Register:
		return size * risen / f.hours()
	}
	return size * sum / float64(n) / hours
}

// hours gives the time that the head covers, in hours.
func (f *finder) hours() float64 {
	d := f.rows[len(f.rows)-1].at - f.rows[0].at
	return float64(max(d, -d, f.spacing())) / hourLength
}

// spacing gives the step, or the mean of the steps if they are uneven.
func (f *finder) spacing() int64 {
	if f.step > 0 {
		return f.step
	}
	d := (f.rows[len(f.rows)-1].at - f.rows[0].at) / int64(len(f.rows)-1)
	return max(d, -d, 1)
}

// inKW writes a mean power for a sentence.
func inKW(kw float64) string {
	switch a := math.Abs(kw); {
	case a >= 10_000:
		return numbersFor.Plain(kw/1000, 0) + " MW"
	case a >= 100:
		return numbersFor.Plain(kw, 0) + " kW"
	case a >= 1:
		return numbersFor.Plain(kw, 1) + " kW"
	case a >= 0.01:
		return numbersFor.Plain(kw*1000, 0) + " W"
	}
	return numbersFor.Plain(kw*1000, 2) + " W"
}
