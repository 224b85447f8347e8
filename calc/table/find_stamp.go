package table

import (
	"splittally/calc/calendar"
	"splittally/calc/intake/words"
)

// shape is how a stamp is written.
type shape uint8

// The shapes of stamps. Those up to clockOnly have a date.
const (
	noStamp   shape = iota
	yearFirst       // 2024-03-01, 20240301, 2024-Mar-01
	numbers         // 1/3/2024: day or month first is open
	dayName         // 1 Mar 2024
	nameDay         // Mar 1 2024
	clockOnly       // 00:15
)

// stamp is a time as written, before the order of its date is known.
type stamp struct {
	shape  shape
	date   [3]int // its numbers in the order written; that of a name is its month
	clock  int64  // milliseconds since midnight; −1 without a clock
	mark   byte   // between the numbers of the date; 0 if there is none
	half   bool   // AM or PM
	full   bool   // 24:00
	zoned  bool   // has an offset
	offset int    // in seconds east of UTC
	ranged bool   // another time follows, the end: 00:00 - 00:15
}

// dayLength is a day of 24 hours in milliseconds.
const dayLength = 24 * hourLength

const (
	minuteLength = 60_000
	hourLength   = 60 * minuteLength
)

// readStamp reads a date, a clock time or both. The cell must hold nothing else.
func readStamp(b []byte) (s stamp, ok bool) {
	r := stampReader{b: b, stamp: stamp{clock: -1}}
	if len(b) < 3 || len(b) > 48 || !r.begins() {
		return s, false
	}
	if r.date() {
		if r.done() {
			return r.stamp, true
		}
		r.parting()
	} else {
		r.at, r.stamp = 0, stamp{clock: -1, shape: clockOnly}
	}
	if !r.time() {
		return s, false
	}
	if r.shape == clockOnly && r.ranges() {
		return r.stamp, true
	}
	r.zone()
	return r.stamp, r.done() || r.ranges()
}

// ranges says whether the rest is a dash and another time. Behind a date an
// offset has been looked for before.
func (r *stampReader) ranges() bool {
	at := r.at
	r.skip(" ")
	rest := r.b[r.at:]
	switch {
	case len(rest) > 1 && rest[0] == '-':
		rest = rest[1:]
	case len(rest) > 3 && (string(rest[:3]) == "–" || string(rest[:3]) == "to "):
		rest = rest[3:]
	default:
		r.at = at
		return false
	}
	for len(rest) > 0 && rest[0] == ' ' {
		rest = rest[1:]
	}
	end, ok := readStamp(rest)
	if r.ranged = ok && end.clock >= 0; !r.ranged {
		r.at = at
	}
	return r.ranged
}

// stampReader reads a stamp byte by byte.
type stampReader struct {
	b  []byte
	at int
	stamp
}

// begins says whether the first bytes can be a stamp's, so that most other
// cells cost next to nothing.
func (r *stampReader) begins() bool {
	c := r.b[0]
	return c >= '0' && c <= '9' || c >= 'A' && c <= 'Z' || c >= 'a' && c <= 'z' || c >= 0x80
}

func (r *stampReader) peek() byte {
	if r.at < len(r.b) {
		return r.b[r.at]
	}
	return 0
}

func (r *stampReader) done() bool {
	for r.at < len(r.b) && (r.b[r.at] == ' ' || r.b[r.at] == '.') {
		r.at++
	}
	return r.at == len(r.b)
}

// number reads up to most digits and gives how many there were.
func (r *stampReader) number(most int) (n, digits int) {
	for r.at < len(r.b) && digits < most && r.b[r.at] >= '0' && r.b[r.at] <= '9' {
		n = n*10 + int(r.b[r.at]-'0')
		r.at++
		digits++
	}
	return n, digits
}

// word reads a run of letters, folded.
func (r *stampReader) word() string {
	from := r.at
	for r.at < len(r.b) {
		c := r.b[r.at]
		if c < 0x80 && (c < 'A' || c > 'Z') && (c < 'a' || c > 'z') {
			break
		}
		r.at++
	}
	return words.Fold(string(r.b[from:r.at]))
}

// skip passes over any of the given bytes.
func (r *stampReader) skip(these string) {
	for r.at < len(r.b) {
		i := 0
		for i < len(these) && these[i] != r.b[r.at] {
			i++
		}
		if i == len(these) {
			return
		}
		r.at++
	}
}

// date reads a date.
func (r *stampReader) date() bool {
	if c := r.peek(); c < '0' || c > '9' {
		word := r.word()
		if _, day := words.Weekday(word); day && (words.Month(word) == 0 || !r.dayFollows()) {
			r.skip(" ,.")
			if c := r.peek(); c >= '0' && c <= '9' {
				return r.numbered()
			}
			word = r.word()
		}
		return r.named(words.Month(word))
	}
	return r.numbered()
}

// dayFollows says whether a number of one or two digits comes next, as behind
// the name of a month.
func (r *stampReader) dayFollows() bool {
	at := r.at
	defer func() { r.at = at }()
	r.skip(" .")
	_, digits := r.number(4)
	return digits == 1 || digits == 2
}

// named reads the rest of Mar 1, 2024.
func (r *stampReader) named(month int) bool {
	if month == 0 {
		return false
	}
	r.skip(" .-/")
	day, digits := r.number(3)
	if digits == 0 || digits > 2 {
		return false
	}
	r.skip(" ,.-/")
	year, digits := r.number(5)
	r.shape, r.stamp.date = nameDay, [3]int{month, day, fullYear(year, digits)}
	return digits == 4 || digits == 2 && r.peek() != ':'
}

// numbered reads a date that begins with a number.
func (r *stampReader) numbered() bool {
	first, digits := r.number(15)
	switch digits {
	case 8, 12, 14:
		return r.compact(digits)
	case 1, 2, 4:
	default:
		return false
	}
	r.mark = r.peek()
	if r.mark != '-' && r.mark != '/' && r.mark != '.' && r.mark != ' ' {
		return false
	}
	r.skip(" -/.")
	second, shape := 0, numbers
	if c := r.peek(); c >= '0' && c <= '9' {
		var n int
		if second, n = r.number(3); n > 2 || r.peek() != r.mark {
			return false
		}
	} else {
		if second = words.Month(r.word()); second == 0 {
			return false
		}
		shape = dayName
	}
	r.skip(" -/.,")
	third, n := r.number(5)
	if digits == 4 {
		r.shape, r.stamp.date = yearFirst, [3]int{first, second, third}
		return n == 1 || n == 2
	}
	r.shape, r.stamp.date = shape, [3]int{first, second, fullYear(third, n)}
	return n == 4 || n == 2 && r.mark != ' '
}

// compact reads 20240301, with 0015 or 001500 right behind it or without.
func (r *stampReader) compact(digits int) bool {
	end := r.at
	r.at -= digits
	year, _ := r.number(4)
	month, _ := r.number(2)
	day, _ := r.number(2)
	r.shape, r.stamp.date, r.mark = yearFirst, [3]int{year, month, day}, 0
	if digits > 8 {
		hour, _ := r.number(2)
		minute, _ := r.number(2)
		second, _ := r.number(2)
		r.at = end
		return r.set(hour, minute, second, 0) && year > 1950 && year < 2200
	}
	return year > 1950 && year < 2200 && month >= 1 && month <= 12 && day >= 1 && day <= 31
}

// fullYear completes a year of two digits.
func fullYear(year, digits int) int {
	switch {
	case digits != 2:
		return year
	case year < 70:
		return 2000 + year
	}
	return 1900 + year
}

// parting passes over what stands between a date and a clock.
func (r *stampReader) parting() {
	if c := r.peek(); c == 'T' || c == 't' || c == '_' {
		r.at++
		return
	}
	r.skip(" ,-")
	if at := r.at; r.word() != "at" {
		r.at = at
	}
	r.skip(" ")
}

// set takes a clock time over if there is such a one.
func (r *stampReader) set(hour, minute, second int, fraction int64) bool {
	r.full = hour == 24 && minute == 0 && second == 0 && fraction == 0
	r.clock = int64(hour)*hourLength + int64(minute)*minuteLength + int64(second)*1000 + fraction
	return minute < 60 && second < 61 && (hour < 24 || r.full)
}

// day gives the day that the stamp's date is in a form, YearFirst, DayFirst or
// MonthFirst. Names and years that come first decide by themselves.
func (s *stamp) day(f Form) (calendar.Day, bool) {
	switch d := s.date; {
	case s.shape == yearFirst:
		return calendar.Date(d[0], d[1], d[2])
	case s.shape == nameDay || s.shape == numbers && f == MonthFirst:
		return calendar.Date(d[2], d[0], d[1])
	case s.shape == dayName || s.shape == numbers:
		return calendar.Date(d[2], d[1], d[0])
	}
	return 0, false
}
