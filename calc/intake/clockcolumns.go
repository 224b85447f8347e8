package intake

import (
	"splittally/calc/intake/scan"
	"splittally/calc/remark"
)

// carryDates gives lines that have a time and a figure, but a blank cell for the
// day, the day of the row above: spreadsheets write it once.
func (p *paper) carryDates() {
	if p.sheet.Delimiter == 0 {
		return
	}
	date := 0 // item 0 is never below another
	for i := range p.facts {
		f := &p.facts[i]
		switch {
		case f.dates > 0 && f.times > 0 && f.numbers+f.missing > 0:
			date = f.firstDate
		case f.dates == 0 && f.times > 0 && f.numbers+f.missing > 0 && !aggregate(f.label) && p.sheet.Items[p.sheet.Lines[i].First].Cell > p.sheet.Items[date].Cell:
			f.carried = date
		case !f.blank:
			date = 0
		}
	}
}

// oneClock settles a row that gives its time twice, in UTC and in local time:
// the local one counts, since the days of bills are local.
func (p *paper) oneClock(r *row) {
	if r.dates != 2 || r.from < 0 || r.till < 0 {
		return
	}
	var dates, times []int
	l := p.sheet.Lines[r.line]
	for i := l.First; i < l.Past; i++ {
		switch p.sheet.Items[i].Kind {
		case scan.DateOf:
			dates = append(dates, i)
		case scan.TimeOf:
			times = append(times, i)
		}
	}
	a, b := &p.sheet.Items[times[0]], &p.sheet.Items[times[1]]
	utc := func(it *scan.Item) bool { return it.Zoned && it.Offset == 0 }
	if len(dates) != 2 || len(times) != 2 || utc(a) == utc(b) {
		return
	}
	r.dates, r.last, r.till = 1, scan.Date{}, -1
	if utc(a) {
		r.first, r.dateAt = p.sheet.Items[dates[1]].Date, dates[1]
		r.from, r.zone, r.zoned = b.Minute, b.Offset, b.Zoned
	}
}

// settleEvenings asks about rows of one a day that all have a time between 21:00
// and 23:00 in UTC: where clocks are ahead of it that is the midnight at which
// the next day begins.
func (a *attempt) settleEvenings() {
	if len(a.placed) < 2 || a.severalADay() {
		return
	}
	for i := range a.placed {
		r := &a.p.rows[a.placed[i].row]
		if !r.zoned || r.zone != 0 || r.from < 21*60 || r.from > 23*60 || r.from%60 != 0 || r.till >= 0 {
			return
		}
	}
	first := a.placed[0].span.First
	if a.ask("utc-evenings", "Of which day is the first line, "+first.Long()+" or "+(first+1).Long()+"?",
		"Its time is late in the evening by UTC, which is midnight where clocks are an hour or more ahead.", "next",
		remark.Choice{ID: "next", Label: "The day that begins then: " + (first + 1).Long()},
		remark.Choice{ID: "written", Label: "The day as written: " + first.Long()}) != "next" {
		return
	}
	for i := range a.placed {
		a.placed[i].span.First++
		a.placed[i].span.End++
	}
}
