package intake

import (
	"slices"
	"strconv"

	"splittally/calc/calendar"
	"splittally/calc/intake/scan"
	"splittally/calc/intake/words"
)

// tellDates tells of numbers that were taken as dates.
func (a *attempt) tellDates() {
	switch {
	case a.p.monthYears:
		a.notice("months-with-years", "Dates such as Oct-23 were taken as months of a year, since each line names the next month.")
	case a.p.epoch:
		a.notice("epoch-dates", "The first column was taken as time since 1970 and cut into days at midnight UTC.")
	}
}

// settleSerial moves serial dates to the system that counts from 1904 if only
// then they fall on the days of the bills.
func (a *attempt) settleSerial() {
	const later = 1462 // days from the one beginning to the other
	if !a.p.serial {
		return
	}
	from1900, from1904 := 0, 0
	for pi := range a.placed {
		pl := &a.placed[pi]
		if a.o.Near.Has(pl.span.First) {
			from1900++
		}
		if a.o.Near.Has(pl.span.First + later) {
			from1904++
		}
	}
	if from1900 > 0 || from1904 == 0 {
		a.notice("serial-dates", "The first column was taken as the serial dates of a spreadsheet that counts from 1900.")
		return
	}
	for i := range a.placed {
		a.placed[i].span.First += later
		a.placed[i].span.End += later
	}
	a.notice("serial-dates", "The first column was taken as the serial dates of a spreadsheet that counts from 1904, since only then they fall on the days of the bills.")
}

// settleDays gives each row its day or days. Rows whose date is no day are
// wrong.
func (a *attempt) settleDays() {
	if !a.p.dated {
		a.countFromFirstDay()
		return
	}
	order := a.settleOrder()
	years := a.settleYears(order)
	for i := range a.p.rows {
		r := &a.p.rows[i]
		if r.dates == 0 {
			a.placed = append(a.placed, placed{row: i})
			continue
		}
		span, ok := spanOf(r, order, years[i])
		if !ok {
			a.wrong(r.line, r.dateAt, wantedDay(r, order))
			continue
		}
		if r.onWeekday > 0 {
			day := r.inWeek(span.First, a.p.ending)
			span = calendar.Span{First: day, End: day + 1}
		}
		a.placed = append(a.placed, placed{row: i, span: span})
	}
	a.settleSerial()
	a.settleEvenings()
	a.placeRelative()
	a.dropFarDays()
	a.endsOfRanges()
	a.checkYears()
	a.checkWeekdays()
}

// wantedDay says what was expected of a date that is none.
func wantedDay(r *row, order scan.Order) string {
	other, first := scan.MonthFirst, "day"
	if order == scan.MonthFirst {
		other, first = scan.DayFirst, "month"
	}
	if _, ok := r.first.On(other, 2024); ok && r.first.Form != scan.Known && order != scan.YearFirst {
		return "a date with the " + first + " first, as on the other lines"
	}
	return "a day that exists, such as 2023-10-03"
}

// spanOf gives the days of a row's date or range. The last day of a range
// belongs to it.
func spanOf(r *row, order scan.Order, year int) (calendar.Span, bool) {
	first, last := r.first, r.last
	if r.lent {
		if a, ok := first.On(order, 0); ok {
			if b, ok := last.On(order, 0); ok && a > b {
				first.Year--
			}
		}
	}
	span, ok := wholeOf(first, order, year)
	if !ok || r.dates == 1 {
		return span, ok
	}
	end, ok := wholeOf(last, order, year)
	if ok && end.First < span.First && last.Yearless() {
		end, ok = wholeOf(last, order, year+1)
	}
	span.End = end.End
	if r.from >= 0 && (r.till == 0 || r.till == r.from) && span.Days() > 1 {
		span.End-- // up to midnight, or to the hour at which it began
	}
	return span, ok && span.Days() > 0 && span.Days() < 800
}

// wholeOf gives the day, week or month that a date is.
func wholeOf(d scan.Date, order scan.Order, year int) (calendar.Span, bool) {
	first, ok := d.On(order, year)
	if !ok {
		return calendar.Span{}, false
	}
	switch d.Form {
	case scan.Month:
		next := first + 31
		y, m, _ := next.Date()
		end, ok := calendar.Date(y, m, 1)
		return calendar.Span{First: first, End: end}, ok
	case scan.Week:
		return calendar.Span{First: first, End: first + 7}, true
	}
	return calendar.Span{First: first, End: first + 1}, true
}

// placeRelative turns “today” and “yesterday” into days by the rows next to
// them, or by the day of the last edit. Today is not over and is left out.
func (a *attempt) placeRelative() {
	kept := a.placed[:0]
	for i := range a.placed {
		pl := &a.placed[i]
		r := &a.p.rows[pl.row]
		if r.dates > 0 {
			kept = append(kept, *pl)
			continue
		}
		if r.relative == words.Today {
			a.ignore(r.line, "today is not over")
			continue
		}
		day := calendar.Day(0)
		for _, k := range [2]int{i + 1, i - 1} {
			if k >= 0 && k < len(a.placed) && a.p.rows[a.placed[k].row].dates > 0 {
				day = a.placed[k].span.First + 1
				break
			}
		}
		if day == 0 && a.o.Today > 0 {
			day = a.o.Today - 1
		}
		if day == 0 {
			a.wrong(r.line, -1, wrongDay)
			continue
		}
		a.notice("relative-day", "Line "+strconv.Itoa(r.line+1)+" names no date; it was taken as "+day.Long()+".")
		pl.span = calendar.Span{First: day, End: day + 1}
		kept = append(kept, *pl)
	}
	a.placed = kept
}

// dropFarDays marks rows as wrong that lie so far from the middle one, for how
// many rows there are, that their year must be mistyped.
func (a *attempt) dropFarDays() {
	if len(a.placed) == 0 {
		return
	}
	days := make([]int, len(a.placed))
	for i := range a.placed {
		pl := &a.placed[i]
		days[i] = int(pl.span.First)
	}
	usual := calendar.Day(middle(days))
	far := max(12*366, 3*calendar.Day(len(days)))
	a.placed = slices.DeleteFunc(a.placed, func(pl placed) bool {
		if d := pl.span.First - usual; d > far || d < -far {
			r := &a.p.rows[pl.row]
			a.wrong(r.line, r.dateAt, "a day near to those of the other lines")
			return true
		}
		return false
	})
}

// endsOfRanges sees whether each range begins on the day on which the one
// before it ends. Then that day belongs to the later one alone.
func (a *attempt) endsOfRanges() {
	var ranges []int
	for i := range a.placed {
		pl := &a.placed[i]
		if a.p.rows[pl.row].dates == 2 && a.p.rows[pl.row].till < 0 {
			ranges = append(ranges, i)
		}
	}
	if len(ranges) < 2 {
		return
	}
	arrange(ranges, func(i *int) int { return int(a.placed[*i].span.First) })
	shared := 0
	for k := 1; k < len(ranges); k++ {
		if a.placed[ranges[k-1]].span.Last() == a.placed[ranges[k]].span.First {
			shared++
		}
	}
	if 2*shared < len(ranges)-1 || shared == 0 {
		return
	}
	for _, i := range ranges {
		if a.placed[i].span.Days() > 1 {
			a.placed[i].span.End--
		}
	}
	a.notice("ranges-share-days", "Each range begins on the day on which the one before ends; that day was counted with the later one.")
}
