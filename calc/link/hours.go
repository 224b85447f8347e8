package link

import (
	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/record"
)

// unit is the least energy that the hours of a link are told in, where those of
// a file are finer.
const unit = energy.WattHour

// longGap is how long a gap must be to be told of without the hours.
const longGap = record.Whole

// hours gives the record that a link has of what a file came to.
func hours(text string, o Options) string {
	r, _ := record.Parse(text)
	if len(r.Channels) == 0 {
		return ""
	}
	if !o.Names {
		leaveNames(&r)
	}
	r.Source.Said = r.Source.Said[:min(len(r.Source.Said), 100)]
	r.Oddities = r.Oddities[:min(len(r.Oddities), 100)]
	r.Channels = r.Channels[:min(len(r.Channels), mostColumns)]
	for i := range r.Oddities {
		r.Oddities[i].Told = "" // it may show what stood in the file
	}
	if !o.Hours {
		kept := r.Gaps[:0]
		for _, g := range r.Gaps {
			if g.Length >= longGap {
				kept = append(kept, g)
			}
		}
		r.MoreGaps += len(r.Gaps) - len(kept)
		r.Gaps = kept
	}
	for i := range r.Channels {
		c := &r.Channels[i]
		if c.First < firstDay || c.First+calendar.Day(len(c.Days)) > lastDay {
			c.Days = nil
		}
		inUnits(c)
		if !o.Hours {
			daysAlone(c)
		}
	}
	return printable(record.Format(r))
}

// leaveNames takes out what a person called the file and its columns.
func leaveNames(r *record.Record) {
	r.Source.File, r.Source.Said = "", nil
	if !telling(r.Source.Zone, 0) {
		r.Source.Zone = ""
	}
	for i := range r.Channels {
		c := &r.Channels[i]
		c.Name = columnName(i, len(r.Channels))
		if !telling(c.Unit, 0) {
			c.Unit = ""
		}
	}
}

// unitOf gives the largest power of ten of a microwatt-hour, up to a
// kilowatt-hour, of which all energies of a channel are multiples.
func unitOf(c *record.Channel) energy.Energy {
	by := energy.KilowattHour
	eachEnergy(c, func(e energy.Energy) energy.Energy {
		for e%by != 0 {
			by /= 10
		}
		return e
	})
	return by
}

// inUnits rounds the energies of a channel to watt-hours, if they are finer,
// with what was cut from one given to the next.
func inUnits(c *record.Channel) {
	if unitOf(c) >= unit {
		return
	}
	rest := energy.Energy(0)
	eachEnergy(c, func(e energy.Energy) energy.Energy {
		exact := e + rest
		whole := exact / unit * unit
		if half := exact - whole; half > unit/2 {
			whole += unit
		} else if half < -unit/2 {
			whole -= unit
		}
		rest = exact - whole
		return whole
	})
}

// eachEnergy changes the energy of each hour, and the total of each day that is
// even, which is one figure.
func eachEnergy(c *record.Channel, change func(energy.Energy) energy.Energy) {
	for i := range c.Days {
		d := &c.Days[i]
		if isEven(d) {
			total, _ := d.Energy()
			even(d, change(total))
			continue
		}
		for k := range d.Hours {
			one := func(h *record.Hour) {
				if h.Covered > 0 {
					h.Energy = change(h.Energy)
				}
			}
			if one(&d.Hours[k]); d.Turn > 0 && k == int(d.TurnAt) {
				one(&d.Again)
			}
		}
	}
}

// daysAlone makes totals of days whose course is not known of the hours, but for
// days that are a part of a longer such total as it is, that are not whole or
// that have 23 or 25 hours.
func daysAlone(c *record.Channel) {
	for i := range c.Days {
		d := &c.Days[i]
		if d.Turn != 0 || d.Covered() != record.DayLength || d.Hours[0].Marks&(record.Spread|record.Begins) == record.Spread ||
			i+1 < len(c.Days) && joins(d, &c.Days[i+1]) {
			continue
		}
		if total, err := d.Energy(); err == nil {
			even(d, total)
		}
	}
	for i := 1; i < len(c.Days); i++ {
		// What is even now runs into nothing.
		if first := &c.Days[i].Hours[0]; isEven(&c.Days[i-1]) && first.Marks&record.Spread != 0 {
			first.Marks |= record.Begins
		}
	}
}

// joins says that a total whose course is not known runs from a day into the next.
func joins(d, next *record.Day) bool {
	return d.Hours[23].Marks&record.Spread != 0 && next.Hours[0].Marks&(record.Spread|record.Begins) == record.Spread
}
