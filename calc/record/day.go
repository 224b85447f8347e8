package record

import "splittally/calc/energy"

// Length is how long the day is, in milliseconds: 23, 24 or 25 hours.
func (d *Day) Length() int64 { return DayLength + int64(d.Turn)*Whole }

// Covered is how much of the day readings cover, in milliseconds.
func (d *Day) Covered() (ms int64) {
	for h := range d.Hours {
		ms += int64(d.Hours[h].Covered)
	}
	return ms + int64(d.Again.Covered)
}

// Energy is what the covered part of the day brought.
func (d *Day) Energy() (energy.Energy, error) {
	var sum energy.Energy
	var err error
	for h := range d.Hours {
		if sum, err = sum.Add(d.Hours[h].Energy); err != nil {
			return 0, err
		}
	}
	return sum.Add(d.Again.Energy)
}

// Marks are all marks of the day's hours.
func (d *Day) Marks() (m Marks) {
	for h := range d.Hours {
		m |= d.Hours[h].Marks
	}
	return m | d.Again.Marks
}
