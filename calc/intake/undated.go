package intake

import (
	"slices"
	"time"

	"splittally/calc/calendar"
	"splittally/calc/intake/scan"
	"splittally/calc/intake/words"
	"splittally/calc/remark"
)

// layUndated finds rows where no line has a day as people write it. The first
// numbers may be dates in the manner of spreadsheets or computers; otherwise
// the figures follow one another day by day.
func (p *paper) layUndated() {
	lines := p.figureLines()
	if len(lines) == 0 {
		return
	}
	for _, as := range []func([]int) bool{p.asSerial, p.asEpoch, p.asDayDotMonth, p.asDayNumber} {
		if as(lines) {
			p.dated = true
			break
		}
	}
	p.readHeading(lines[0])
	p.findColumns(lines)
	for _, i := range lines {
		r := p.rowOf(i)
		if m, ok := p.clock[i]; ok {
			r.from = m
		}
		p.rows = append(p.rows, r)
	}
	if p.dated {
		p.markStrays(lines[0], lines[len(lines)-1])
	}
}

// figureLines gives the lines of figures without a day, prose left out.
func (p *paper) figureLines() []int {
	var lines, wordy []int
	for i := range p.facts {
		if p.usable(i) {
			lines = append(lines, i)
			wordy = append(wordy, p.facts[i].words)
		}
	}
	if len(lines) == 0 {
		return nil
	}
	slices.Sort(wordy)
	most := 1 + 2*wordy[len(wordy)/2]
	lines = slices.DeleteFunc(lines, func(i int) bool {
		if p.sheet.Delimiter == 0 && p.facts[i].words > most {
			p.lines[i].Why = "a sentence, not a row of the table"
			return true
		}
		return false
	})
	// Sentences with numbers in them are no list of figures.
	energies := slices.ContainsFunc(p.facts, func(f facts) bool { return f.energies > 0 || f.dateName })
	if len(lines) == 0 || most > 7 || most > 2 && !energies {
		return nil
	}
	first, last := lines[0], lines[len(lines)-1]
	all, next := lines[:0:0], 0
	for i := first; i <= last; i++ {
		f := &p.facts[i]
		isLine := lines[next] == i
		if isLine && next+1 < len(lines) {
			next++
		}
		if isLine || f.dates == 0 && f.numbers == 0 && f.missing > 0 && f.words == 0 && !f.rule {
			all = append(all, i)
		}
	}
	return all
}

// firstNumbers gives the first number of each line under the plain reading; ok
// is false if a line has none, or no second thing that could be the figure.
func (p *paper) firstNumbers(lines []int) (numbers []float64, ok bool) {
	for _, i := range lines {
		f := &p.facts[i]
		if f.firstNumber < 0 || f.numbers+f.missing+f.dashes < 2 && p.sheet.Lines[i].Cells < 2 {
			return nil, false
		}
		it := &p.sheet.Items[f.firstNumber]
		if len(it.Readings) == 0 || it.Unit != 0 {
			return nil, false
		}
		v, _ := it.Readings[0].Value.Float64()
		numbers = append(numbers, v)
	}
	return numbers, len(numbers) > 0
}

// serialEpoch is the day that a spreadsheet with the 1900 date system counts as
// 0 for dates after February 1900: 1899-12-30 (common practice of spreadsheets).
const serialEpoch = -25569

// asSerial takes the first numbers as serial dates of a spreadsheet if they lie
// in 1990 to 2099 and no two neighbours are more than a few months apart.
func (p *paper) asSerial(lines []int) bool {
	numbers, ok := p.firstNumbers(lines)
	if !ok {
		return false
	}
	for i, n := range numbers {
		if n < 32874 || n > 73050 || i > 0 && (n-numbers[i-1] > 100 || numbers[i-1]-n > 100) {
			return false
		}
		whole := float64(int(n)) == n
		if !whole && i > 0 && numbers[i] == numbers[i-1] {
			return false
		}
	}
	if len(numbers) == 1 && !slices.ContainsFunc(p.facts, func(f facts) bool { return f.dateName }) {
		return false
	}
	p.serial = true
	p.become(lines, numbers, func(n float64) (calendar.Day, int) {
		day := int(n)
		return calendar.Day(day + serialEpoch), int((n-float64(day))*dayLength + 0.5)
	})
	return true
}

// asEpoch takes the first numbers as seconds or milliseconds since 1970.
func (p *paper) asEpoch(lines []int) bool {
	numbers, ok := p.firstNumbers(lines)
	if !ok {
		return false
	}
	scale := 1.0
	if numbers[0] > 1e11 {
		scale = 1000
	}
	for _, n := range numbers {
		if n/scale < 9e8 || n/scale > 4e9 {
			return false
		}
	}
	p.epoch = true
	p.become(lines, numbers, func(n float64) (calendar.Day, int) {
		s := int64(n / scale)
		return calendar.Day(s / 86400), int(s % 86400 / 60)
	})
	return true
}

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
		it := p.sheet.Items[p.facts[i].firstNumber]
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
		if n < 1 || n > 31 || n != float64(int(n)) {
			return false
		}
		if i > 0 && (n-numbers[i-1] == 1 || numbers[i-1]-n == 1) {
			steps++
		}
	}
	if 2*steps < len(lines)-1 {
		return false
	}
	p.lines[at].Use, p.lines[at].Why = Used, "names the month"
	for i, line := range lines {
		p.makeDate(line, scan.Date{Form: scan.Known, Year: month.Year, Month: month.Month, Day: int(numbers[i])})
	}
	return true
}

// monthNamed gives the only month that a text without days names, and the line
// that does.
func (p *paper) monthNamed() (month scan.Date, at int, ok bool) {
	for i := range p.sheet.Lines {
		for _, it := range p.sheet.Of(i) {
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

// become turns the first number of each line into a day, and a time where any
// line has one.
func (p *paper) become(lines []int, numbers []float64, on func(float64) (calendar.Day, int)) {
	timed := slices.ContainsFunc(numbers, func(n float64) bool { _, m := on(n); return m != 0 })
	if timed {
		p.clock = map[int]int{}
	}
	for n, i := range lines {
		day, minute := on(numbers[n])
		y, m, d := day.Date()
		p.makeDate(i, scan.Date{Form: scan.Known, Year: y, Month: m, Day: d})
		if timed {
			p.clock[i] = minute
		}
	}
}

// makeDate turns the first number of a line into a date.
func (p *paper) makeDate(line int, d scan.Date) {
	it := &p.sheet.Items[p.facts[line].firstNumber]
	it.Kind, it.Date, it.Readings = scan.DateOf, d, nil
	p.facts[line] = p.gather(line)
}

// countFromFirstDay gives rows without days one day each, from the first day
// that is answered on. Times that fall back begin the next day; weekdays, if
// they are written, set the pace.
func (a *attempt) countFromFirstDay() {
	offsets := a.paces()
	n := slices.Max(offsets) + 1
	first, ok := a.askFirstDay(n)
	if !ok {
		for _, r := range a.p.rows {
			a.lines[r.line].Use, a.lines[r.line].Why = Ignored, "its day is not known"
		}
		return
	}
	for i := range a.p.rows {
		d := first + calendar.Day(offsets[i])
		a.placed = append(a.placed, placed{row: i, span: calendar.Span{First: d, End: d + 1}})
	}
	a.checkWeekdays()
}

// paces gives how many days after the first each row is.
func (a *attempt) paces() []int {
	offsets := make([]int, len(a.p.rows))
	for i := 1; i < len(offsets); i++ {
		r, before := a.p.rows[i], a.p.rows[i-1]
		step := 1
		switch {
		case r.weekday >= 0 && before.weekday >= 0:
			step = (r.weekday - before.weekday + 7) % 7
			if step == 0 && r.from < 0 {
				step = 7
			}
		case r.from >= 0 && before.from >= 0 && r.from > before.from:
			step = 0
		}
		offsets[i] = offsets[i-1] + step
	}
	return offsets
}

// askFirstDay asks on which day the figures begin. Any day may be answered, in
// the form 2023-10-01.
func (a *attempt) askFirstDay(n int) (calendar.Day, bool) {
	var choices []remark.Choice
	offer := func(d calendar.Day, label string) {
		d = a.onWeekday(d)
		if slices.ContainsFunc(choices, func(c remark.Choice) bool { return c.ID == d.String() }) {
			return
		}
		choices = append(choices, remark.Choice{ID: d.String(), Label: d.Long() + label})
	}
	provisional := "unknown"
	length := calendar.Day(n)
	if near := a.o.Near; near.Days() > 0 {
		offer(near.First, ", the first day of the bills")
		offer(near.End-length, ", so that they end with the bills")
		if n <= near.Days()+3 {
			provisional = choices[0].ID
		}
	}
	if a.o.Today > 0 {
		offer(a.o.Today-length, ", so that they end on the day before the last edit")
	}
	if given, ok := calendar.ParseISO(a.o.Answers[a.id("first-day")]); ok {
		offer(given, "")
	}
	choices = append(choices, remark.Choice{ID: "unknown", Label: "Not known: leave the figures out"})
	taken := a.ask("first-day", "On which day do these figures begin?", "No line names a day; they were counted one a day in the order of the lines.", provisional, choices...)
	return calendar.ParseISO(taken)
}

// onWeekday moves a day back to the weekday of the first row, if it has one.
func (a *attempt) onWeekday(d calendar.Day) calendar.Day {
	if w := a.p.rows[0].weekday; w >= 0 {
		for d.Weekday() != time.Weekday(w) {
			d--
		}
	}
	return d
}
