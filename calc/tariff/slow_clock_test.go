package tariff_test

import (
	"splittally/calc/calendar"
	"splittally/calc/tariff"
)

// clock finds the band of each minute of a row.
type clock struct {
	row   tariff.Row
	span  calendar.Span
	dates string
	spans [][]hours // by band
	days  map[calendar.Day][]bool
}

func newClock(span calendar.Span, dates string, r tariff.Row) clock {
	c := clock{row: r, span: span, dates: dates, days: map[calendar.Day][]bool{}}
	for _, b := range r.Bands {
		c.spans = append(c.spans, spans(b.Hours))
	}
	return c
}

// minutes counts the minutes of a slot by band, on the days of the row.
func (c clock) minutes(s tariff.Slot) []int {
	counts := make([]int, len(c.row.Bands))
	for d := s.First; d <= s.Last; d++ {
		if !c.span.Has(d) || !holds(c.row, d) {
			continue
		}
		from, to := within(s, d)
		today, yesterday := c.on(d), c.on(d-1)
		for m := from; m < to; m++ {
			counts[c.band(m, today, yesterday)]++
		}
	}
	return counts
}

// on says which bands' days take in a day.
func (c clock) on(d calendar.Day) []bool {
	if on, known := c.days[d]; known {
		return on
	}
	on := make([]bool, len(c.row.Bands))
	c.days[d] = on
	for b, band := range c.row.Bands {
		on[b] = onDay(band.Days, d, holiday(c.dates, d))
	}
	return on
}

func (c clock) band(m int, today, yesterday []bool) int {
	for b, spans := range c.spans {
		for _, h := range spans {
			over := h.to <= h.from
			if today[b] && m >= h.from && (m < h.to || over) || yesterday[b] && over && m < h.to {
				return b
			}
		}
	}
	panic("a minute without a band")
}
