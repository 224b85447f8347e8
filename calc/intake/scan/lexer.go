package scan

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"splittally/calc/intake/words"
)

// lexer walks through one cell and appends what it meets to items.
type lexer struct {
	text    string
	at, end int
	cell    int
	start   int // where in items the line's or cell's own items begin
	free    bool
	items   []Item

	depth int        // open brackets
	money words.Unit // Money right behind a sign of currency
}

// run scans the cell from at to end.
func (x *lexer) run() {
	x.start = len(x.items)
	if !x.free && x.wholeCell() {
		return
	}
	for x.at < x.end {
		x.step()
	}
}

// step reads one item, or passes over one character.
func (x *lexer) step() {
	c := x.text[x.at]
	switch {
	case c == ' ' || c == '\t':
		x.at++
	case isDigit(c):
		x.fromDigit(x.at, x.at)
	case (c == '.' || c == ',') && isDigit(x.byteAt(x.at+1)) && !isDigit(x.byteAt(x.at-1)):
		if !x.fallenApart() {
			x.number(x.at)
		}
	case (c == '<' || c == '>') && x.bound():
		x.garbled(x.at, x.at+1)
	case c == '-' || c == '+' || strings.HasPrefix(x.text[x.at:x.end], "–"):
		x.fromSign(c)
	case c == '(':
		x.depth++
		x.at++
	case c == ')':
		x.depth = max(0, x.depth-1)
		x.at++
	case isLetter(c):
		x.fromLetter()
	default:
		x.symbol(c)
	}
}

// fromDigit reads what begins with a digit.
func (x *lexer) fromDigit(i, from int) {
	if d, next, ok := x.dateInDigits(i); ok {
		x.addDate(d, i, next)
		x.stamp()
		return
	}
	n, j := x.digits(i, 4)
	if n >= 0 {
		if t, ok := x.timeOfDay(n, i, j); ok {
			x.add(t)
			x.at = t.To
			return
		}
		if d, next, ok := x.dateFromYear(n, j); ok && j-i == 4 {
			x.addDate(d, i, next)
			return
		}
		if j-i <= 2 {
			if d, first, next, ok := x.dateFromDay(n, j); ok {
				x.addRange(first, d, i, next)
				return
			}
		}
		if c := x.byteAt(j); j-i <= 3 && (c == '.' || c == ')') && len(x.items) == x.start && x.numbersTheLine(j+1) {
			x.at = j + 1 // "1. 2024-01-01 …": the line's own number
			return
		}
	}
	x.number(from)
}

// numbersTheLine says whether a date follows a line's own number.
func (x *lexer) numbersTheLine(i int) bool {
	if x.byteAt(i) != ' ' {
		return false
	}
	i = x.over(i, " ")
	if _, _, ok := x.dateInDigits(i); ok {
		return true
	}
	word, _ := x.word(i)
	_, weekday := words.Weekday(word)
	return x.free && (words.Month(word) > 0 || weekday) && x.byteAt(i-2) == '.' && words.Month(word) == 0 || x.byteAt(i-2) == ')' && words.Month(word) > 0
}

// stamp reads the time that a T joins to a date.
func (x *lexer) stamp() {
	if c := x.byteAt(x.at) | 0x20; c != 't' && c != '_'|0x20 || !isDigit(x.byteAt(x.at+1)) {
		return
	}
	hour, j := x.digits(x.at+1, 2)
	if t, ok := x.timeOfDay(hour, x.at+1, j); ok {
		x.add(t)
		x.at = t.To
	}
}

// fromSign reads a signed number, or a dash that stands alone.
func (x *lexer) fromSign(c byte) {
	size := 1
	if c >= utf8.RuneSelf {
		size = len("–")
	}
	next := x.byteAt(x.at + size)
	before := x.byteAt(x.at - 1)
	alone := before == 0 || before == ' ' || before == '\t' || before == '(' || before == ':' || before == '=' || before == '|' || before == '"' || before == 0xa0
	switch {
	case alone && (isDigit(next) || next == '.' && isDigit(x.byteAt(x.at+size+1))):
		if len(x.items) > x.start || !x.free {
			x.number(x.at)
			return
		}
		x.at += size // a bullet before the date
	case alone:
		end := x.at
		for end < x.end && (x.text[end] == '-' || strings.HasPrefix(x.text[end:x.end], "–")) {
			end++
			if x.text[end-1] != '-' {
				end += len("–") - 1
			}
		}
		if end == x.at { // a plus
			x.at++
			return
		}
		kind := Missing
		if end-x.at == size {
			kind = Dash
		}
		x.add(Item{Kind: kind, From: x.at, To: end})
		x.at = end
	default:
		x.at += size
	}
}

// fromLetter reads a word, a date that begins with a month, or a unit.
func (x *lexer) fromLetter() {
	from := x.at
	if sign, size := currency(x.text[from:x.end]); size > 0 {
		x.symbolMoney(sign, size)
		return
	}
	if end := x.misread(from); end > from {
		x.garbled(from, end)
		return
	}
	word, end := x.word(from)
	if end == from {
		_, size := utf8.DecodeRuneInString(x.text[from:x.end])
		x.at += size
		return
	}
	if d, next, ok := x.weekNumber(word, end); ok {
		x.addDate(d, from, next)
		return
	}
	if next := x.wordBeforePoint(from, end); next > 0 {
		x.at = next
		return
	}
	letters := strings.TrimRight(word, "0123456789")
	if m := words.Month(letters); m > 0 {
		start := from + len(strings.TrimRight(x.text[from:end], "0123456789"))
		if d, first, next, ok := x.dateFromMonth(m, start, letters); ok {
			x.addRange(first, d, from, next)
			return
		}
	}
	x.fromWord(word, from, end)
}

// fromWord adds a word, or the mark for a missing figure that it is, perhaps
// with the next word.
func (x *lexer) fromWord(word string, from, end int) {
	it := Item{Kind: Word, Fold: word, From: from, To: end, Unit: words.UnitOf(word)}
	if it.Unit == words.Money {
		x.money = words.Money
	}
	if _, weekday := words.Weekday(word); !weekday && words.Month(word) == 0 && words.Missing(word) {
		it.Kind = Missing
	} else if len(word) <= 6 {
		if second, after := x.word(x.over(end, " ")); second != "" && words.Missing(word+" "+second) {
			it.Kind, it.To = Missing, after
		}
	}
	x.add(it)
	x.at = it.To
}

// symbol passes over punctuation and takes note of money.
func (x *lexer) symbol(c byte) {
	if sign, size := currency(x.text[x.at:x.end]); size > 0 {
		x.symbolMoney(sign, size)
		return
	}
	if (c == '?' || c == '#') && (x.at == 0 || x.text[x.at-1] == ' ' || x.text[x.at-1] == '\t') {
		end := x.at
		for end < x.end && x.text[end] != ' ' && x.text[end] != '\t' {
			end++
		}
		if words.Missing(x.text[x.at:end]) {
			x.add(Item{Kind: Missing, From: x.at, To: end})
			x.at = end
			return
		}
	}
	x.at++
}

// symbolMoney notes a sign before the number that it belongs to.
func (x *lexer) symbolMoney(sign words.Unit, size int) {
	if sign == words.Money {
		x.money = sign
	}
	x.at += size
}

// word reads the word at i, folded: letters, digits behind them, and the marks
// that hold a word together. The word is empty if no letter stands there.
func (x *lexer) word(i int) (folded string, next int) {
	next = i
	for next < x.end {
		c := x.text[next]
		switch {
		case c < utf8.RuneSelf:
			if !isLetter(c) && !(next > i && (isDigit(c) || c == '_' || joins(c) && isLetter(x.byteAt(next+1)))) {
				return words.Fold(x.text[i:next]), next
			}
			next++
		default:
			r, size := utf8.DecodeRuneInString(x.text[next:x.end])
			if !unicode.IsLetter(r) && (next == i || !unicode.IsMark(r)) && (r != '·' || next == i) && r != 'º' && r != 'ª' {
				return words.Fold(x.text[i:next]), next
			}
			next += size
		}
	}
	return words.Fold(x.text[i:next]), next
}

// joins says whether c holds the letters around it together: n/a, kW-h,
// aujourd'hui, n.d.
func joins(c byte) bool { return c == '/' || c == '-' || c == '\'' || c == '.' || c == '*' }

// over steps over any of the characters of set.
func (x *lexer) over(i int, set string) int {
	for i < x.end {
		r, size := utf8.DecodeRuneInString(x.text[i:x.end])
		if !strings.ContainsRune(set, r) {
			break
		}
		i += size
	}
	return i
}

func (x *lexer) add(it Item) {
	it.Cell, it.Bracket = x.cell, x.depth > 0
	x.items = append(x.items, it)
}

func (x *lexer) addDate(d Date, from, to int) {
	x.add(Item{Kind: DateOf, Date: d, From: from, To: to})
	x.at = to
}

// addRange adds one date, or the two ends of a range; first is empty for one.
func (x *lexer) addRange(first, d Date, from, to int) {
	if first.Month != 0 {
		x.addDate(first, from, to)
	}
	x.addDate(d, from, to)
}
