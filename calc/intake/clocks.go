package intake

import (
	"time"

	"splittally/calc/calendar"
)

// onceEach drops repeats of an interval. Without an offset, an hour that comes
// twice on a day is the hour that the clocks were put back.
func (a *attempt) onceEach(parts []interval) []interval {
	out := make([]interval, 0, len(parts))
	var repeated []int
	for i := 0; i < len(parts); {
		n := i
		day := parts[i].at / dayLength
		for n < len(parts) && parts[n].at/dayLength == day {
			n++
		}
		twice := 0
		for k := i + 1; k < n; k++ {
			if same(parts[k-1], parts[k]) {
				twice += parts[k].length
			}
		}
		back := twice == 60 && !parts[i].zoned && changeOfClocks(calendar.Day(day))
		if back {
			a.notice("clocks-back", calendar.Day(day).Long()+" has an hour twice and was taken as a day of 25 hours.")
		}
		for k := i; k < n; k++ {
			if k > i && same(parts[k-1], parts[k]) && !back {
				repeated = append(repeated, parts[k].line)
				a.ignore(parts[k].line-1, "repeats the time of "+lineList([]int{parts[k-1].line}))
				continue
			}
			out = append(out, parts[k])
		}
		i = n
	}
	if len(repeated) > 0 {
		a.notice("repeated-hours", "Times that are given twice were counted once, as first given: "+lineList(repeated)+".")
	}
	return out
}

func same(x, y interval) bool { return x.at-x.zone == y.at-y.zone }

// changeOfClocks says whether clocks may be put forward or back on a day: a
// Sunday of the months in which any country of the world's north or south does
// so.
func changeOfClocks(d calendar.Day) bool {
	_, month, _ := d.Date()
	switch month {
	case 3, 4, 9, 10, 11:
		return d.Weekday() == time.Sunday
	}
	return false
}

// lengthOf gives the minutes of a day: 1440, and what a change of the offset
// between its first and last interval adds.
func lengthOf(parts []interval) int {
	return dayLength + parts[0].zone - parts[len(parts)-1].zone
}

// sprung says whether a day that lacks one hour lacks it in the early morning
// of a Sunday on which clocks may have been put forward.
func sprung(day calendar.Day, parts []interval) bool {
	if !changeOfClocks(day) || parts[0].zoned || parts[0].at%dayLength != 0 {
		return false
	}
	for i := 1; i < len(parts); i++ {
		if gap := parts[i].at - parts[i-1].at - parts[i-1].length; gap != 0 {
			return gap == 60 && parts[i].at%dayLength <= 4*60
		}
	}
	return false
}
