package intake

import (
	"time"

	"splittally/calc/calendar"
)

// putBack tells the two runs apart of an hour that comes twice, without an
// offset, on a day on which clocks may be put back. The parts are in order of
// time, and are so afterwards; from the second run on they have the offset of a
// clock that was put back by an hour.
func (a *attempt) putBack(parts []interval) {
	latestFirst := len(parts) > 0 && parts[0].line > parts[len(parts)-1].line
	back := 0
	for i := 0; i < len(parts); {
		n, day := i, parts[i].at/dayLength
		twice := false
		for ; n < len(parts) && parts[n].at/dayLength == day; n++ {
			parts[n].zone -= back
			twice = twice || n > i && same(&parts[n-1], &parts[n])
		}
		if !twice || parts[i].zoned || !changeOfClocks(calendar.Day(day)) {
			i = n
			continue
		}
		if from, past, ok := hourTwice(parts[i:n]); ok {
			a.notice("clocks-back", calendar.Day(day).Long()+" has an hour twice and was taken as a day of 25 hours.")
			back += 60
			secondRun(parts[i:n], from, past, latestFirst)
			for k := i + (from+past)/2; k < n; k++ {
				parts[k].zone -= 60
			}
		}
		i = n
	}
}

// hourTwice gives the places of those intervals of a day that come twice, if
// they are one hour.
func hourTwice(day []interval) (from, past int, ok bool) {
	from, twice := -1, 0
	for k := 1; k < len(day); k++ {
		if !same(&day[k-1], &day[k]) {
			continue
		}
		if from < 0 {
			from = k - 1
		}
		past = k + 1
		twice += day[k].length
	}
	return from, past, twice == 60 && day[past-1].at-day[from].at+day[past-1].length == 60
}

// secondRun puts the second of each two intervals from one place up to another
// behind all the first ones. The second is the later line, unless the text
// begins with the latest.
func secondRun(day []interval, from, past int, latestFirst bool) {
	var first, second []interval
	for k := from; k+1 < past; k += 2 {
		x, y := day[k], day[k+1]
		if latestFirst && x.line != y.line {
			x, y = y, x
		}
		first, second = append(first, x), append(second, y)
	}
	copy(day[from:], append(first, second...))
}

// onceEach drops repeats of an interval, in place.
func (a *attempt) onceEach(parts []interval) []interval {
	out := parts[:0]
	var repeated []int
	for k := range parts {
		p := parts[k]
		if k > 0 && same(&parts[k-1], &p) {
			repeated = append(repeated, p.line)
			a.ignore(p.line-1, "repeats the time of "+lineList([]int{parts[k-1].line}))
			continue
		}
		out = append(out, p)
	}
	if len(repeated) > 0 {
		a.notice("repeated-hours", "Times that are given twice were counted once, as first given: "+lineList(repeated)+".")
	}
	return out
}

// same says whether two intervals of one day begin at one moment.
func same(x, y *interval) bool {
	return x.at-x.zone == y.at-y.zone && x.at/dayLength == y.at/dayLength
}

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
