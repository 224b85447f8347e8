package scan

import (
	"splittally/calc/calendar"
	"splittally/calc/intake/words"
)

func isDigit(b byte) bool { return b >= '0' && b <= '9' }

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
	if d, next, ok := x.spacedDate(a, lenA, j); ok {
		return d, next, true
	}
	mark := x.byteAt(j)
	if mark != '-' && mark != '/' && mark != '.' || lenA > 4 || lenA == 3 {
		return d, i, false
	}
	if lenA == 4 && mark == '-' && x.byteAt(j+1)|0x20 == 'w' {
		week, k := x.digits(j+2, 2)
		if k-j == 4 && week >= 1 && week <= 53 && !isDigit(x.byteAt(k)) {
			return x.dayOfWeek(Date{Form: Week, Year: a, Day: week}, k)
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

// spacedDate reads a date with blanks around its marks: "13 / 10 / 2023".
func (x *lexer) spacedDate(a, lenA, j int) (d Date, next int, ok bool) {
	mark := x.byteAt(j + 1)
	if x.byteAt(j) != ' ' || mark != '/' && mark != '-' || x.byteAt(j+2) != ' ' {
		return d, j, false
	}
	b, k := x.digits(j+3, 2)
	if b < 0 || x.byteAt(k) != ' ' || x.byteAt(k+1) != mark || x.byteAt(k+2) != ' ' {
		return d, j, false
	}
	c, l := x.digits(k+3, 4)
	if c < 0 || lenA != 4 && l-k != 7 {
		return d, j, false
	}
	return threeParts(a, b, c, lenA, l-k-3, mark, l, x.byteAt(l), x.byteAt(l+1))
}

// dayOfWeek reads the "-3" of 2023-W40-3, the day within a week.
func (x *lexer) dayOfWeek(d Date, k int) (Date, int, bool) {
	n, l := x.digits(k+1, 1)
	if x.byteAt(k) != '-' || n < 1 || n > 7 || isDigit(x.byteAt(l)) {
		return d, k, true
	}
	monday, ok := isoWeek(d.Year, d.Day)
	year, month, day := (monday + calendar.Day(n-1)).Date()
	return Date{Form: Known, Year: year, Month: month, Day: day}, l, ok
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
		if after != '.' || isDigit(x.byteAt(k+1)) || lenA > 2 || lenB > 2 || x.hasOtherDate() {
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

// hasOtherDate says whether a date stands before that is not of the form 3.10.:
// then 10.1 before a full stop is a figure.
func (x *lexer) hasOtherDate() bool {
	for _, it := range x.items[x.start:] {
		if it.Kind == DateOf && (it.Date.Mark != '.' || it.Date.Year != 0) {
			return true
		}
	}
	return false
}

// monthAt says whether the name of a month follows at i, over blanks.
func (x *lexer) monthAt(i int) bool {
	word, _ := x.word(x.over(i, " ."))
	return words.Month(word) > 0
}

// compactDate reads yyyymmdd, or ddmmyyyy, which must be the first thing in its
// cell.
func (x *lexer) compactDate(n, next int) (Date, int, bool) {
	d := Date{Form: Known, Year: n / 10000, Month: n / 100 % 100, Day: n % 100}
	_, ok := d.On(DayFirst, 0)
	if !ok && n%10000 >= 2000 && isYear(n%10000) {
		d = Date{Form: DayMonth, A: n / 1000000, B: n / 10000 % 100, Year: n % 10000}
		_, ok = d.On(DayFirst, 0)
		if !ok {
			_, ok = d.On(MonthFirst, 0)
		}
	}
	after := x.byteAt(next)
	return d, next, ok && len(x.items) == x.start && !isDigit(after) && after != '.' && (after != ',' || !isDigit(x.byteAt(next+1)))
}
