package scan

import (
	"strings"

	"splittally/calc/intake/words"
	"splittally/calc/number"
)

// wholeCell takes a cell that is one number or one missing mark as it stands,
// so that "14 865,8" is one number where columns are parted by something else.
func (x *lexer) wholeCell() bool {
	cell := strings.TrimSpace(x.text[x.at:x.end])
	if cell == "" {
		return true
	}
	from := x.at + strings.Index(x.text[x.at:x.end], cell)
	to := from + len(cell)
	it := Item{Cell: x.cell, From: from, To: to}
	if len(cell) > 1 && cell[0] == '=' {
		cell = cell[1:] // a formula that is a number
	}
	if cell[0] == '(' && cell[len(cell)-1] == ')' && len(number.Readings(cell[1:len(cell)-1])) > 0 && isDigit(cell[1]) {
		cell = "-" + cell[1:len(cell)-1] // the bookkeeper's minus
	}
	switch first := cell[0]; {
	case isDigit(first) || first == '-' || first == '+' || first == '.' || first == ',' || strings.HasPrefix(cell, "–"):
		if _, _, date := (&lexer{text: cell, end: len(cell)}).dateInDigits(0); date {
			return false
		}
		it.Kind, it.Readings = Number, number.Readings(cell)
		if it.Readings != nil {
			x.items = append(x.items, it)
			return true
		}
	}
	if isDigit(cell[0]) && strings.Trim(cell, "0123456789., \u00a0") == "" && strings.ContainsAny(cell, " \u00a0") && strings.ContainsAny(cell, ".,") {
		if _, _, date := (&lexer{text: cell, end: len(cell)}).dateInDigits(0); !date {
			it.Kind = Number // "1 1,6"
			x.items = append(x.items, it)
			return true
		}
	}
	if !words.Missing(cell) {
		return false
	}
	it.Kind = Missing
	x.items = append(x.items, it)
	return true
}

// number reads a number that begins at from, and the unit behind it.
func (x *lexer) number(from int) {
	i := from
	for i < x.end && !isDigit(x.text[i]) && x.text[i] != '.' && x.text[i] != ',' {
		i++ // the sign
	}
	end := x.endOfNumber(i)
	if x.goesOn(i, end) || x.unitRunOn(end) {
		x.garbled(from, end)
		return
	}
	it := Item{Kind: Number, From: from, To: end, Readings: number.Readings(x.text[from:end])}
	if n := len(x.items); n > x.start {
		last := x.items[n-1]
		it.Spaced = last.Kind == Number && last.Unit == 0 && last.To+1 == from && x.text[last.To] == ' ' && startsWithThree(x.text[from:end])
	}
	next := end
	if unit, after := x.unit(end); unit != 0 {
		it.Unit, next = unit, after
	} else if isLetter(x.byteAt(end)) {
		x.glued(from, end)
		return
	}
	if it.Unit == 0 {
		it.Unit = x.money
	}
	x.money = 0
	x.add(it)
	x.at = max(next, from+1)
}

// glued reads digits that letters follow without a blank and that are no unit:
// an ordinal is a word, "1o.1" a malformed number.
func (x *lexer) glued(from, end int) {
	if after := x.overOrdinal(end); after > end && !isDigit(x.byteAt(after)) && !joins(x.byteAt(after)) {
		x.add(Item{Kind: Word, Fold: words.Fold(x.text[from:after]), From: from, To: after})
		x.at = after
		return
	}
	x.garbled(from, end)
}

// startsWithThree says whether a number begins with exactly three digits.
func startsWithThree(s string) bool {
	return len(s) >= 3 && isDigit(s[0]) && isDigit(s[1]) && isDigit(s[2]) && (len(s) == 3 || !isDigit(s[3]) && s[3] != '\'')
}

// endOfNumber steps over digits and the marks between them.
func (x *lexer) endOfNumber(i int) int {
	for i < x.end {
		switch c := x.text[i]; {
		case isDigit(c):
			i++
		case (c == '.' || c == ',') && isDigit(x.byteAt(i+1)):
			i++
		case c == '\'' && x.threeDigits(i+1):
			i++
		case strings.HasPrefix(x.text[i:x.end], "\u00a0") && x.threeDigits(i+2):
			i += 2
		case (c == 'e' || c == 'E') && (isDigit(x.byteAt(i+1)) || (x.byteAt(i+1) == '+' || x.byteAt(i+1) == '-') && isDigit(x.byteAt(i+2))):
			i += 2
		default:
			return i
		}
	}
	return i
}

func (x *lexer) threeDigits(i int) bool {
	return isDigit(x.byteAt(i)) && isDigit(x.byteAt(i+1)) && isDigit(x.byteAt(i+2)) && !isDigit(x.byteAt(i+3))
}

// unit reads a unit at i, over one blank or two.
func (x *lexer) unit(i int) (words.Unit, int) {
	k := x.over(i, " \u00a0")
	if k > i+3 {
		return 0, i
	}
	if sign, size := currency(x.text[k:x.end]); size > 0 {
		// A sign of currency with a digit behind it belongs to the next number.
		if isDigit(x.byteAt(k+size)) || x.byteAt(k+size) == ' ' && k > i && isDigit(x.byteAt(k+size+1)) {
			return 0, i
		}
		return sign, k + size
	}
	word, next := x.word(k)
	u := words.UnitOf(word)
	if u == words.Kilowatt || u == words.Watt || u == words.Megawatt {
		if hours, after := x.word(x.over(next, " -·*")); hours == "h" || hours == "hr" || hours == "hrs" || hours == "hours" || hours == "hour" {
			return u - words.Watt + words.WattHour, after
		}
	}
	if u == words.Money && x.beforeNumber(next) {
		return 0, i
	}
	return u, next
}

// beforeNumber says whether a word of money that ends at i belongs to the
// number behind it, not to the one before: "12.4 CHF 3.12".
func (x *lexer) beforeNumber(i int) bool {
	i = x.over(i, " .\u00a0")
	if !isDigit(x.byteAt(i)) {
		return false
	}
	word, _ := x.word(x.over(x.endOfNumber(i), " \u00a0"))
	return words.UnitOf(word) != words.Money
}

// currency reads a sign that makes a number money, a percentage or a
// temperature.
func currency(s string) (words.Unit, int) {
	for _, sign := range []string{"$", "€", "£", "¥", "₹", "¢", "₽", "₺", "₩", "₪"} {
		if strings.HasPrefix(s, sign) {
			return words.Money, len(sign)
		}
	}
	for _, sign := range []string{"%", "°C", "°F", "°", "℃", "º"} {
		if strings.HasPrefix(s, sign) {
			return words.Other, len(sign)
		}
	}
	return 0, 0
}
