package intake

import (
	"splittally/calc/calendar"
	"splittally/calc/intake/scan"
	"splittally/calc/intake/words"
)

// asMonths takes lines that each name the next month, or the one before, and a
// figure as totals of months: "Jan 310, Feb 280 …". A line with a year alone is
// the year of those below. It gives the lines of months, nil if there are none.
func (p *paper) asMonths(lines []int) []int {
	var months, at []int
	for _, line := range lines {
		if item, month := p.monthWord(line); month > 0 {
			if n := len(months); n > 0 && (month-p.monthOf(at[n-1])+12)%12 != 1 && (p.monthOf(at[n-1])-month+12)%12 != 1 {
				return nil
			}
			months, at = append(months, line), append(at, item)
		}
	}
	if len(months) < 2 || 2*len(months) < len(lines) {
		return nil
	}
	year, next := 0, 0
	for i := 0; i <= months[len(months)-1]; i++ {
		f := &p.facts[i]
		if i != months[next] {
			if n, ok := p.loneYear(i); ok {
				year = n
				p.lines[i].Use, p.lines[i].Why = Used, "names the year"
			}
			continue
		}
		it := &p.sheet.Items[at[next]]
		it.Date = scan.Date{Form: scan.Month, Year: year, Month: words.Month(it.Fold)}
		it.Kind = scan.DateOf
		*f = p.gather(i)
		next++
	}
	return months
}

// monthWord gives the name of a month that stands before the figures of a line
// and is followed by them.
func (p *paper) monthWord(line int) (item, month int) {
	l := p.sheet.Lines[line]
	for i := l.First; i < l.Past && p.sheet.Items[i].Kind == scan.Word; i++ {
		if m := p.monthOf(i); m > 0 {
			return i, m
		}
	}
	return -1, 0
}

// loneYear gives the year that a line holds and nothing else.
func (p *paper) loneYear(line int) (year int, ok bool) {
	l := p.sheet.Lines[line]
	if l.Past-l.First != 1 || p.facts[line].numbers != 1 {
		return 0, false
	}
	year, ok = p.smallNumber(l.First, calendar.LastYear)
	return year, ok && year >= calendar.FirstYear
}
