package table

import (
	"splittally/calc/calendar"
)

// order is how the dates are to be read.
type order struct {
	form Form
	open bool // day and month first are both possible ways to write them
	sure bool
	// fixed: the dates do not exist in the other order, so that even a person's
	// choice can't be taken, which may be of another file.
	fixed bool
	why   string
}

// settleOrder decides whether the day or the month comes first, and gives each
// row its time.
func (f *finder) settleOrder() error {
	switch f.stamps.source {
	case unixTime:
		f.order.form = Seconds
		if f.stamps.millis {
			f.order.form = Millis
		}
		return nil
	case serialDays:
		f.order.form = Serial
		return nil
	}
	f.weighOrder()
	if f.order.open {
		f.askOrder()
	}
	kept := f.rows[:0]
	for _, r := range f.rows {
		if f.place(&r, f.order.form) {
			kept = append(kept, r)
		}
	}
	if f.rows = kept; len(kept) < leastRows {
		return no("there are fewer than three rows with a date that exists")
	}
	f.skip = kept[0].line
	return nil
}

// place works out the time of a row under a form.
func (f *finder) place(r *row, form Form) bool {
	day, ok := r.day(form)
	r.at = int64(day)*dayLength + r.clock - int64(r.offset)*1000
	return ok
}

// weighOrder decides by the shapes of the dates, by numbers that can be no
// month, and by the order that makes the rows follow evenly.
func (f *finder) weighOrder() {
	o := &f.order
	names := f.rows[0].shape
	for i := range f.rows {
		if f.rows[i].shape == numbers {
			names = numbers
			break
		}
	}
	switch names {
	case yearFirst:
		o.form = YearFirst
		return
	case dayName:
		o.form = DayFirst
		return
	case nameDay:
		o.form = MonthFirst
		return
	}
	o.open = true
	day, month := f.suits(DayFirst), f.suits(MonthFirst)
	switch {
	case day.misfits*4 < month.misfits:
		o.form, o.sure, o.fixed, o.why = DayFirst, true, true, "In “"+month.example+"” only the first number can be the day."
	case month.misfits*4 < day.misfits:
		o.form, o.sure, o.fixed, o.why = MonthFirst, true, true, "In “"+day.example+"” only the second number can be the day."
	case day.even > month.even && day.even > len(f.rows)/2:
		o.form, o.sure, o.why = DayFirst, true, "With the day first the rows follow each other evenly from day to day."
	case month.even > day.even && month.even > len(f.rows)/2:
		o.form, o.sure, o.why = MonthFirst, true, "With the month first the rows follow each other evenly from day to day."
	case f.rows[0].mark == '.':
		o.form, o.sure, o.why = DayFirst, true, "Dates with points have the day first."
	default:
		f.guessOrder()
	}
}

// suit is how well the rows go with an order.
type suit struct {
	misfits int // dates that do not exist so
	example string
	even    int // rows that follow the one before within two days
}

func (f *finder) suits(form Form) suit {
	var s suit
	before, any := int64(0), false
	for i := range f.rows {
		r := f.rows[i]
		if !f.place(&r, form) {
			if s.misfits++; s.example == "" {
				s.example = string(f.bytes(r.line, f.stamps.date))
			}
			continue
		}
		if d := r.at - before; any && d < 2*dayLength && d > -2*dayLength {
			s.even++
		}
		before, any = r.at, true
	}
	return s
}

// guessOrder takes a provisional order where nothing decides.
func (f *finder) guessOrder() {
	o := &f.order
	r := &f.rows[0]
	padded := f.bytes(r.line, f.stamps.date)[0] == '0'
	open := "Nothing in the first rows tells the day from the month"
	switch {
	case r.half:
		o.form, o.why = MonthFirst, open+"; where AM and PM are written, the month mostly comes first."
	case f.delimiter == ';' || f.foreign:
		o.form, o.why = DayFirst, open+"; files of this kind mostly have the day first."
	case padded || r.mark == '-' || r.date[0] > 9:
		o.form, o.why = DayFirst, open+"; with two digits and a clock of 24 hours the day mostly comes first."
	default:
		o.form, o.why = MonthFirst, open+"; numbers without a leading zero mostly have the month first."
	}
	if r.date[0] == r.date[1] {
		o.why = "Day and month are the same number in the first rows."
	}
}

// dayOf gives the civil day of a time by the clock shown.
func dayOf(wall int64) calendar.Day {
	d, _ := calendar.At(wall)
	return d
}
