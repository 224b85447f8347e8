package tariff

import (
	"math/big"

	"splittally/calc/calendar"
	"splittally/calc/holiday"
)

// mostDays bounds the days of a period, so that a wrong span costs no time.
const mostDays = 100_000

// dayFact is what rows need to know of a day.
type dayFact struct {
	at    yearDay
	month int // days of its month
	kinds dayKinds
}

// factsOf gives the facts of each day of a span.
func (t Tariff) factsOf(span calendar.Span) []dayFact {
	if span.Days() == 0 || span.Days() > mostDays {
		return nil
	}
	off := t.holidays(span)
	facts := make([]dayFact, span.Days())
	yesterday := t.kind(span.First-1, off)
	weekday := int(span.First.Weekday())
	for i := range facts {
		d := span.First + calendar.Day(i)
		year, month, day := d.Date()
		f := &facts[i]
		f.at = yearDay(month*100 + day)
		f.month = daysOfMonth(year, month)
		f.kinds = dayKinds{kindOf(weekday, off[d] || t.isOwn(f.at)), yesterday}
		yesterday, weekday = f.kinds.today, (weekday+1)%7
	}
	return facts
}

func daysOfMonth(year, month int) int {
	switch month {
	case 4, 6, 9, 11:
		return 30
	case 2:
		if year%4 == 0 && (year%100 != 0 || year%400 == 0) {
			return 29
		}
		return 28
	}
	return 31
}

// holidays gives the holidays within a span and on the day before, but for
// those of every year.
func (t Tariff) holidays(span calendar.Span) map[calendar.Day]bool {
	off := map[calendar.Day]bool{}
	for _, d := range t.dates {
		off[d] = true
	}
	if t.region == "" {
		return off
	}
	first, _, _ := (span.First - 1).Date()
	last, _, _ := span.Last().Date()
	for year := first; year <= last; year++ {
		for _, h := range holiday.Of(t.region, year) {
			off[h.Day] = true
		}
	}
	return off
}

func (t Tariff) isOwn(at yearDay) bool {
	for _, own := range t.yearDays {
		if own == at {
			return true
		}
	}
	return false
}

func (t Tariff) kind(d calendar.Day, off map[calendar.Day]bool) dayKind {
	_, month, day := d.Date()
	return kindOf(int(d.Weekday()), off[d] || t.isOwn(yearDay(month*100+day)))
}

// held says on which days of the period a row holds.
type held struct {
	on     []bool
	days   int
	months [4]int64 // days in months of 28, 29, 30 and 31 days
}

func (p *pricing) heldBy(r *row) held {
	h := held{on: make([]bool, len(p.facts))}
	for i, f := range p.facts {
		if r.holds(p.u.Span.First+calendar.Day(i), f.at) {
			h.on[i] = true
			h.days++
			h.months[f.month-28]++
		}
	}
	return h
}

// portion is days held over days of the period; the period must have a day.
func (h held) portion() *big.Rat { return big.NewRat(int64(h.days), int64(len(h.on))) }

// count is how many periods, days or months a row holds for: of a month that it
// does not hold for wholly the portion of its days.
func (h held) count(per period) *big.Rat {
	switch per {
	case perDay:
		return new(big.Rat).SetInt64(int64(h.days))
	case perMonth:
		total := new(big.Rat)
		for i, n := range h.months {
			total.Add(total, big.NewRat(n, int64(28+i)))
		}
		return total
	}
	return h.portion()
}
