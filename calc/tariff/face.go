package tariff

// face says for every minute of a kind of day which line of a time-of-use row
// it belongs to.
type face struct {
	line    [minutesOfDay]int16 // -1 where no band holds
	until   [minutesOfDay]int16 // the minute from which it is another line
	minutes []int               // of each line in the day
	hole    int                 // the first minute that no band holds; -1 if there is none
}

// dayKinds is what the bands need to know of a day and the day before, of which
// a span over midnight may be left.
type dayKinds struct{ today, yesterday dayKind }

// dayKind is the day of the week, 0 for Sunday, and 8 more on a holiday.
type dayKind uint8

func kindOf(weekday int, holiday bool) dayKind {
	if holiday {
		weekday += 8
	}
	return dayKind(weekday)
}

func (d days) has(k dayKind) bool { return d.have(int(k&7), k >= 8) }

// faces makes the faces of every kind of day, so that pricing only looks them
// up. Days on which the same bands hold share one.
func faces(bands []band) map[dayKinds]*face {
	all := map[dayKinds]*face{}
	known := map[[2]uint64]*face{}
	for w := range 7 {
		for holidays := range 4 {
			k := dayKinds{kindOf(w, holidays&1 > 0), kindOf((w+6)%7, holidays&2 > 0)}
			var hold [2]uint64
			for i, b := range bands {
				if b.days.has(k.today) {
					hold[0] |= 1 << i
				}
				if b.days.has(k.yesterday) {
					hold[1] |= 1 << i
				}
			}
			if known[hold] == nil {
				known[hold] = newFace(bands, hold[0], hold[1])
			}
			all[k] = known[hold]
		}
	}
	return all
}

// newFace marks the minutes, the bands that come first last, so that they lie
// on top.
func newFace(bands []band, today, yesterday uint64) *face {
	f := &face{minutes: make([]int, len(bands)), hole: -1}
	for m := range f.line {
		f.line[m] = -1
	}
	for i := len(bands) - 1; i >= 0; i-- {
		b := bands[i]
		is, was := today>>i&1 > 0, yesterday>>i&1 > 0
		if is && len(b.hours) == 0 {
			f.mark(0, minutesOfDay, b.line)
		}
		for _, h := range b.hours {
			overMidnight := h.to <= h.from
			switch {
			case is && overMidnight:
				f.mark(h.from, minutesOfDay, b.line)
			case is:
				f.mark(h.from, h.to, b.line)
			}
			if was && overMidnight {
				f.mark(0, h.to, b.line)
			}
		}
	}
	next := minutesOfDay
	for m := minutesOfDay - 1; m >= 0; m-- {
		if m+1 < minutesOfDay && f.line[m+1] != f.line[m] {
			next = m + 1
		}
		f.until[m] = int16(next)
		if f.line[m] < 0 {
			f.hole = m
			continue
		}
		f.minutes[f.line[m]]++
	}
	return f
}

func (f *face) mark(from, to, line int) {
	for m := from; m < to; m++ {
		f.line[m] = int16(line)
	}
}
