package scan

import (
	"strings"
)

// timeOfDay reads hh:mm, with seconds, AM or PM, and offset if they follow; or
// a bare hour with AM or PM; or the French 13h30. The hour is read up to j.
func (x *lexer) timeOfDay(hour, i, j int) (it Item, ok bool) {
	if j-i > 2 || hour > 24 {
		return it, false
	}
	minute, next := 0, j
	if c := x.byteAt(j); c == ':' || c|0x20 == 'h' || c == '.' {
		minute, next = x.digits(j+1, 2)
		if next-j != 3 || minute > 59 || c == '.' && !x.clockBehind(next) {
			return it, false
		}
		if c == ':' {
			next = x.seconds(next)
		}
	}
	if x.oClock(next) > next && hour <= 24 {
		it = Item{Kind: TimeOf, Cell: x.cell, Minute: hour*60 + minute, From: i, To: x.oClock(next)}
		return it, it.Minute <= 24*60
	}
	if half, after := x.halfOfDay(next); half >= 0 {
		if hour < 1 || hour > 12 {
			return it, false
		}
		hour, next = hour%12+half, after
	} else if next == j {
		return it, false
	}
	it = Item{Kind: TimeOf, Cell: x.cell, Minute: hour*60 + minute, From: i}
	if it.Minute > 24*60 {
		return it, false
	}
	// 01:00-02:00 is a stretch of time, 2024-01-15T01:00-02:00 a stamp.
	stamped := x.byteAt(i-1)|0x20 == 't' || next-j > 3
	it.Offset, it.Zoned, it.To = x.offset(next, stamped)
	return it, true
}

// seconds steps over :ss and its fraction; readings are not timed so finely.
func (x *lexer) seconds(i int) int {
	if x.byteAt(i) != ':' {
		return i
	}
	s, next := x.digits(i+1, 2)
	if s < 0 || s > 60 {
		return i
	}
	if c := x.byteAt(next); (c == '.' || c == ',' && x.free) && isDigit(x.byteAt(next+1)) {
		for next++; isDigit(x.byteAt(next)); next++ {
		}
	}
	return next
}

// halfOfDay reads AM or PM and gives the hours to add, -1 if neither stands
// there.
func (x *lexer) halfOfDay(i int) (hours, next int) {
	k := x.over(i, " \u00a0")
	rest := strings.ToLower(x.text[k:min(x.end, k+4)])
	for _, form := range []struct {
		text  string
		hours int
	}{{"a.m.", 0}, {"p.m.", 12}, {"am", 0}, {"pm", 12}} {
		if strings.HasPrefix(rest, form.text) && !isLetter(x.byteAt(k+len(form.text))) {
			return form.hours, k + len(form.text)
		}
	}
	return -1, i
}

// oClock steps over the German word behind a time.
func (x *lexer) oClock(i int) int {
	if word, next := x.word(x.over(i, " \u00a0")); word == "uhr" {
		return next
	}
	return i
}

// clockBehind says whether 7.30 is a time for what stands behind it.
func (x *lexer) clockBehind(i int) bool {
	half, _ := x.halfOfDay(i)
	return half >= 0 || x.oClock(i) > i
}

// offset reads Z, UTC, +01:00, -0500 behind a time. One with a minus and a
// colon is taken only behind a stamp.
func (x *lexer) offset(i int, stamped bool) (minutes int, zoned bool, next int) {
	switch c := x.byteAt(i); {
	case (c == 'Z' || c == 'z') && !isLetter(x.byteAt(i+1)):
		return 0, true, i + 1
	}
	k := i
	if x.byteAt(k) == ' ' {
		k++
	}
	if word, l := x.word(k); word == "utc" || word == "gmt" {
		if c := x.byteAt(l); c != '+' && c != '-' {
			return 0, true, l
		}
		k = l
	}
	sign := 1
	switch x.byteAt(k) {
	case '-':
		sign = -1
		if k > i && !stamped {
			return 0, false, i
		}
	case '+':
	default:
		return 0, false, i
	}
	hours, l := x.digits(k+1, 4)
	var m int
	switch {
	case l-k-1 == 4: // -0500
		hours, m = hours/100, hours%100
	case sign < 0 && !stamped:
		return 0, false, i
	case l-k-1 == 2 && x.byteAt(l) == ':':
		m, l = x.digits(l+1, 2)
	case l-k-1 == 2 && k == i && x.byteAt(l) != '.': // +01
	default:
		return 0, false, i
	}
	if hours < 0 || hours > 14 || m < 0 || m > 59 || isDigit(x.byteAt(l)) || x.byteAt(l) == ':' {
		return 0, false, i
	}
	return sign * (hours*60 + m), true, l
}
