package tariff

import (
	"strconv"
	"strings"
	"unicode"

	"splittally/calc/calendar"
	"splittally/calc/intake/words"
	"splittally/calc/number"
)

// state is how far a text could be read.
type state uint8

const (
	wrong  state = iota
	absent       // nothing is typed
	begun        // more typing could make it right
	good
)

// yearDay is a day of every year, month·100 + day: 501 is 1 May.
type yearDay int

const (
	yearDayWanted = "a day of the year, such as 1 May or 05-01 (month, then day)"
	dateWanted    = "a date with its year, such as 2024-05-01 or 1 May 2024"
)

// datePart is a number or a month's name.
type datePart struct {
	text  string
	month int // of a name; 0 of a number
}

func (p datePart) number() int {
	n, err := strconv.Atoi(p.text)
	if err != nil {
		return -1
	}
	return n
}

// begun says that a month's name can't be told yet: "m", "ju".
func (p datePart) begun() bool { return p.month > 0 && len(p.text) < 3 }

// dateParts cuts a date at blanks and marks; ok is false if something in it is
// neither a number nor a month. Endings as in "1st" are left out.
func dateParts(text string) (parts []datePart, ok bool) {
	for _, w := range strings.FieldsFunc(strings.ToLower(text), func(r rune) bool {
		return number.Blank(r) || strings.ContainsRune("-/.,–‐−", r)
	}) {
		digits := strings.TrimRightFunc(w, unicode.IsLetter)
		ending := w[len(digits):]
		switch {
		case digits == "" && (ending == "of" || ending == "de"):
		case digits == "":
			m := monthOf(ending)
			if m == 0 {
				return nil, false
			}
			parts = append(parts, datePart{ending, m})
		case strings.Trim(digits, "0123456789") == "" && (ending == "" || strings.Contains("st nd rd th er", ending)):
			parts = append(parts, datePart{text: digits})
		default:
			return nil, false
		}
	}
	return parts, len(parts) <= 3
}

const monthNames = "january february march april may june july august september october november december"

// monthOf gives the month that a word names in any of the languages of pasted
// texts, or has begun to name in English.
func monthOf(word string) int {
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

// readYearDay reads "1 May", "May 1" or "05-01". Numbers alone are month and
// day only in that very form, which is ISO's; else they must leave no doubt.
func readYearDay(text string) (yearDay, state) {
	text = number.Trim(text)
	if text == "" {
		return 0, absent
	}
	parts, ok := dateParts(text)
	switch {
	case !ok || len(parts) > 2:
		return 0, wrong
	case len(parts) < 2:
		return 0, begunIf(len(parts) == 0 || len(parts[0].text) <= 2 || parts[0].month > 0)
	}
	month, day := parts[0], parts[1]
	iso := len(text) == 5 && text[2] == '-'
	switch {
	case day.month > 0 && month.month > 0:
		return 0, wrong
	case month.begun() || day.begun():
		return 0, begun
	case day.month > 0 || month.month == 0 && month.number() > 12:
		month, day = day, month
	case month.month == 0 && !iso && day.number() <= 12 && month.number() != day.number():
		return 0, begunIf(text[2:3] == "-" && len(day.text) == 1) // 05-0 goes on to 05-01
	}
	m := max(month.month, month.number())
	if _, ok := calendar.Date(2000, m, day.number()); !ok {
		return 0, begunIf(day.number() == 0 && len(day.text) == 1)
	}
	return yearDay(m*100 + day.number()), good
}

func begunIf(is bool) state {
	if is {
		return begun
	}
	return wrong
}

// readDate reads a date with its year: year first in numbers, or the month by
// its name, or numbers that leave no doubt with the year last.
func readDate(text string) (calendar.Day, state) {
	text = number.Trim(text)
	if text == "" {
		return 0, absent
	}
	if d, ok := calendar.ParseISO(text); ok {
		return d, good
	}
	parts, ok := dateParts(text)
	switch {
	case !ok:
		return 0, wrong
	case len(parts) < 3:
		return 0, begun
	}
	year, month, day := parts[0], parts[1], parts[2]
	if len(year.text) != 4 || year.month > 0 {
		year, month, day = parts[2], parts[0], parts[1]
	}
	switch {
	case year.month > 0 || month.month > 0 && day.month > 0:
		return 0, wrong
	case len(year.text) < 4 || month.begun() || day.begun():
		return 0, begun
	case day.month > 0:
		month, day = day, month
	case month.month == 0 && year == parts[2]:
		if month.number() > 12 {
			month, day = day, month
		} else if day.number() <= 12 && month.number() != day.number() {
			return 0, wrong // 03/04/2024: nothing tells the month from the day
		}
	}
	d, ok := calendar.Date(year.number(), max(month.month, month.number()), day.number())
	if !ok {
		return 0, begunIf(day.number() == 0 || year == parts[0] && len(day.text) == 1)
	}
	return d, good
}

// season is the part of each year in which a row holds. The zero value is the
// whole year.
type season struct{ from, to yearDay }

// has says whether a day of the year belongs to the season, which may run over
// the end of the year.
func (s season) has(d yearDay) bool {
	switch {
	case s.from == 0:
		return true
	case s.from <= s.to:
		return s.from <= d && d <= s.to
	}
	return d >= s.from || d <= s.to
}
