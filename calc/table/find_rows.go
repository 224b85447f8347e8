package table

// takeRows reads the stamps of all lines.
func (f *finder) takeRows() error {
	filled := 0
	for line := f.skip; line < len(f.lines); line++ {
		r, ok := f.rowAt(line)
		switch {
		case ok:
			f.rows = append(f.rows, r)
			filled++
		case !f.blank(line):
			filled++
		}
	}
	switch {
	case len(f.rows) < leastRows:
		return no("there are fewer than three rows with a time")
	case 2*len(f.rows) < filled:
		return no("most lines have no time that can be read")
	}
	f.skip = f.rows[0].line
	return nil
}

// rowAt reads the stamp of a line.
func (f *finder) rowAt(line int) (row, bool) {
	r := row{line: line}
	b := f.bytes(line, f.stamps.date)
	ok := false
	switch f.stamps.source {
	case unixTime:
		r.at, _, ok = readUnix(b)
		return r, ok
	case serialDays:
		r.at, _, ok = serialOf(b)
		return r, ok
	}
	r.stamp, ok = readStamp(b)
	if !ok || r.shape == clockOnly {
		return r, false
	}
	switch f.stamps.source {
	case twoCells:
		t, ok := readStamp(f.bytes(line, f.stamps.time))
		if !ok || t.shape != clockOnly {
			return r, false
		}
		r.clock, r.half, r.full, r.ranged, r.zoned, r.offset = t.clock, t.half, t.full, t.ranged, t.zoned, t.offset
	case hourNumber:
		b := f.bytes(line, f.stamps.time)
		if n := digitsAt(b); n == 0 || n > 2 || n != len(b) || number(b) > 24 {
			return r, false
		}
		r.clock = int64(number(b)) * hourLength
	}
	r.clock = max(r.clock, 0)
	return r, true
}
