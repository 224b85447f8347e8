package intake

import (
	"strconv"
	"strings"

	"splittally/calc/calendar"
	"splittally/calc/intake/scan"
	"splittally/calc/number"
)

// joinYears turns the two or four digits behind a day and month without a year
// into its year where all such rows have the same ones, or two that follow each
// other, and a figure stands behind them: "3 Oct 23  12.4", and "October 3, 2023,
// 12.4" where commas part cells.
func (p *paper) joinYears() {
	var at []int
	low, high := 100, -1
	for i := range p.facts {
		f := &p.facts[i]
		if f.dates != 1 || f.numbers < 2 {
			continue
		}
		d, n := f.firstDate, f.firstNumber
		date, num := &p.sheet.Items[d], &p.sheet.Items[n]
		if n != d+1 || date.Date.Form != scan.Known || date.Date.Year != 0 || num.Unit != 0 || len(num.Readings) != 1 {
			continue
		}
		v := int(num.Readings[0].Value.IntPart())
		if num.To-num.From == 4 {
			v -= 2000
		} else if num.To-num.From != 2 {
			continue
		}
		low, high = min(low, v), max(high, v)
		at = append(at, i)
	}
	if len(at) < 2 || high-low > 1 || low < 0 {
		return
	}
	for _, i := range at {
		f := &p.facts[i]
		num := &p.sheet.Items[f.firstNumber]
		p.sheet.Items[f.firstDate].Date.Year = 2000 + int(num.Readings[0].Value.IntPart())%2000
		p.remove(i, f.firstNumber)
	}
}

// joinUnits gives a number the unit that stands alone in the next cell.
func (p *paper) joinUnits() {
	if p.sheet.Delimiter == 0 {
		return
	}
	for i := range p.sheet.Lines {
		items := p.sheet.Of(i)
		for k := 1; k < len(items); k++ {
			n, u := &items[k-1], &items[k]
			alone := k+1 == len(items) || items[k+1].Cell != u.Cell
			if n.Kind == scan.Number && n.Unit == 0 && u.Kind == scan.Word && u.Cell == n.Cell+1 && alone && u.Unit != 0 {
				n.Unit = u.Unit
			}
		}
		p.facts[i] = p.gather(i)
	}
}

// joinMonths takes "Oct-23, Nov-23 … Jan-24" as months with years, not as the
// 23rd day of each, if the names go from month to month in every line.
func (p *paper) joinMonths() {
	var at []*scan.Item
	for i := range p.facts {
		f := &p.facts[i]
		if f.dates == 0 {
			continue
		}
		it := &p.sheet.Items[f.firstDate]
		text := p.sheet.Lines[i].Text[it.From:it.To]
		hyphened := len(text) > 3 && (text[len(text)-3] == '-' || text[len(text)-3] == '/')
		if f.dates > 1 || it.Date.Form != scan.Known || it.Date.Year != 0 || it.Date.Mark != 0 || !hyphened {
			return
		}
		at = append(at, it)
	}
	for i := 1; i < len(at); i++ {
		a, b := at[i-1].Date, at[i].Date
		step := (b.Day*12 + b.Month) - (a.Day*12 + a.Month)
		if step != 1 && step != -1 {
			return
		}
	}
	if len(at) < 3 {
		return
	}
	for _, it := range at {
		it.Date = scan.Date{Form: scan.Month, Year: 2000 + it.Date.Day, Month: it.Date.Month}
	}
	p.monthYears = true
}

// joinTimes takes numbers such as 7.30, or runs such as 07-08, right behind the
// date as times of day if every row has one and the figures stand behind: so
// times are written in Finland, and hours in some exports. 7.30 must stand in
// the cell of the date, or it could be a figure.
func (p *paper) joinTimes() {
	var at, minutes []int
	for i := range p.facts {
		f := &p.facts[i]
		if f.dates == 0 || f.numbers+f.missing == 0 {
			continue
		}
		n := f.firstDate + 1
		if f.dates > 1 || f.times > 0 || f.firstNumber != n || f.numbers+f.missing+f.dashes < 2 {
			return
		}
		it := &p.sheet.Items[n]
		text := p.sheet.Lines[i].Text[it.From:it.To]
		minute, ok := hourRange(text)
		if !ok && p.sheet.Delimiter != 0 && it.Cell == p.sheet.Items[n-1].Cell {
			minute, ok = dottedTime(text)
		}
		if !ok {
			return
		}
		at, minutes = append(at, i), append(minutes, minute)
	}
	if len(at) < 4 {
		return
	}
	for k, i := range at {
		it := &p.sheet.Items[p.facts[i].firstNumber]
		*it = scan.Item{Kind: scan.TimeOf, Cell: it.Cell, From: it.From, To: it.To, Minute: minutes[k]}
		p.facts[i] = p.gather(i)
	}
}

// hourRange reads the beginning of 07-08, an hour of the day, in minutes.
func hourRange(text string) (minute int, ok bool) {
	from, to, cut := strings.Cut(text, "-")
	a, errA := strconv.Atoi(from)
	b, errB := strconv.Atoi(to)
	return a * 60, cut && errA == nil && errB == nil && a >= 0 && a < 24 && (b == a+1 || a == 23 && b == 0)
}

// dottedTime reads 7.30 as a time of day, in minutes, to five of them.
func dottedTime(text string) (minute int, ok bool) {
	hour, rest, cut := strings.Cut(text, ".")
	h, errH := strconv.Atoi(hour)
	m, errM := strconv.Atoi(rest)
	return h*60 + m, cut && errH == nil && errM == nil && len(rest) == 2 && h >= 0 && h <= 24 && m >= 0 && m < 60 && m%5 == 0
}

// joinOrdinals takes "1. Oct 3 12.4, 2. Oct 4 9.8 …" as numbered lines, not as
// the first days of October with a figure more: the numbers count from 1, and
// those behind the month go with them, or a year follows.
func (p *paper) joinOrdinals() {
	var at []int
	before := 0
	for i := range p.facts {
		f := &p.facts[i]
		if f.dates == 0 {
			continue
		}
		it := &p.sheet.Items[f.firstDate]
		day, ok := p.dayBehind(i)
		if !ok || it.Date.Day != len(at)+1 || len(at) > 0 && abs(day-before) != 1 && day != 1 {
			return
		}
		before = day
		at = append(at, i)
	}
	if len(at) < 3 {
		return
	}
	for _, i := range at {
		f := &p.facts[i]
		it := &p.sheet.Items[f.firstDate]
		it.Date.Day, _ = p.dayBehind(i)
		p.remove(i, f.firstDate+1)
		if year, ok := p.smallNumber(min(f.firstDate+1, len(p.sheet.Items)-1), calendar.LastYear); ok && year >= calendar.FirstYear && f.numbers > 1 {
			it.Date.Year = year
			p.remove(i, f.firstDate+1)
		}
	}
}

// dayBehind gives the number right behind a date such as "1. Oct", if it can be
// the day and a figure or a year follows.
func (p *paper) dayBehind(line int) (day int, ok bool) {
	f := &p.facts[line]
	it := &p.sheet.Items[f.firstDate]
	text := p.sheet.Lines[line].Text[it.From:it.To]
	if f.dates > 1 || f.numbers < 2 || f.firstNumber != f.firstDate+1 || it.Date.Form != scan.Known || it.Date.Year != 0 || it.Date.Mark != 0 || !strings.Contains(text, ". ") {
		return 0, false
	}
	day, ok = p.smallNumber(f.firstNumber, 31)
	return day, ok && day > 0
}

// remove takes one item out of a line and counts the line anew.
func (p *paper) remove(line, item int) {
	l := &p.sheet.Lines[line]
	copy(p.sheet.Items[item:l.Past], p.sheet.Items[item+1:l.Past])
	l.Past--
	p.facts[line] = p.gather(line)
}

// joinGroups puts numbers together that are parted by a plain blank before each
// three digits, "1 234,5", unless the text shows that they are columns: some
// rows could not be joined, or the heading has names for more.
func (p *paper) joinGroups() {
	joinable, apart, decimals := 0, 0, false
	for i := range p.facts {
		f := &p.facts[i]
		if f.numbers < 2 || f.dates == 0 {
			continue
		}
		spaced := false
		items := p.sheet.Of(i)
		for ii := range items {
			it := &items[ii]
			if it.Spaced {
				spaced = true
				decimals = decimals || len(it.Readings) > 0 && it.Readings[0].Mark != 0
			}
		}
		if spaced {
			joinable++
		} else {
			apart++
		}
	}
	if joinable == 0 || apart > 0 && !decimals || !decimals && p.headingCells() > 2 {
		return
	}
	for i := range p.facts {
		p.joinLine(i)
	}
	p.joined = true
}

// headingCells counts the words of the first line that has words alone.
func (p *paper) headingCells() int {
	for i := range p.facts {
		f := &p.facts[i]
		if f.dateName && f.numbers == 0 {
			return p.sheet.Lines[i].Past - p.sheet.Lines[i].First - f.units
		}
	}
	return 0
}

func (p *paper) joinLine(line int) {
	l := &p.sheet.Lines[line]
	items := p.sheet.Items[l.First:l.Past]
	if len(items) < 2 {
		return
	}
	kept := items[:1]
	for _, it := range items[1:] {
		before := &kept[len(kept)-1]
		if it.Spaced && before.Kind == scan.Number {
			if rs := number.Readings(l.Text[before.From:it.To]); rs != nil {
				before.To, before.Readings, before.Unit = it.To, rs, it.Unit
				continue
			}
		}
		kept = append(kept, it)
	}
	if len(kept) < len(items) {
		l.Past = l.First + len(kept)
		p.facts[line] = p.gather(line)
	}
}
