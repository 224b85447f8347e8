package say

import (
	"strconv"
	"strings"

	"splittally/calc/calendar"
	"splittally/calc/record"
	"splittally/calc/series"
)

// Readings counts them and tells their spacing.
func Readings(s record.Source) string {
	every := "one every " + Lasting(int64(s.Step)*1000)
	switch s.Step {
	case 0:
		every = "unevenly spaced"
	case 1:
		every = "one a second"
	case 60:
		every = "one a minute"
	case 3600:
		every = "one an hour"
	case 86400:
		every = "one a day"
	}
	return Thousands(s.Rows) + ", " + every
}

// Lost sums the gaps up.
func Lost(r record.Record) string {
	if len(r.Gaps) == 0 {
		return "nothing between the first and the last"
	}
	var all int64
	for _, g := range r.Gaps {
		all += g.Length
	}
	sum := Lasting(all) + " together"
	if r.MoreGaps > 0 {
		sum = "more than " + sum
	}
	return Counted(len(r.Gaps)+r.MoreGaps, "gap", "gaps") + ", " + sum
}

// Reaches gives the first and last day of a record.
func Reaches(r record.Record) (first, last calendar.Day, ok bool) {
	for _, c := range r.Channels {
		if len(c.Days) == 0 {
			continue
		}
		end := c.First + calendar.Day(len(c.Days)) - 1
		if !ok {
			first, last, ok = c.First, end, true
		}
		first, last = min(first, c.First), max(last, end)
	}
	return first, last, ok
}

// Column names a channel, the i-th from 0, by its place where it has no name.
func Column(c record.Channel, i int) string {
	if c.Name == "" {
		return "Column " + strconv.Itoa(i+1)
	}
	return c.Name
}

// Role says what a role is.
func Role(r record.Role) string {
	switch r {
	case record.Import:
		return "taken from the grid"
	case record.Export:
		return "fed into the grid"
	case record.Production:
		return "made in the home"
	case record.LegA:
		return "leg or phase A"
	case record.LegB:
		return "leg or phase B"
	case record.LegC:
		return "leg or phase C"
	case record.Circuit:
		return "a part of the home"
	}
	return string(r)
}

// RecordOddity tells of an oddity of a file, with the lines of it.
func RecordOddity(o record.Oddity) string {
	said := Thousands(o.Count) + " × " + oddWords(o.Kind)
	if len(o.Lines) > 0 {
		var lines []string
		for _, l := range o.Lines {
			lines = append(lines, strconv.Itoa(l))
		}
		word := "; line "
		if len(lines) > 1 {
			word = "; lines "
		}
		said += word + strings.Join(lines, ", ")
		if o.Count > len(lines) {
			said += " and more"
		}
	}
	if o.Told != "" {
		if o.Count > 1 {
			said += " (first: " + o.Told + ")"
		} else {
			said += " (" + o.Told + ")"
		}
	}
	return said
}

// oddWords says what a kind of oddity is and what was done about it.
func oddWords(k record.Kind) string {
	switch k {
	case record.Duplicate:
		return "a reading twice with the same figure: counted once"
	case record.Conflict:
		return "a time again with another figure: the first was kept"
	case record.Overlap:
		return "an interval that reaches into another: left out"
	case record.Disorder:
		return "a reading from before the one above it: put where it belongs"
	case record.Unreadable:
		return "a line without a time that can be read: left out"
	case record.NoFigure:
		return "a cell without a figure: a gap"
	case record.Reset:
		return "a register that began anew at zero"
	case record.RollOver:
		return "a register that passed its highest figure"
	case record.BelowZero:
		return "a figure below zero"
	case record.TooLarge:
		return "a figure that no home can have: left out"
	case record.ClockBack:
		return "an hour that came twice, as the clock was set back"
	case record.ClockOn:
		return "an hour that never was, as the clock was set forward"
	case record.Finer:
		return "digits finer than a millionth of a Wh: rounded"
	case series.Stray:
		return "a time years from all others, as of a clock that was not set: left out"
	case record.Marked:
		return "a reading that the source itself calls estimated"
	}
	return string(k)
}

// Thousands writes a large number with its thousands apart.
func Thousands(n int) string {
	digits := strconv.Itoa(n)
	var b strings.Builder
	for i := range len(digits) {
		if i > 0 && (len(digits)-i)%3 == 0 {
			b.WriteString(Thin)
		}
		b.WriteByte(digits[i])
	}
	return b.String()
}

// Lasting writes a stretch of time by its two largest units, such as 2 h 5 min.
func Lasting(ms int64) string {
	units := [...]struct {
		word string
		ms   int64
	}{{"d", 86_400_000}, {"h", 3_600_000}, {"min", 60_000}, {"s", 1000}}
	var parts []string
	for _, u := range units {
		n := ms / u.ms
		ms %= u.ms
		if n > 0 {
			parts = append(parts, strconv.FormatInt(n, 10)+Thin+u.word)
		} else if len(parts) > 0 {
			break
		}
		if len(parts) == 2 {
			break
		}
	}
	if len(parts) == 0 {
		return "less than 1" + Thin + "s"
	}
	return strings.Join(parts, " ")
}

// WallSpan writes from when to when, with the day once if it is one.
func WallSpan(from, to int64) string {
	start := WallClock(from)
	day := start[:strings.LastIndexByte(start, ' ')+1]
	return start + " to " + strings.TrimPrefix(WallClock(to), day)
}

// WallClock writes a time of the local clock, in milliseconds since 1970.
func WallClock(wall int64) string {
	day, rest := calendar.At(wall)
	rest /= 1000
	two := func(n int64) string { return string([]byte{byte('0' + n/10), byte('0' + n%10)}) }
	clock := two(rest/3600) + ":" + two(rest/60%60)
	if s := rest % 60; s > 0 {
		clock += ":" + two(s)
	}
	return day.Long() + " " + clock
}
