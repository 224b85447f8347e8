package table

import (
	"splittally/calc/intake/words"
)

// source is where the stamps of rows come from.
type source uint8

const (
	oneCell    source = iota // date and clock in one cell
	twoCells                 // a date, and a clock in a cell of its own
	hourNumber               // a date, and the number of the hour
	unixTime
	serialDays
)

// stamps is the columns of the times.
type stamps struct {
	source     source
	date, time int // time is −1 if one cell has both
	end        int // a column with the end of each interval; −1 if there is none
	other      []bool
	millis     bool
	fromOne    bool // hours are numbered 1 to 24
	counted    bool // and the head shows it
}

// looks counts what the cells of a column look like.
type looks struct {
	rows, dates, timed, clocks, unix, serials, small int
	midnight                                         int // of timed
	same                                             int // cells equal to the one above
	zoned                                            int
	before                                           string
}

// look counts what the cells of a column look like.
func (f *finder) look(column int) looks {
	var l looks
	for _, line := range f.likes {
		b := f.bytes(line, column)
		l.rows++
		if string(b) == l.before {
			l.same++
		}
		l.before = string(b)
		if s, ok := readStamp(b); ok {
			switch {
			case s.shape == clockOnly:
				l.clocks++
			case s.clock < 0:
				l.dates++
			default:
				l.timed++
				if s.clock == 0 {
					l.midnight++
				}
			}
			if s.zoned {
				l.zoned++
			}
		}
		if _, _, ok := readUnix(b); ok {
			l.unix++
		} else if _, places, ok := serialOf(b); ok && places > 1 {
			l.serials++
		}
		if n := digitsAt(b); n > 0 && n < 3 && n == len(b) && number(b) <= 24 {
			l.small++
		}
	}
	return l
}

// number gives a whole number of a few digits.
func number(b []byte) int {
	n := 0
	for _, c := range b {
		n = n*10 + int(c-'0')
	}
	return n
}

// mostly says whether n of the rows are nearly all.
func (l *looks) mostly(n int) bool { return n*5 >= l.rows*4 && n > 0 }

// pickStamps finds the columns that hold the times.
func (f *finder) pickStamps() error {
	all := make([]looks, f.width)
	for c := range all {
		all[c] = f.look(c)
	}
	f.stamps = stamps{date: -1, time: -1, end: -1, other: make([]bool, f.width)}
	for c := range all {
		l := &all[c]
		f.stamps.other[c] = l.mostly(l.timed+l.dates) || l.mostly(l.clocks)
	}
	switch {
	case f.pickOneCell(all), f.pickTwoCells(all), f.pickUnix(all), f.pickHours(all), f.pickSerials(all):
	default:
		return no("there are dates but no times of the day")
	}
	f.stamps.other[f.stamps.date] = true
	if f.stamps.time >= 0 {
		f.stamps.other[f.stamps.time] = true
	}
	return nil
}

// best gives the column that suits best as that of the stamps, of those that
// fit: one that says start before one that says end, an offset before none,
// local time before UTC; −1 if none fits. A column that never changes does not.
func (f *finder) best(all []looks, fits func(l *looks) bool) int {
	chosen, most := -1, 0
	for c := range all {
		l := &all[c]
		if !fits(l) || l.same >= l.rows-1 && l.rows > leastRows {
			continue
		}
		points, h := 100-c, &f.columns[c].heading
		if h.has(ofStart) && !h.has(ofEnd) {
			points += 400
		}
		if h.has(ofEnd) && !h.has(ofStart) {
			points -= 200
		}
		if h.has(ofUTC) {
			points -= 300
		}
		if l.zoned > 0 {
			points += 200
		}
		if chosen < 0 || points > most {
			chosen, most = c, points
		}
	}
	return chosen
}

func (f *finder) pickOneCell(all []looks) bool {
	clocks := false
	for c := range all {
		clocks = clocks || all[c].mostly(all[c].clocks)
	}
	fits := func(l *looks) bool {
		return l.mostly(l.timed+l.dates) && l.timed*4 > l.rows && (!clocks || l.midnight < l.timed)
	}
	c := f.best(all, fits)
	if c < 0 {
		return false
	}
	f.stamps.source, f.stamps.date = oneCell, c
	if !f.columns[c].has(ofEnd) {
		for o := range all {
			if o != c && fits(&all[o]) && all[o].same < all[o].rows-1 && f.follows(c, o) {
				f.stamps.end = o
				break
			}
		}
	}
	return true
}

// follows says whether the stamps of another column are later than those of the
// first by less than a day: the ends of intervals. Two clocks of other zones
// differ too, so a heading must speak of it.
func (f *finder) follows(c, other int) bool {
	h, o := &f.columns[c].heading, &f.columns[other].heading
	if o.has(ofUTC) {
		return false
	}
	return o.has(ofEnd) && (h.has(ofStart) || !h.has(ofEnd)) || h.tags|o.tags == 0 && f.handsOn(c, other)
}

func (f *finder) pickTwoCells(all []looks) bool {
	dated := func(l *looks) bool { return l.mostly(l.dates + l.timed) }
	clock := f.best(all, func(l *looks) bool { return l.mostly(l.clocks) })
	if clock < 0 {
		return false
	}
	date := -1
	for c := range all {
		if dated(&all[c]) && (date < 0 || c < clock) {
			date = c
		}
	}
	if date < 0 {
		return false
	}
	f.stamps.source, f.stamps.date, f.stamps.time = twoCells, date, clock
	if !f.columns[clock].has(ofEnd) {
		for c := range all {
			if c != clock && all[c].mostly(all[c].clocks) && !f.columns[c].has(ofUTC) && (c == clock+1 || f.columns[c].has(ofEnd)) {
				f.stamps.end = c
			}
		}
	}
	return true
}

// pickHours takes a column that numbers the hours of the day beside one of
// dates. Its heading must say so, for small numbers can be energies.
func (f *finder) pickHours(all []looks) bool {
	date := -1
	for c := range all {
		if date < 0 && all[c].mostly(all[c].dates) {
			date = c
		}
	}
	for c := range all {
		if date < 0 || c == date || !f.columns[c].has(ofHour) || all[c].small < all[c].rows-1 || f.columns[c].heading.unit == words.KilowattHour {
			continue
		}
		least, most := 99, 0
		for _, line := range f.likes {
			n := number(f.bytes(line, c))
			least, most = min(least, n), max(most, n)
		}
		f.stamps.source, f.stamps.date, f.stamps.time = hourNumber, date, c
		f.stamps.fromOne, f.stamps.counted = least > 0, least == 0 || most == 24
		return true
	}
	return false
}
