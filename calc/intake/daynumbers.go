package intake

import (
	"splittally/calc/calendar"
	"splittally/calc/intake/scan"
	"splittally/calc/intake/words"
)

// asDayDotMonth takes first numbers such as 01.10 as day and month if they give
// one day after the other.
func (p *paper) asDayDotMonth(lines []int) bool {
	if _, ok := p.firstNumbers(lines); !ok || len(lines) < 3 {
		return false
	}
	var dates []scan.Date
	steps := 0
	before := calendar.Day(0)
	for n, i := range lines {
		it := &p.sheet.Items[p.facts[i].firstNumber]
		d, ok := dayDotMonth(p.sheet.Lines[i].Text[it.From:it.To])
		if !ok {
			return false
		}
		on, ok := d.On(scan.DayFirst, 2024)
		if !ok {
			return false
		}
		if n > 0 && (on-before == 1 || before-on == 1) {
			steps++
		}
		before = on
		dates = append(dates, d)
	}
	if 2*steps < len(lines)-1 {
		return false
	}
	for n, i := range lines {
		p.makeDate(i, dates[n])
	}
	return true
}

// asParts takes dates whose year, month and day have columns of their own, named
// by the heading.
func (p *paper) asParts(lines []int) bool {
	year, month, day := -1, -1, -1
	for i := lines[0] - 1; i >= 0 && i > lines[0]-4 && month < 0; i-- {
		items := p.sheet.Of(i)
		for ii := range items {
			it := &items[ii]
			switch label := words.LabelOf(it.Fold); {
			case it.Kind != scan.Word:
			case label == words.YearName:
				year = it.Cell
			case label == words.MonthName:
				month = it.Cell
			case label == words.DateName:
				day = it.Cell
			}
		}
	}
	if month < 0 || day < 0 || p.sheet.Delimiter == 0 {
		return false
	}
	dates := make([]scan.Date, len(lines))
	for n, line := range lines {
		d := scan.Date{Form: scan.Known}
		items := p.sheet.Of(line)
		for ii := range items {
			it := &items[ii]
			if it.Kind != scan.Number || len(it.Readings) != 1 {
				continue
			}
			v := int(it.Readings[0].Value.IntPart())
			switch it.Cell {
			case year:
				d.Year = v
			case month:
				d.Month = v
			case day:
				d.Day = v
			}
		}
		if _, ok := d.On(scan.DayFirst, 2024); !ok {
			return false
		}
		dates[n] = d
	}
	for n, line := range lines {
		p.keepCells(line, year, month, day)
		p.makeDate(line, dates[n])
	}
	return true
}

// asBlankDates takes dates whose parts only blanks part: "2023 10 13  12.4" or
// "13 10 2023  12,4".
func (p *paper) asBlankDates(lines []int) bool {
	dates := make([]scan.Date, len(lines))
	for n, line := range lines {
		at := p.numbersOf(line)
		if len(at) < 3 || len(at)+p.facts[line].missing+p.facts[line].dashes < 4 || at[2] != at[0]+2 || p.sheet.Items[at[2]].Cell != p.sheet.Items[at[0]].Cell {
			return false
		}
		var part [3]int
		for k := range part {
			n, ok := p.smallNumber(at[k], calendar.LastYear)
			if !ok {
				return false
			}
			part[k] = n
		}
		d := scan.Date{Form: scan.Known, Year: part[0], Month: part[1], Day: part[2]}
		if part[0] <= 31 {
			d = scan.Date{Form: scan.DayMonth, A: part[0], B: part[1], Year: part[2]}
		}
		if _, ok := d.On(scan.DayFirst, 0); !ok {
			if _, ok = d.On(scan.MonthFirst, 0); !ok {
				return false
			}
		}
		dates[n] = d
	}
	for n, line := range lines {
		first := p.facts[line].firstNumber
		p.remove(line, first+1)
		p.remove(line, first+1)
		p.makeDate(line, dates[n])
	}
	return true
}

// keepCells takes the items of the parts of a date out of a line, all but the
// first.
func (p *paper) keepCells(line int, parts ...int) {
	seen := false
	for i := p.sheet.Lines[line].First; i < p.sheet.Lines[line].Past; {
		it := &p.sheet.Items[i]
		part := it.Cell == parts[0] || it.Cell == parts[1] || it.Cell == parts[2]
		if part && seen {
			p.remove(line, i)
			continue
		}
		seen = seen || part
		i++
	}
}

// asDayNumber takes first numbers that count up, or down, from 1 to 31 as days of
// the one month that the text around names.
func (p *paper) asDayNumber(lines []int) bool {
	numbers, ok := p.firstNumbers(lines)
	month, at, named := p.monthNamed()
	if !ok || !named || len(lines) < 2 {
		return false
	}
	steps := 0
	for i, n := range numbers {
		if n < million || n > 31*million || n%million != 0 {
			return false
		}
		if i > 0 && abs(n-numbers[i-1]) == million {
			steps++
		}
	}
	if 2*steps < len(lines)-1 {
		return false
	}
	p.lines[at].Use, p.lines[at].Why = Used, "names the month"
	for i, line := range lines {
		p.makeDate(line, scan.Date{Form: scan.Known, Year: month.Year, Month: month.Month, Day: numbers[i] / million})
	}
	return true
}

func (p *paper) monthOf(item int) int { return words.Month(p.sheet.Items[item].Fold) }

// monthNamed gives the only month that a text without days names, and the line
// that does.
func (p *paper) monthNamed() (month scan.Date, at int, ok bool) {
	for i := range p.sheet.Lines {
		items := p.sheet.Of(i)
		for ii := range items {
			it := &items[ii]
			d := it.Date
			switch {
			case it.Kind == scan.DateOf && d.Form == scan.Month:
			case it.Kind == scan.Word && words.Month(it.Fold) > 0 && len(it.Fold) > 3:
				d = scan.Date{Form: scan.Month, Month: words.Month(it.Fold)}
			default:
				continue
			}
			if ok && month.Month != d.Month {
				return month, i, false
			}
			if month.Year == 0 {
				month, at = d, i
			}
			ok = true
		}
	}
	return month, at, ok
}

// dayDotMonth reads "3.10" as 3 October.
func dayDotMonth(text string) (scan.Date, bool) {
	var parts [2]int
	at := 0
	for i := range len(text) {
		switch c := text[i]; {
		case c == '.' && at == 0 && i > 0 && i < 3:
			at = 1
		case c >= '0' && c <= '9':
			parts[at] = parts[at]*10 + int(c-'0')
		default:
			return scan.Date{}, false
		}
	}
	return scan.Date{Form: scan.Known, Mark: '.', Day: parts[0], Month: parts[1]}, at == 1 && parts[1] >= 1 && parts[1] <= 12 && parts[0] >= 1 && parts[0] <= 31
}
