package calc

import (
	"strconv"
	"strings"

	"splittally/calc/calendar"
)

// mostParts is how many numbers, words and signs a date may have that is
// imitated: a weekday, three more and what stands between.
const mostParts = 8

// likewise writes a day into a date's text, with its numbers and names at all
// places that could be those of the day, the month and the year. Another date
// helps to tell whether numbers have a zero before them.
func likewise(text, other string, day calendar.Day) []string {
	l := imitation{parts: partsOf(text)}
	l.year, l.month, l.date = day.Date()
	if len(l.parts) == 0 || len(l.parts) > mostParts {
		return nil
	}
	l.isWide = len(l.parts[0]) == 4 && kindOf(l.parts[0]) == digits
	for _, part := range append(partsOf(other), l.parts...) {
		l.isWide = l.isWide || len(part) == 2 && part[0] == '0'
	}
	l.fill(nil, false, false, false)
	return l.ways
}

// imitation is a date's text that others are made of.
type imitation struct {
	parts             []string // runs of digits, of letters, and of what is between
	year, month, date int
	isWide            bool // days and months below ten have a zero before them
	ways              []string
}

// fill writes the next part in all ways, behind those that are done.
func (l *imitation) fill(done []string, hasYear, hasMonth, hasDate bool) {
	if len(done) == len(l.parts) {
		if hasYear && hasMonth && hasDate {
			l.ways = append(l.ways, strings.Join(done, ""))
		}
		return
	}
	part := l.parts[len(done)]
	with := func(text string) []string { return append(done[:len(done):len(done)], text) }
	switch kindOf(part) {
	case digits:
		if len(part) <= 2 && !hasDate {
			l.fill(with(l.number(l.date)), hasYear, hasMonth, true)
		}
		if len(part) <= 2 && !hasMonth {
			l.fill(with(l.number(l.month)), hasYear, true, hasDate)
		}
		if year := strconv.Itoa(l.year); !hasYear && (len(part) == 2 || len(part) == 4) {
			l.fill(with(year[4-len(part):]), true, hasMonth, hasDate)
		}
		return
	case letters:
		if name, ok := monthLike(part, l.month); ok && !hasMonth {
			l.fill(with(name), hasYear, true, hasDate)
			return
		}
	}
	l.fill(with(part), hasYear, hasMonth, hasDate)
}

func (l *imitation) number(n int) string {
	if l.isWide && n < 10 {
		return "0" + strconv.Itoa(n)
	}
	return strconv.Itoa(n)
}

// kind is that of a letter or sign.
type kind uint8

const (
	signs kind = iota
	digits
	letters
)

func kindOf(text string) kind {
	switch c := text[0]; {
	case c >= '0' && c <= '9':
		return digits
	case c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c > 0x7f:
		return letters
	}
	return signs
}

func partsOf(text string) (parts []string) {
	for from, i := 0, 1; i <= len(text); i++ {
		if i == len(text) || kindOf(text[i:]) != kindOf(text[from:]) {
			parts = append(parts, text[from:i])
			from = i
		}
	}
	return parts
}

// monthLike names a month in English as another is written, if that is one.
func monthLike(part string, month int) (name string, ok bool) {
	names := [...]string{"January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"}
	for _, other := range names {
		ok = ok || strings.EqualFold(part, other) || strings.EqualFold(part, other[:3])
	}
	name = names[month-1]
	if len(part) == 3 {
		name = name[:3]
	}
	switch part {
	case strings.ToUpper(part):
		name = strings.ToUpper(name)
	case strings.ToLower(part):
		name = strings.ToLower(name)
	}
	return name, ok
}
