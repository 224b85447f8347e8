package intake

import (
	"slices"
	"time"

	"splittally/calc/calendar"
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
	if months := p.asMonths(lines); months != nil {
		lines, p.dated = months, true
	}
	for _, as := range []func([]int) bool{p.asParts, p.asBlankDates, p.asSerial, p.asEpoch, p.asDayDotMonth, p.asDayNumber} {
		if p.dated || as(lines) {
			p.dated = true
			break
		}
	}
	p.readHeading(lines[0])
	if at := p.numbersOf(lines[0]); len(lines) == 1 && len(at) > 2 && !p.dated {
		p.columns = []column{{}} // a list on one line, one figure a day
		for _, k := range at {
			p.rows = append(p.rows, row{line: lines[0], from: -1, till: -1, weekday: -1, dateAt: -1, figures: []int{k}})
		}
		return
	}
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
	most := 1 + 2*middle(wordy)
	lines = slices.DeleteFunc(lines, func(i int) bool {
		if p.sheet.Delimiter == 0 && p.facts[i].words > most {
			p.lines[i].Why = "a sentence, not a row of the table"
			return true
		}
		return false
	})
	// Sentences with numbers in them are no list of figures.
	energies := slices.ContainsFunc(p.facts, func(f facts) bool { return f.energies > 0 || f.dateName })
	if len(lines) == 0 || most > 7 || most > 2 && !energies || !slices.ContainsFunc(lines, p.hasFigure) {
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

// hasFigure says whether any number of a line can be read.
func (p *paper) hasFigure(line int) bool {
	return slices.ContainsFunc(p.numbersOf(line), func(i int) bool { return len(p.sheet.Items[i].Readings) > 0 })
}

// firstNumbers gives the first number of each line, in millionths; ok
// is false if a line has none, or no second thing that could be the figure.
func (p *paper) firstNumbers(lines []int) (numbers []int, ok bool) {
	for _, i := range lines {
		f := &p.facts[i]
		if f.firstNumber < 0 || f.numbers+f.missing+f.dashes < 2 && p.sheet.Lines[i].Cells < 2 {
			return nil, false
		}
		it := &p.sheet.Items[f.firstNumber]
		if len(it.Readings) == 0 || it.Unit != 0 {
			return nil, false
		}
		numbers = append(numbers, size(it.Readings[0].Value, words.WattHour))
	}
	return numbers, len(numbers) > 0
}

// countFromFirstDay gives rows without days one day each, from the first day
// that is answered on. Times that fall back begin the next day; weekdays, if
// they are written, set the pace.
func (a *attempt) countFromFirstDay() {
	offsets := a.paces()
	n := slices.Max(offsets) + 1
	first, ok := a.askFirstDay(n)
	if !ok {
		for ri := range a.p.rows {
			r := &a.p.rows[ri]
			a.ignore(r.line, "its day is not known")
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
