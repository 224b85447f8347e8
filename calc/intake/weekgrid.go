package intake

import (
	"splittally/calc/calendar"
	"splittally/calc/intake/scan"
	"splittally/calc/intake/words"
)

// layWeeks finds rows in a table of a week to each line, with its days across:
// a heading of five weekdays or more, and lines with a date or the number of a
// week. Every figure becomes a row of its own.
func (p *paper) layWeeks(heading int) bool {
	if f := &p.facts[heading]; f.numbers > 0 || f.dates > 0 || f.times > 0 {
		return false
	}
	var heads []across
	items := p.sheet.Of(heading)
	for i := range items {
		it := &items[i]
		if day, ok := words.Weekday(it.Fold); ok && it.Kind == scan.Word {
			heads = append(heads, across{cell: it.Cell, middle: (it.From + it.To) / 2, weekday: day})
		}
	}
	if len(heads) < 5 {
		return false
	}
	lines := 0
	for i := heading + 1; i < len(p.facts); i++ {
		if f := &p.facts[i]; f.dates == 1 && f.numbers > 0 && !(aggregate(f.label) && f.labelFirst) {
			lines++
			p.layWeek(i, heads)
		}
	}
	return lines > 0
}

// layWeek makes the rows of one week.
func (p *paper) layWeek(line int, heads []across) {
	found := p.slots(line)
	for place, s := range found {
		h, ok := heads[min(place, len(heads)-1)], place < len(heads)
		switch {
		case p.sheet.Delimiter != 0:
			ok = false
			for _, head := range heads {
				if head.cell == s.key/8 {
					h, ok = head, true
				}
			}
		case len(found) < len(heads) && s.item >= 0:
			h, ok = p.under(heads, s.item, false, place)
		}
		if !ok {
			continue // a sum of the week
		}
		date := p.facts[line].firstDate
		p.rows = append(p.rows, row{
			line: line, dates: 1, from: -1, till: -1, weekday: -1, onWeekday: h.weekday + 1, dateAt: date,
			first: p.sheet.Items[date].Date, figures: []int{s.item},
		})
	}
}

// inWeek gives the day of a week that falls on a row's weekday: after the
// week's date, or before it if that is said to be its last.
func (r *row) inWeek(first calendar.Day, ending bool) calendar.Day {
	ahead := (r.onWeekday - 1 - int(first.Weekday()) + 7) % 7
	if ending && ahead > 0 {
		ahead -= 7
	}
	return first + calendar.Day(ahead)
}
