package intake

import (
	"slices"
	"strconv"
	"strings"

	"splittally/calc/calendar"
	"splittally/calc/intake/scan"
	"splittally/calc/intake/words"
)

// across is one column of a grid: a month, or a time of day.
type across struct {
	cell    int // in a text with cells
	middle  int // in one without: where its name stands, in bytes
	month   scan.Date
	minute  int
	weekday int
}

// layGrid finds rows in a grid: days of the month down and months across, or
// days down and times of day across. Every figure becomes a row of its own.
func (p *paper) layGrid() bool {
	for i := range p.facts {
		f := &p.facts[i]
		if f.blank || f.comment || f.rule {
			continue
		}
		if heads := p.monthsAcross(i); len(heads) > 1 && p.layMonths(i, heads) {
			return p.finishGrid(i)
		}
		if p.layDates(i) {
			return true
		}
		if p.layWeeks(i) {
			return p.finishGrid(i)
		}
		if heads := p.timesAcross(i); len(heads) >= 12 && p.layTimes(i, heads) {
			return p.finishGrid(i)
		}
	}
	return false
}

func (p *paper) finishGrid(heading int) bool {
	p.dated, p.grid = true, true
	p.columns = []column{{}}
	p.lines[heading].Use, p.lines[heading].Why = Used, "names the columns"
	p.explainRest()
	return true
}

// monthsAcross gives the months that a line names and nothing else.
func (p *paper) monthsAcross(line int) []across {
	var heads []across
	items := p.sheet.Of(line)
	for ii := range items {
		it := &items[ii]
		h := across{cell: it.Cell, middle: (it.From + it.To) / 2}
		switch {
		case it.Kind == scan.Word && words.Month(it.Fold) > 0:
			h.month = scan.Date{Form: scan.Month, Month: words.Month(it.Fold)}
		case it.Kind == scan.DateOf && it.Date.Form == scan.Month:
			h.month = it.Date
		case it.Kind == scan.Number || it.Kind == scan.DateOf:
			return nil
		default:
			continue
		}
		heads = append(heads, h)
	}
	return heads
}

// layMonths makes rows of the lines below a heading of months: each begins with
// a number of a day, or each with a year.
func (p *paper) layMonths(heading int, heads []across) bool {
	var rows []row
	days, years := 0, 0
	for i := heading + 1; i < len(p.facts); i++ {
		f := &p.facts[i]
		if f.dates > 0 || f.numbers == 0 || aggregate(f.label) {
			continue
		}
		at := p.numbersOf(i)
		n, ok := p.smallNumber(at[0], calendar.LastYear)
		switch {
		case !ok || n == 0 || len(at) < 2 || n > 31 && n < calendar.FirstYear:
			continue
		case n <= 31:
			days++
		default:
			years++
		}
		rows = append(rows, p.monthsOfLine(i, n, at, heads)...)
	}
	if years == 0 && days < 5 || years > 0 && (days > 0 || len(heads) < 3) {
		return false
	}
	// Month by month, so that a turn of the year shows.
	order := map[int]int{}
	for i, h := range heads {
		order[h.month.Month] = i
	}
	arrange(rows, func(r *row) int { return order[r.first.Month] })
	p.rows = rows
	return true
}

// monthsOfLine makes the rows of a line below a heading of months: n, its first
// number, is a day or a year.
func (p *paper) monthsOfLine(line, n int, at []int, heads []across) []row {
	var rows []row
	for place, k := range at[1:] {
		h, ok := p.under(heads, k, len(at) > len(heads), place)
		if !ok {
			continue // a sum of the line
		}
		date := scan.Date{Form: scan.Month, Year: n, Month: h.month.Month}
		if n <= 31 {
			date = scan.Date{Form: scan.Known, Year: h.month.Year, Month: h.month.Month, Day: n}
		}
		rows = append(rows, row{line: line, dates: 1, from: -1, till: -1, weekday: -1, dateAt: at[0], figures: []int{k}, first: date})
	}
	return rows
}

// under gives the heading that a figure stands below. The figures of a full
// line stand in the places of the headings; ok is false for one beyond them.
func (p *paper) under(heads []across, item int, full bool, place int) (h across, ok bool) {
	it := &p.sheet.Items[item]
	if p.sheet.Delimiter != 0 {
		i := slices.IndexFunc(heads, func(h across) bool { return h.cell == it.Cell })
		if i < 0 {
			return across{}, false
		}
		return heads[i], true
	}
	if full {
		if place >= len(heads) {
			return across{}, false
		}
		return heads[place], true
	}
	best := heads[0]
	for _, h := range heads[1:] {
		if abs(h.middle-(it.From+it.To)/2) < abs(best.middle-(it.From+it.To)/2) {
			best = h
		}
	}
	return best, true
}

// smallNumber gives a whole number without unit up to most.
func (p *paper) smallNumber(item, most int) (int, bool) {
	it := &p.sheet.Items[item]
	if len(it.Readings) != 1 || it.Readings[0].Places != 0 || it.Unit != 0 || it.Readings[0].Group != 0 {
		return 0, false
	}
	n := it.Readings[0].Value.IntPart()
	return int(n), n >= 0 && n <= int64(most)
}

// timesAcross gives the times of day that a heading names: 00:00, 00:30 …, or
// hours 0 to 23, or hours that end at 1 to 24 (also written HE1 or HE01).
func (p *paper) timesAcross(line int) []across {
	var heads []across
	var hours []int
	items := p.sheet.Of(line)
	for ii := range items {
		it := &items[ii]
		h := across{cell: it.Cell, middle: (it.From + it.To) / 2, minute: -1}
		switch it.Kind {
		case scan.TimeOf:
			h.minute = it.Minute
		case scan.Number:
			if len(it.Readings) != 1 || it.Readings[0].Places != 0 {
				return nil
			}
			hours = append(hours, int(it.Readings[0].Value.IntPart()))
		case scan.Word:
			n, err := strconv.Atoi(strings.TrimLeft(it.Fold, "abcdefghijklmnopqrstuvwxyz_"))
			if err != nil || !strings.HasPrefix(it.Fold, "h") {
				continue
			}
			hours = append(hours, n)
		default:
			return nil
		}
		heads = append(heads, h)
	}
	return hoursAcross(heads, hours)
}

// hoursAcross turns numbered hours into times.
func hoursAcross(heads []across, hours []int) []across {
	if len(hours) == 0 {
		return heads
	}
	if len(hours) != len(heads) || len(hours) < 23 || hours[0] > 1 || hours[0] < 0 {
		return nil
	}
	for i, n := range hours {
		if n != hours[0]+i {
			return nil
		}
		heads[i].minute = i * 60
	}
	return heads[:min(len(heads), 24)]
}

// layTimes makes rows of the lines below a heading of times: each has a day and
// a figure for most times.
func (p *paper) layTimes(heading int, heads []across) bool {
	lines := 0
	var rows []row
	for i := heading + 1; i < len(p.facts); i++ {
		f := &p.facts[i]
		at := p.numbersOf(i)
		if f.dates != 1 || 2*len(at) < len(heads) || aggregate(f.label) && f.labelFirst {
			continue
		}
		lines++
		for n, k := range at {
			h, ok := heads[min(n, len(heads)-1)], n < len(heads)
			if p.sheet.Delimiter != 0 {
				c := slices.IndexFunc(heads, func(h across) bool { return h.cell == p.sheet.Items[k].Cell })
				if ok = c >= 0; ok {
					h = heads[c]
				}
			}
			if !ok {
				continue
			}
			rows = append(rows, row{
				line: i, dates: 1, from: h.minute, till: -1, weekday: f.weekday, dateAt: f.firstDate, figures: []int{k},
				first: p.sheet.Items[f.firstDate].Date,
			})
		}
	}
	p.rows = rows
	return lines > 0
}
