package scan

import (
	"strings"

	"splittally/calc/calendar"
	"splittally/calc/intake/words"
)

// Form says how much of a date is certain.
type Form uint8

// The forms of dates.
const (
	Known    Form = iota // month and day are known; the year is, unless 0
	DayMonth             // A and B are day and month in an order not known; the year is known unless 0
	TwoDigit             // A, B and C are day, month and year in an order not known
	Month                // a whole month; the year is known unless 0
	Week                 // a whole week: Day holds its number by ISO 8601
)

// Date is a day, month or week as written.
type Date struct {
	Form             Form
	Mark             byte // what stands between the parts: '-', '/', '.'; 0 in a date with a word
	Year, Month, Day int
	A, B, C          int
}

// Order is the order of the parts of a date in digits.
type Order uint8

// The orders of dates.
const (
	DayFirst Order = iota
	MonthFirst
	YearFirst // of two-digit dates alone
)

// On gives the day in the given order and, where the date has none of its own,
// year. For a month or a week it gives the first day. ok is false if there is
// no such day.
func (d Date) On(order Order, year int) (day calendar.Day, ok bool) {
	if d.Year != 0 {
		year = d.Year
	}
	switch d.Form {
	case DayMonth:
		if order == MonthFirst {
			return calendar.Date(year, d.A, d.B)
		}
		return calendar.Date(year, d.B, d.A)
	case TwoDigit:
		switch order {
		case MonthFirst:
			return calendar.Date(century(d.C), d.A, d.B)
		case YearFirst:
			return calendar.Date(century(d.A), d.B, d.C)
		}
		return calendar.Date(century(d.C), d.B, d.A)
	case Month:
		return calendar.Date(year, d.Month, 1)
	case Week:
		return isoWeek(year, d.Day)
	}
	return calendar.Date(year, d.Month, d.Day)
}

// Yearless says whether the year is not written.
func (d Date) Yearless() bool { return d.Year == 0 && d.Form != TwoDigit }

// century gives the year that two digits mean: 1970 to 2069.
func century(two int) int {
	if two < 70 {
		return 2000 + two
	}
	return 1900 + two
}

// isoWeek gives the Monday of a week by ISO 8601: week 1 holds 4 January.
func isoWeek(year, week int) (calendar.Day, bool) {
	fourth, ok := calendar.Date(year, 1, 4)
	if !ok || week < 1 || week > 53 {
		return 0, false
	}
	monday := fourth - calendar.Day((int(fourth.Weekday())+6)%7)
	return monday + calendar.Day(7*(week-1)), true
}

func isDigit(b byte) bool  { return b >= '0' && b <= '9' }
func isLetter(b byte) bool { return b|0x20 >= 'a' && b|0x20 <= 'z' || b >= 0x80 }

// digits reads up to most digits at i; n is -1 if there are none or more.
func (x *lexer) digits(i, most int) (n, next int) {
	next = i
	for next < x.end && isDigit(x.text[next]) {
		if next-i == most {
			return -1, i
		}
		n = n*10 + int(x.text[next]-'0')
		next++
	}
	if next == i {
		return -1, i
	}
	return n, next
}

// byteAt gives the byte at i, 0 outside the cell.
func (x *lexer) byteAt(i int) byte {
	if i < 0 || i >= x.end {
		return 0
	}
	return x.text[i]
}

// dateInDigits reads a date written in digits alone.
func (x *lexer) dateInDigits(i int) (d Date, next int, ok bool) {
	a, j := x.digits(i, 8)
	if a < 0 {
		return d, i, false
	}
	lenA := j - i
	if lenA == 8 {
		return x.compactDate(a, j)
	}
	mark := x.byteAt(j)
	if mark != '-' && mark != '/' && mark != '.' || lenA > 4 || lenA == 3 {
		return d, i, false
	}
	if lenA == 4 && mark == '-' && x.byteAt(j+1)|0x20 == 'w' {
		week, k := x.digits(j+2, 2)
		if k-j == 4 && week >= 1 && week <= 53 && !isDigit(x.byteAt(k)) {
			return Date{Form: Week, Year: a, Day: week}, k, true
		}
	}
	b, k := x.digits(x.overBlank(j+1, mark), 4)
	if b < 0 {
		return d, i, false
	}
	lenB := k - x.overBlank(j+1, mark)
	c, l := -1, k
	if x.byteAt(k) == mark && lenB <= 2 {
		c, l = x.digits(x.overBlank(k+1, mark), 4)
	}
	if c >= 0 && x.overBlank(k+1, mark) > k+1 && !x.endsNumber(l) {
		c = -1 // "29.12. 15,63"
	}
	if c < 0 {
		return x.twoParts(a, b, lenA, lenB, i, k, mark)
	}
	return threeParts(a, b, c, lenA, l-x.overBlank(k+1, mark), mark, l, x.byteAt(l), x.byteAt(l+1))
}

// overBlank steps over the blank that some put after a dot within a date.
func (x *lexer) overBlank(i int, mark byte) int {
	if mark == '.' && x.byteAt(i) == ' ' && isDigit(x.byteAt(i+1)) {
		return i + 1
	}
	return i
}

// threeParts sorts out a date of three numbers. after and beyond are the two
// bytes behind it, which must not carry it on.
func threeParts(a, b, c, lenA, lenC int, mark byte, next int, after, beyond byte) (Date, int, bool) {
	if isDigit(after) || (after == '.' || after == ',' || after == mark) && isDigit(beyond) && after != ',' {
		return Date{}, next, false
	}
	switch {
	case lenA == 4 && lenC <= 2:
		return Date{Form: Known, Mark: mark, Year: a, Month: b, Day: c}, next, true
	case lenA <= 2 && lenC == 4:
		return Date{Form: DayMonth, Mark: mark, A: a, B: b, Year: c}, next, true
	case lenA <= 2 && lenC == 2:
		return Date{Form: TwoDigit, Mark: mark, A: a, B: b, C: c}, next, true
	}
	return Date{}, next, false
}

// twoParts sorts out a date of two numbers: a month with its year, or a day
// without one. The dot needs a second one behind ("3.10."), or 3.10 would be no
// number any more.
func (x *lexer) twoParts(a, b, lenA, lenB, from, k int, mark byte) (Date, int, bool) {
	after := x.byteAt(k)
	if isDigit(after) || isLetter(after) || (after == ',' || after == ':') && isDigit(x.byteAt(k+1)) && mark != '/' {
		return Date{}, from, false
	}
	switch {
	case mark == '.':
		if after != '.' || isDigit(x.byteAt(k+1)) || lenA > 2 || lenB > 2 {
			return Date{}, from, false
		}
		k++
	case lenA == 4 && lenB == 2 && b >= 1 && b <= 12 && a >= calendar.FirstYear && a <= calendar.LastYear:
		return Date{Form: Month, Mark: mark, Year: a, Month: b}, k, true
	case lenB == 4 && mark == '/' && a >= 1 && a <= 12:
		return Date{Form: Month, Mark: mark, Year: b, Month: a}, k, true
	case lenA > 2 || lenB > 2 || after == '.' && isDigit(x.byteAt(k+1)):
		return Date{}, from, false
	case mark == '-' && (len(x.items) > x.start || x.monthAt(k)):
		return Date{}, from, false // 12-13 behind something else is no date
	}
	if a < 1 || b < 1 || a > 31 || b > 31 || a > 12 && b > 12 {
		return Date{}, from, false
	}
	return Date{Form: DayMonth, Mark: mark, A: a, B: b}, k, true
}

// monthAt says whether the name of a month follows at i, over blanks.
func (x *lexer) monthAt(i int) bool {
	word, _ := x.word(x.over(i, " ."))
	return words.Month(word) > 0
}

// compactDate reads yyyymmdd, which must be the first thing in its cell.
func (x *lexer) compactDate(n, next int) (Date, int, bool) {
	d := Date{Form: Known, Year: n / 10000, Month: n / 100 % 100, Day: n % 100}
	_, ok := d.On(DayFirst, 0)
	after := x.byteAt(next)
	return d, next, ok && len(x.items) == x.start && !isDigit(after) && after != '.' && (after != ',' || !isDigit(x.byteAt(next+1)))
}

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
	if c := x.byteAt(l); (c == '.' || c == ':' || c == '/') && isDigit(x.byteAt(l+1)) {
		return d, from, j, false
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

// weekNumber reads the number of a week behind the word for it, which ends at
// j: "Week 40 2023", "KW 40/2023". Kilowatts stand behind a number, so KW at the
// beginning is the German week.
func (x *lexer) weekNumber(word string, j int) (d Date, next int, ok bool) {
	if words.LabelOf(word) != words.Week && (word != "kw" || len(x.items) > x.start) {
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
