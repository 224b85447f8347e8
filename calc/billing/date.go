package billing

import (
	"strconv"
	"strings"
	"unicode"

	"splittally/calc/calendar"
	"splittally/calc/intake/words"
	"splittally/calc/number"
)

// date is the outcome of reading one date text.
type date struct {
	state dateState
	day   calendar.Day // if sure; of an eitherWay date, once the order is settled
	// Of a date that is numbers alone with the year last: the day if the first
	// number is the day, and if it is the month.
	dayFirst, monthFirst calendar.Day
	order                order // what a sure date of that form shows
}

type dateState uint8

const (
	dateAbsent     dateState = iota
	dateUnfinished           // what is there could go on to be a date
	dateWrong
	dateSure
	dateEitherWay // 03/04/2024
)

type order uint8

const (
	orderNone order = iota
	orderDayFirst
	orderMonthFirst
)

const dateWanted = "a date with day, month and year, such as 2023-10-03 or 3 Oct 2023"

// parseDate reads a date as from a date field, or as people write it: year
// first in numbers, or with the month's name in any place, or numbers
// with the year last.
//
// A weekday decides between day and month first; a date of another weekday than
// the one written is wrong.
func parseDate(text string) date {
	d := parseNumbers(text)
	weekday, ok := weekdayIn(text)
	if !ok {
		return d
	}
	fits := func(day calendar.Day) bool { return int(day.Weekday()) == weekday }
	switch {
	case d.state == dateSure && !fits(d.day), d.state == dateEitherWay && !fits(d.dayFirst) && !fits(d.monthFirst):
		return date{state: dateWrong}
	case d.state == dateEitherWay && !fits(d.monthFirst):
		return date{state: dateSure, day: d.dayFirst, order: orderDayFirst}
	case d.state == dateEitherWay && !fits(d.dayFirst):
		return date{state: dateSure, day: d.monthFirst, order: orderMonthFirst}
	}
	return d
}

// weekdayIn gives the weekday that a text names.
func weekdayIn(text string) (day int, ok bool) {
	for _, w := range dateParts(text) {
		if namedDay(w) {
			return words.Weekday(words.Fold(w))
		}
	}
	return 0, false
}

// parseNumbers reads a date and passes over its weekday.
func parseNumbers(text string) date {
	tokens, ok := dateTokens(text)
	switch {
	case !ok || len(tokens) > 3:
		return date{state: dateWrong}
	case len(tokens) == 0:
		return date{state: dateAbsent}
	}
	if d, ok := compactDate(tokens); ok {
		return d
	}
	if len(tokens) < 3 {
		return startedDate(tokens)
	}
	y, m, d := tokens[0], tokens[1], tokens[2]
	switch {
	case y.begun() || m.begun() || d.begun():
		return date{state: dateWrong}
	case m.month > 0: // 3 Oct 2023, 2023 Oct 3
		if len(y.text) != 4 {
			y, d = d, y
		}
	case y.month > 0: // Oct 3 2023
		y, m, d = d, y, m
	case d.month > 0:
		return date{state: dateWrong}
	case len(y.text) != 4: // 3/10/2023
		return numbersDate(y, m, d)
	}
	year, state := fullYear(y)
	if state != dateSure {
		return date{state: state}
	}
	return sure(year, m.monthNumber(), d.number())
}

// numbersDate reads three numbers of which the last is the year.
func numbersDate(first, second, last token) date {
	year, state := fullYear(last)
	if state != dateSure {
		return date{state: state}
	}
	df, okDay := calendar.Date(year, second.number(), first.number())
	mf, okMonth := calendar.Date(year, first.number(), second.number())
	switch {
	case okDay && okMonth && df == mf:
		return date{state: dateSure, day: df}
	case okDay && okMonth:
		return date{state: dateEitherWay, dayFirst: df, monthFirst: mf}
	case okDay:
		return date{state: dateSure, day: df, order: orderDayFirst}
	case okMonth:
		return date{state: dateSure, day: mf, order: orderMonthFirst}
	}
	return date{state: dateWrong}
}

func sure(year, month, day int) date {
	d, ok := calendar.Date(year, month, day)
	if !ok {
		return date{state: dateWrong}
	}
	return date{state: dateSure, day: d}
}

// compactDate reads 20231003.
func compactDate(tokens []token) (date, bool) {
	if len(tokens) != 1 || len(tokens[0].text) != 8 || tokens[0].month > 0 {
		return date{}, false
	}
	n := tokens[0].number()
	return sure(n/10000, n/100%100, n%100), true
}

// startedDate judges one or two tokens: could more typing make them a date?
func startedDate(tokens []token) date {
	for i, t := range tokens {
		if t.month == 0 && (len(t.text) > 4 && (len(tokens) > 1 || len(t.text) > 8) || i > 0 && len(tokens[0].text) > 2 && t.number() > 31) {
			return date{state: dateWrong}
		}
	}
	return date{state: dateUnfinished}
}

// fullYear reads a year of four digits, or of two: 70 to 99 are of the last
// century.
func fullYear(t token) (int, dateState) {
	n := t.number()
	switch {
	case t.month > 0 || len(t.text) > 4:
		return 0, dateWrong
	case len(t.text) == 2 && n >= 70:
		return 1900 + n, dateSure
	case len(t.text) == 2:
		return 2000 + n, dateSure
	case len(t.text) == 4 && t.text[0] != '0':
		return n, dateSure
	}
	return 0, dateUnfinished // a date field gives 0002, 0020, 0202 on the way to 2023
}

// token is a run of digits or a month's name.
type token struct {
	text  string
	month int // 1 to 12 of a name, else 0
}

func (t token) number() int {
	n, err := strconv.Atoi(t.text)
	if err != nil {
		return -1
	}
	return n
}

// begun says that a month's name has been begun and can't be told yet.
func (t token) begun() bool { return t.month > 0 && len(t.text) < 3 }

func (t token) monthNumber() int {
	if t.month > 0 {
		return t.month
	}
	return t.number()
}

// dateTokens splits a date text. Weekdays, ordinal endings and the time of day
// behind an ISO date say nothing about the day and are dropped.
func dateTokens(text string) (tokens []token, ok bool) {
	text = number.Trim(text)
	if len(text) > 60 {
		return nil, false
	}
	if len(text) > 10 && (text[10] == 'T' || text[10] == ' ' && strings.Contains(text, ":")) && strings.Count(text[:10], "-") == 2 {
		if _, iso := calendar.ParseISO(text[:10]); iso {
			text = text[:10]
		}
	}
	for _, w := range dateParts(text) {
		digits := strings.TrimRightFunc(w, unicode.IsLetter)
		switch rest := w[len(digits):]; {
		case digits != "" && strings.Trim(digits, "0123456789") != "":
			return nil, false
		case digits != "" && (rest == "" || strings.Contains("st nd rd th er", rest)):
			tokens = append(tokens, token{text: digits})
		case digits != "":
			return nil, false
		case namedDay(rest) || rest == "of" || rest == "de":
		default:
			m := namedMonth(rest)
			if m == 0 {
				return nil, false
			}
			tokens = append(tokens, token{text: rest, month: m})
		}
	}
	return tokens, true
}

// dateParts cuts a date text at blanks and marks.
func dateParts(text string) []string {
	return strings.FieldsFunc(strings.ToLower(text), func(r rune) bool {
		return number.Blank(r) || strings.ContainsRune("-/.,–‐−", r)
	})
}

const monthNames = "january february march april may june july august september october november december"

// namedMonth gives the month that a word names, in any of the languages of
// pasted texts; of an English name one or two letters are enough to know that
// it has been begun.
func namedMonth(word string) int {
	if m := words.Month(words.Fold(word)); m > 0 {
		return m
	}
	for i, name := range strings.Fields(monthNames) {
		if strings.HasPrefix(name, word) {
			return i + 1
		}
	}
	return 0
}

// namedDay says whether a word is a day of the week and nothing else.
func namedDay(word string) bool {
	_, ok := words.Weekday(words.Fold(word))
	return ok && words.Month(words.Fold(word)) == 0
}
