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
