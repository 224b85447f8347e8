package load

import (
	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/ledger"
)

// Month is what a month, or the part of it that the ledger has, came to.
type Month struct {
	calendar.Span // its days that the ledger has
	// Energy is all that was measured, exactly; what is missing is not made up
	// for. What does not fit stays at the end of what does.
	Energy energy.Energy
	// Whole, Partial and Missing count the days by how they are known, as IsWhole
	// has it.
	Whole, Partial, Missing int
	// InWhole is the energy of the whole days.
	InWhole energy.Energy
}

// PerDay gives the mean of the days that are known whole, in kWh; 0 without any.
func (m Month) PerDay() float64 {
	if m.Whole == 0 {
		return 0
	}
	return m.InWhole.KilowattHours() / float64(m.Whole)
}

// lostHours is how much of a day may be missing while it is still drawn and
// counted as whole: a record that loses a few seconds an hour would have no
// whole day at all. A choice of ours.
const lostHours = 0.5

// IsWhole says whether a day's energy can stand for the day: measured whole, its
// share of a longer total, or all but lostHours of it measured.
func IsWhole(e ledger.Entry) bool {
	return e.State == ledger.Measured || e.State == ledger.Spread || e.State == ledger.Partial && e.Hours > 24-lostHours
}

// months adds the days up, month by month; ledger.MaxDays bounds them.
func months(l ledger.Ledger) []Month {
	var out []Month
	var next calendar.Day // the first day of the month after
	for i, e := range l.Days {
		d := l.First + calendar.Day(i)
		if i == 0 || d >= next {
			out = append(out, Month{Span: calendar.Span{First: d, End: d}})
			next = monthAfter(d)
		}
		m := &out[len(out)-1]
		m.End++
		switch {
		case e.State == ledger.Missing:
			m.Missing++
			continue
		case IsWhole(e):
			m.Whole++
			m.InWhole = sum(m.InWhole, e.Energy)
		default:
			m.Partial++
		}
		m.Energy = sum(m.Energy, e.Energy)
	}
	return out
}

// monthAfter gives the first day of the month after that of d.
func monthAfter(d calendar.Day) calendar.Day {
	_, month, day := d.Date()
	d += calendar.Day(28 - day) // every month has it, and no month is longer than 31
	for {
		d++
		if _, m, _ := d.Date(); m != month {
			return d
		}
	}
}

// PartHours is the length of a part of a day, in hours.
const PartHours = 4

// Part is the mean power of a part of the day over some days.
type Part struct {
	Hours int // that count; 0 if none does
	Watts float64
}

// Parts gives the mean power of each part of the day over the days of a span,
// by the hours that count.
func (l Load) Parts(span calendar.Span) (out [24 / PartHours]Part) {
	for i := range l.Days {
		if d := &l.Days[i]; span.Has(d.Day) {
			for h := range d.Hours {
				out[h/PartHours].add(d.Hours[h])
			}
			if d.AgainAt >= 0 {
				out[d.AgainAt/PartHours].add(d.Again)
			}
		}
	}
	for i := range out {
		if out[i].Hours > 0 {
			out[i].Watts /= float64(out[i].Hours)
		}
	}
	return out
}

// add adds an hour to a sum of powers.
func (p *Part) add(h Hour) {
	if h.Counts() {
		p.Hours++
		p.Watts += h.Watts()
	}
}
