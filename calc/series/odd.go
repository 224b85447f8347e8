package series

import (
	"splittally/calc/calendar"
	"splittally/calc/record"
)

// Stray is the kind of a reading so far from all others, by years, that its
// stamp must be wrong, as of a clock that was not set; left out.
const Stray record.Kind = "stray"

// Odd counts an oddity. A reader calls it for what it alone can see; line is 0
// for a feed. wall is the time that is told of the first, or NoTime.
func (s *Series) Odd(kind record.Kind, line int, wall int64) {
	s.odd(kind, line, wall, 1)
}

// NoTime is the time of an oddity that has none.
const NoTime = -1 << 63

func (s *Series) odd(kind record.Kind, line int, wall int64, count int) {
	i := 0
	for i < len(s.odds) && s.odds[i].Kind != kind {
		i++
	}
	if i == len(s.odds) {
		s.odds = append(s.odds, record.Oddity{Kind: kind})
		if wall != NoTime {
			s.odds[i].Told = told(wall)
		}
	}
	o := &s.odds[i]
	o.Count += count
	n := len(o.Lines)
	if line > 0 && n < record.MaxLines && (n == 0 || o.Lines[n-1] != line) {
		o.Lines = append(o.Lines, line)
	}
}

// told gives a time in words, such as "03:00 on 12 Mar 2023".
func told(wall int64) string {
	d, rest := floor(wall, dayLength)
	m := int(rest / 60_000)
	clock := []byte{'0' + byte(m/600), '0' + byte(m/60%10), ':', '0' + byte(m%60/10), '0' + byte(m%10)}
	return string(clock) + " on " + calendar.Day(d).Long()
}

// floor divides, and gives the remainder from zero on.
func floor(n, by int64) (quotient, rest int64) {
	quotient, rest = n/by, n%by
	if rest < 0 {
		quotient, rest = quotient-1, rest+by
	}
	return quotient, rest
}
