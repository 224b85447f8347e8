package scan

import (
	"strings"

	"splittally/calc/intake/words"
	"splittally/calc/number"
)

// A number that is mistyped, misread or run together with what follows it is an
// item of its own without any reading: its line is wrong, and the text as it
// stands is what is shown. To take a part of it for the number would be a guess.

// confusable are the characters that readers of print take digits for, or the
// other way round.
const confusable = "0123456789.,lIOoSBZ"

// garbled adds a malformed number. Where a date or a month is run into it, the
// end of a line was lost, and the rest of the line belongs to it.
func (x *lexer) garbled(from, end int) {
	to := x.runEnd(end)
	lost := lostLineEnd(x.text[from:to]) || x.unitRunOn(end)
	if lost {
		to = x.end
	}
	x.add(Item{Kind: Number, From: from, To: to, Unit: x.money, Lost: lost})
	x.at, x.money = to, 0
}

// runEnd gives the end of what is written without a blank from i on.
func (x *lexer) runEnd(i int) int {
	for i < x.end && !strings.ContainsRune(" \t;|()<\"", rune(x.text[i])) && (x.text[i] != ',' || isDigit(x.byteAt(i+1)) || x.byteAt(i+1) == ',') {
		i++
	}
	return i
}

// lostLineEnd says whether a run such as 12.42023-10-04, 12,404.10.2023 or
// 12.4Oct holds a number and the beginning of another line.
func lostLineEnd(run string) bool {
	before := run[:max(0, strings.IndexAny(run, "-/"))]
	if strings.Count(run, "-") > 1 || strings.Count(run, "/") > 1 {
		return strings.ContainsAny(before, ".,") || len(before) > 4
	}
	if strings.Count(run, ".")+strings.Count(run, ",") > 2 {
		return true
	}
	return begins(words.Fold(strings.TrimLeft(run, "0123456789.,")))
}

// begins says whether a word is what a line can begin with: the name of a month
// or weekday.
func begins(word string) bool {
	_, weekday := words.Weekday(word)
	return weekday || words.Month(word) > 0
}

// unitRunOn says whether a unit at i is run together with the line after:
// "kWhOct 4", "kWh2023-10-04".
func (x *lexer) unitRunOn(i int) bool {
	word, _ := x.word(x.over(i, " \u00a0"))
	at := strings.Index(word, "wh")
	if at < 0 || at > 1 || len(word) < at+5 {
		return false
	}
	rest := word[at+2:]
	return isDigit(rest[0]) || begins(rest)
}

// goesOn says whether a number read from i to end is only a part of what
// stands there: 15..2, 12-13, 9.B, 12_400, 12.42023-10-04, 12,404.10.2023.
func (x *lexer) goesOn(i, end int) bool {
	c, next := x.byteAt(end), x.byteAt(end+1)
	switch {
	case c == '.' || c == ',':
		k := end
		for x.byteAt(k) == '.' || x.byteAt(k) == ',' {
			k++
		}
		return k > end+1 && isDigit(x.byteAt(k)) || k == end+1 && x.misreadDigits(k)
	case c == '-':
		return isDigit(next) || !x.free && end+1 == x.end // 12,4- is the minus of some programs
	case c == '_':
		return isDigit(next)
	case c == '/':
		return isDigit(next) && datesTail(x.text[end:x.runEnd(end)])
	case isLetter(c):
		return x.misreadDigits(end)
	}
	text := x.text[i:end]
	return strings.Count(text, ".")+strings.Count(text, ",") > 2 && strings.Contains(text, ".20") && number.Readings(text) == nil
}

// datesTail says whether a run such as /10/023 could be the rest of a date. What
// is a date was read as one before, so it is a mistyped one.
func datesTail(run string) bool {
	parts := strings.Split(run[1:], "/")
	return len(parts) == 2 && len(parts[0]) <= 2 && strings.Trim(parts[0]+parts[1], "0123456789") == ""
}

// misreadDigits says whether what stands at i up to a blank is digits, marks
// and letters that look like digits, with at least one of these letters and
// with a digit behind one, or as the only character.
func (x *lexer) misreadDigits(i int) bool {
	run := x.text[i:x.runEnd(i)]
	if run == "" || strings.Trim(run, confusable) != "" {
		return false
	}
	letters := strings.Trim(run, "0123456789.,")
	if letters == "" {
		return false
	}
	return len(run) == 1 && x.byteAt(i-1) == '.' || strings.ContainsAny(run[strings.IndexAny(run, "lIOoSBZ"):], "0123456789")
}

// misread says whether the word at i is a number whose first digit was misread,
// such as l2.4 or O.9, and gives its end.
func (x *lexer) misread(i int) int {
	if c := x.text[i]; c != 'l' && c != 'I' && c != 'O' && c != 'o' {
		return i
	}
	end := x.runEnd(i)
	run := x.text[i:end]
	if strings.Trim(run, confusable) != "" || !strings.ContainsAny(run, ".,") || !strings.ContainsAny(run, "0123456789") {
		return i
	}
	return end
}

// bound says whether < or > makes the number behind it a bound, which is no
// figure. A sign at the beginning of a line is that of a quotation, one behind
// a dash part of an arrow.
func (x *lexer) bound() bool {
	before := x.byteAt(x.at - 1)
	return isDigit(x.byteAt(x.at+1)) && before != '-' && before != '=' && (len(x.items) > 0 || x.text[x.at] == '<')
}

// fallenApart joins a number and the decimals that one blank parts from it,
// "12 .4", to a malformed one.
func (x *lexer) fallenApart() bool {
	n := len(x.items) - 1
	if n < x.start || x.items[n].Kind != Number || x.items[n].Unit != 0 || x.items[n].To+1 != x.at || x.text[x.at-1] != ' ' {
		return false
	}
	it := &x.items[n]
	if strings.ContainsAny(x.text[it.From:it.To], ".,") {
		return false
	}
	x.at = x.endOfNumber(x.at)
	it.To, it.Readings = x.at, nil
	return true
}

// wordBeforePoint reads a word that ends in digits with decimals behind, which
// are no number of their own. A unit or a currency before the digits is one,
// "kWh12.4", and the number follows; anything else, "v2.4", is a word to the end.
// It gives where to go on, 0 if it is no such word.
func (x *lexer) wordBeforePoint(from, end int) int {
	letters := strings.TrimRight(x.text[from:end], "0123456789")
	if c := x.byteAt(end); from+len(letters) == end || c != '.' && c != ',' || !isDigit(x.byteAt(end+1)) {
		return 0
	}
	fold := words.Fold(letters)
	if u := words.UnitOf(fold); u.IsEnergy() || u.IsPower() || u == words.Money {
		x.fromWord(fold, from, from+len(letters))
		return x.at
	}
	if words.Month(fold) > 0 || x.byteAt(end) == ',' && !x.free {
		return 0
	}
	to := x.endOfNumber(end)
	x.add(Item{Kind: Word, Fold: words.Fold(x.text[from:to]), From: from, To: to})
	return to
}
