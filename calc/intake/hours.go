package intake

import (
	"slices"

	"splittally/calc/intake/words"
)

// findHours looks for a column that numbers the hours of the day, 0 to 23 or 1
// to 24, under a heading that says so.
func (p *paper) findHours(core []int) {
	c := slices.IndexFunc(p.columns, func(c column) bool { return c.label == words.HourName && c.unit == 0 })
	if c < 0 || len(p.columns) < 2 {
		return
	}
	key := p.columns[c].key
	least, most := 99, -1
	for _, line := range core {
		n, ok := p.hourOf(line, key)
		if !ok {
			return
		}
		least, most = min(least, n), max(most, n)
	}
	if most > 24 || least == 0 && most > 23 {
		return
	}
	p.hourKey = key + 1
	if least > 0 {
		p.hourFirst = 1
	}
}

// hourOf gives the number of the hour in the column with the given key.
func (p *paper) hourOf(line, key int) (hour int, ok bool) {
	for _, s := range p.slots(line) {
		if s.key == key && s.item >= 0 {
			return p.smallNumber(s.item, 24)
		}
	}
	return 0, false
}

// setHour gives a row the start of its numbered hour.
func (p *paper) setHour(r *row) {
	if p.hourKey == 0 || r.from >= 0 {
		return
	}
	if n, ok := p.hourOf(r.line, p.hourKey-1); ok {
		r.from, r.till = (n-p.hourFirst)*60, (n-p.hourFirst+1)*60
	}
}
