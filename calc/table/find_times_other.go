package table

// handsOn says whether the other column has in nearly every row what the first
// has in the next one, as where intervals end as the next begin. The newest row
// may come first.
func (f *finder) handsOn(c, other int) bool {
	on, back := 0, 0
	for i := 1; i < len(f.likes); i++ {
		line, next := f.likes[i-1], f.likes[i]
		if string(f.bytes(line, other)) == string(f.bytes(next, c)) {
			on++
		}
		if string(f.bytes(next, other)) == string(f.bytes(line, c)) {
			back++
		}
	}
	return max(on, back)*5 >= (len(f.likes)-1)*4 && len(f.likes) > leastRows
}

// otherTimes finds the columns of times besides the first, where times are plain
// numbers: the end of each interval, or the same time once more.
func (f *finder) otherTimes(c int, all []looks, fits func(l *looks) bool) {
	for o := range all {
		if o == c || !fits(&all[o]) || all[o].same >= all[o].rows-1 || f.columns[o].heading.unit.IsEnergy() {
			continue
		}
		ends := f.follows(c, o)
		if ends && f.stamps.end < 0 && !f.columns[c].has(ofEnd) {
			f.stamps.end = o
		}
		f.stamps.other[o] = f.stamps.other[o] || ends || f.columns[o].has(ofStart|ofEnd)
	}
}

// pickUnix takes a column of Unix times; one of an energy is none, whatever its
// figures.
func (f *finder) pickUnix(all []looks) bool {
	for c := range all {
		if f.columns[c].heading.unit.IsEnergy() {
			all[c].unix = 0
		}
	}
	fits := func(l *looks) bool { return l.mostly(l.unix) }
	c := f.best(all, fits)
	if c < 0 {
		return false
	}
	f.stamps.source, f.stamps.date = unixTime, c
	f.otherTimes(c, all, fits)
	_, f.stamps.millis, _ = readUnix(f.bytes(f.likes[len(f.likes)-1], c))
	return true
}

// pickSerials takes a column of days as spreadsheets count them.
func (f *finder) pickSerials(all []looks) bool {
	for c := range all {
		if f.columns[c].heading.unit != 0 {
			all[c].serials = 0
		}
	}
	fits := func(l *looks) bool { return l.serials*3 > l.rows }
	c := f.best(all, fits)
	if c < 0 {
		return false
	}
	f.stamps.source, f.stamps.date = serialDays, c
	f.otherTimes(c, all, fits)
	return true
}
