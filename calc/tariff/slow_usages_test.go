package tariff_test

import (
	"slices"
	"time"

	"github.com/shopspring/decimal"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/tariff"
)

// scene makes the schedule and the usage of a seed.
func scene(seed uint64, whole bool) (tariff.Schedule, tariff.Usage) {
	r := seeded(seed, whole)
	c := changes[r.IntN(len(changes))]
	r.period(c)
	s := r.schedule()
	return s, r.usage(c, s)
}

// change is how clocks are moved: on Sundays of spring and autumn, by so many
// minutes. Europe and North America from memory; the third moves by half an
// hour, as one island does.
type change struct {
	springMonth, springSunday int // -1 is the last Sunday of the month
	autumnMonth, autumnSunday int
	missing, repeated, by     int // minutes of the clock
}

var changes = []change{
	{3, -1, 10, -1, 120, 120, 60},
	{3, 2, 11, 1, 120, 60, 60},
	{10, 1, 4, 1, 120, 90, 30},
	{1, 9, 1, 9, 0, 0, 0}, // never
}

// isSunday says whether d is that Sunday of the month.
func isSunday(d calendar.Day, month, nth int) bool {
	_, m, day := d.Date()
	if m != month || d.Weekday() != time.Sunday {
		return false
	}
	_, next, _ := (d + 7).Date()
	return nth == (day+6)/7 || nth == -1 && next != m
}

// period chooses the days: most of them few, for the minutes take time, and
// many of them around a change of the clock.
func (r *random) period(c change) {
	days := 1 + r.IntN(15)
	switch {
	case r.whole:
		days = 1 + r.IntN(366)
	case r.in(15):
		days = 16 + r.IntN(25)
	case r.in(3):
		days = 41 + r.IntN(326)
	}
	first, _ := calendar.Date(2015+r.IntN(20), 1+r.IntN(12), 1+r.IntN(28))
	for range 400 {
		if !r.in(99) || isSunday(first, c.springMonth, c.springSunday) || isSunday(first, c.autumnMonth, c.autumnSunday) {
			break
		}
		first++
	}
	first -= calendar.Day(r.IntN(days))
	r.span = calendar.Span{First: first, End: first + calendar.Day(days)}
}

// usage makes the slots of a period with holes in them.
func (r *random) usage(c change, s tariff.Schedule) tariff.Usage {
	u := tariff.Usage{Span: r.span}
	lengths := []int{15, 30, 60, 60, 60, 1440, 1440, 7 * 1440, 366 * 1440}
	if r.span.Days() > 40 && !r.whole {
		lengths = lengths[4:]
	}
	if slices.ContainsFunc(s.Rows, func(row tariff.Row) bool { return row.Kind == string(tariff.Demand) }) && r.in(50) {
		lengths = lengths[:min(2, len(lengths))]
	}
	u.Import = r.slots(c, lengths)
	if r.in(50) {
		u.Export = r.slots(c, lengths)
	}
	if r.in(70) {
		u.LossFactor = decimal.New(10000+r.Int64N(1000), -4)
	}
	if r.in(20) {
		u.Carried = decimal.New(r.Int64N(50000), -2)
	}
	if r.in(40) {
		// The bands not named take the rest by their minutes.
		u.Shares = map[string]decimal.Decimal{"A": r.share()}
		if r.in(50) {
			u.Shares["B"] = r.share()
		}
	}
	return u
}

// share gives a portion below a half, and 0 often.
func (r *random) share() decimal.Decimal { return decimal.New(max(0, r.Int64N(60)-10), -2) }

func (r *random) slots(c change, lengths []int) (slots []tariff.Slot) {
	length, isMixed := lengths[r.IntN(len(lengths))], r.in(8)
	unit := []int64{int64(energy.KilowattHour) / 10, int64(energy.WattHour), 1}[r.IntN(3)]
	days, shift := r.span, 0
	if r.in(10) { // more than the period
		days.First, days.End = days.First-calendar.Day(r.IntN(3)), days.End+calendar.Day(r.IntN(3))
	}
	if r.in(30) { // days that don't begin at midnight
		shift = r.IntN(1440)
	}
	for d := days.First; d < days.End; {
		if isMixed {
			length = lengths[r.IntN(len(lengths))]
		}
		next := min(d+calendar.Day(max(1, length/1440)), days.End)
		if length < 1440 {
			slots = append(slots, dayOf(c, d, length)...)
		} else if shift > 0 && !isMixed {
			slots = append(slots, tariff.Slot{First: d, Last: next, From: shift, To: shift})
		} else {
			slots = append(slots, tariff.Slot{First: d, Last: next - 1, To: 1440})
		}
		d = next
	}
	kept := slots[:0]
	holes := r.IntN(3) * 2
	for _, s := range slots {
		minutes := int64(s.Last-s.First)*1440 + int64(s.To-s.From)
		most := int64(energy.KilowattHour) * minutes / 60 / unit
		s.Energy = energy.Energy(r.Int64N(most+2) * unit)
		if !r.in(holes) {
			kept = append(kept, s)
		}
	}
	return kept
}

// dayOf gives the slots of one day: where the clock is put forward what it
// skips is missing, where it is put back what it repeats is there twice.
func dayOf(c change, d calendar.Day, length int) (slots []tariff.Slot) {
	add := func(from, to int, again bool) {
		for from < to {
			end := min(to, (from/length+1)*length)
			slots = append(slots, tariff.Slot{First: d, Last: d, From: from, To: end, Again: again})
			from = end
		}
	}
	switch {
	case isSunday(d, c.springMonth, c.springSunday):
		add(0, c.missing, false)
		add(c.missing+c.by, 1440, false)
	case isSunday(d, c.autumnMonth, c.autumnSunday):
		add(0, c.repeated+c.by, false)
		add(c.repeated, c.repeated+c.by, true)
		add(c.repeated+c.by, 1440, false)
	default:
		add(0, 1440, false)
	}
	return slots
}
