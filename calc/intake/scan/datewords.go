package scan

import (
	"strings"

	"splittally/calc/calendar"
	"splittally/calc/intake/words"
)

// dateFromDay reads a date that begins with the day: "3 Oct 2023", "3rd of
// October", "03-OCT-23", "1-7 Oct", where the day is already read up to j. A
// range gives its first day in from.
func (x *lexer) dateFromDay(day, j int) (d, from Date, next int, ok bool) {
	if day < 1 || day > 31 {
		return d, from, j, false
	}
	first := 0
	if c := x.byteAt(j); c == '-' || strings.HasPrefix(x.text[j:x.end], "–") {
		k := j + 1
		if c != '-' {
			k = j + len("–")
		}
		if last, l := x.digits(k, 2); last > day && last <= 31 {
			first, day, j = day, last, l
		}
	}
	k := x.overOrdinal(j)
	k = x.over(k, " \u00a0-/.,_")
	word, l := x.word(k)
	for word == "of" || word == "de" || word == "d" || word == "di" || word == "den" {
		k = x.over(l, " \u00a0'")
		word, l = x.word(k)
	}
	month := words.Month(word)
	if month == 0 {
		return d, from, j, false
	}
	tight := l-k > 0 && k > j && x.text[k-1] != ' '
	year, next := x.year(l, tight)
	d = Date{Form: Known, Year: year, Month: month, Day: day}
	if first > 0 {
		from = d
		from.Day = first
	}
	return d, from, next, true
}

// dateFromMonth reads a date that begins with the name of its month, which ends
// at j: "Oct 3", "October 3rd, 2023", "Oct 1-7", "October 2023".
func (x *lexer) dateFromMonth(month, j int, letters string) (d, from Date, next int, ok bool) {
	k := x.over(j, " \u00a0-/.,_")
	if x.byteAt(k) == '\'' { // Oct '23
		if year, l := x.digits(k+1, 2); l == k+3 && !isDigit(x.byteAt(l)) {
			return Date{Form: Month, Year: century(year), Month: month}, from, l, true
		}
	}
	n, l := x.digits(k, 4)
	switch {
	case n < 0:
		return d, from, j, false
	case l-k == 4 && isYear(n) && x.endsNumber(l):
		return Date{Form: Month, Year: n, Month: month}, from, l, true
	case l-k > 2 || n < 1 || n > 31:
		return d, from, j, false
	}
	if c := x.byteAt(l); (c == '.' || c == ':' || c == '/') && isDigit(x.byteAt(l+1)) || c == ',' && x.byteAt(j) == ' ' && x.threeDigits(l+1) {
		return d, from, j, false // Jan 1,234
	}
	l = x.overOrdinal(l)
	if isLetter(x.byteAt(l)) {
		return d, from, j, false
	}
	if _, also := words.Weekday(letters); also { // "mar 3 oct" is a Tuesday
		if word, _ := x.word(x.over(l, " .")); words.Month(word) > 0 {
			return d, from, j, false
		}
	}
	d = Date{Form: Known, Month: month, Day: n}
	if last, m := x.rangeEnd(l, n); last > 0 {
		from = d
		d.Day, l = last, m
	}
	d.Year, next = x.year(l, x.byteAt(j) == '-' || x.byteAt(j) == '/')
	from.Year = d.Year
	return d, from, next, true
}

// dateFromYear reads a date that begins with the year, read up to j, and has
// the name of its month: "2023-Oct-03", "2023. október 3.".
func (x *lexer) dateFromYear(year, j int) (d Date, next int, ok bool) {
	const marks = " \u00a0-/.,_"
	word, k := x.word(x.over(j, marks))
	month := words.Month(word)
	if !isYear(year) || month == 0 || k == j {
		return d, j, false
	}
	day, next := x.digits(x.over(k, marks), 2)
	if day < 1 || day > 31 || !x.endsNumber(next) {
		return d, j, false
	}
	return Date{Form: Known, Year: year, Month: month, Day: day}, next, true
}

// weekNumber reads the number of a week behind the word for it, which ends at
// j: "Week 40 2023", "KW 40/2023". Kilowatts stand behind a number, so KW at the
// beginning or behind a word is the German week.
func (x *lexer) weekNumber(word string, j int) (d Date, next int, ok bool) {
	if words.LabelOf(word) != words.Week && (word != "kw" || len(x.items) > x.start && x.items[len(x.items)-1].Kind != Word) {
		return d, j, false
	}
	n, l := x.digits(x.over(j, " .\u00a0"), 2)
	if n < 1 || n > 53 || !x.endsNumber(l) {
		return d, j, false
	}
	year, next := x.year(l, false)
	return Date{Form: Week, Year: year, Day: n}, next, true
}

// rangeEnd reads the "-7" of "Oct 1-7"; something must follow that can be the
// figure, or 7 is the figure itself.
func (x *lexer) rangeEnd(i, first int) (last, next int) {
	k := x.over(i, "-–")
	if k == i {
		return 0, i
	}
	last, next = x.digits(k, 2)
	if last <= first || last > 31 || !x.endsNumber(next) || !strings.ContainsAny(x.text[next:x.end], "0123456789") && x.free {
		return 0, i
	}
	return last, next
}

// year reads the year behind a day and month, if one stands there. tight says
// that the date is written with hyphens or slashes, so that two digits do.
func (x *lexer) year(i int, tight bool) (year, next int) {
	k := x.over(i, " \u00a0-/.,_")
	if word, l := x.word(k); word == "de" || word == "del" || word == "of" {
		k = x.over(l, " \u00a0")
	}
	short := x.byteAt(k) == '\''
	if short {
		k++
	}
	n, l := x.digits(k, 4)
	switch {
	case n < 0 || !x.endsNumber(l):
		return 0, i
	case l-k == 4 && isYear(n):
		return n, l
	case l-k == 2 && (short || tight && k == i+1 && x.text[i] != ' '):
		return century(n), l
	}
	return 0, i
}

func isYear(n int) bool { return n >= calendar.FirstYear && n <= calendar.LastYear-100 }

// endsNumber says whether a number that ends before i is whole: no decimals
// and no unit follow.
func (x *lexer) endsNumber(i int) bool {
	c := x.byteAt(i)
	if isDigit(c) || (c == '.' || c == ',' || c == '\'') && isDigit(x.byteAt(i+1)) {
		return false
	}
	if isLetter(c) && c|0x20 != 't' {
		return false
	}
	word, _ := x.word(x.over(i, " "))
	u := words.UnitOf(word)
	return !u.IsEnergy() && !u.IsPower()
}

// overOrdinal steps over the ending of an ordinal: 3rd, 1er, 1º, 3.
func (x *lexer) overOrdinal(i int) int {
	word, next := x.word(i)
	switch word {
	case "st", "nd", "rd", "th", "er", "ere", "e", "eme", "o", "a", "º", "ª", "ter", "de":
		return next
	}
	return i
}
