package intake

import (
	"slices"

	"splittally/calc/calendar"
	"splittally/calc/intake/scan"
)

// serialEpoch is the day that a spreadsheet with the 1900 date system counts as
// 0 for dates after February 1900: 1899-12-30 (common practice of spreadsheets).
const million = 1_000_000 // numbers at the beginning of lines are in millionths

const serialEpoch = -25569

// asSerial takes the first numbers as serial dates of a spreadsheet if they lie
// in 1990 to 2099 and no two neighbours are more than a few months apart.
func (p *paper) asSerial(lines []int) bool {
	numbers, ok := p.firstNumbers(lines)
	if !ok {
		return false
	}
	for i, n := range numbers {
		if n < 32874*million || n > 73050*million || i > 0 && abs(n-numbers[i-1]) > 100*million {
			return false
		}
		if n%million != 0 && i > 0 && n == numbers[i-1] {
			return false
		}
	}
	if len(numbers) == 1 && !slices.ContainsFunc(p.facts, func(f facts) bool { return f.dateName }) {
		return false
	}
	p.serial = true
	p.become(lines, numbers, func(n int) (calendar.Day, int) {
		minutes := (n*dayLength + million/2) / million // to the nearest
		return calendar.Day(minutes/dayLength + serialEpoch), minutes % dayLength
	})
	return true
}

// asEpoch takes the first numbers as seconds or milliseconds since 1970.
func (p *paper) asEpoch(lines []int) bool {
	numbers, ok := p.firstNumbers(lines)
	if !ok {
		return false
	}
	scale := million
	if numbers[0] > 1e11*million {
		scale *= 1000
	}
	for _, n := range numbers {
		if n/scale < 9e8 || n/scale > 4e9 {
			return false
		}
	}
	p.epoch = true
	p.become(lines, numbers, func(n int) (calendar.Day, int) {
		s := n / scale
		return calendar.Day(s / 86400), s % 86400 / 60
	})
	return true
}

// become turns the first number of each line into a day, and a time where any
// line has one.
func (p *paper) become(lines []int, numbers []int, on func(int) (calendar.Day, int)) {
	timed := slices.ContainsFunc(numbers, func(n int) bool { _, m := on(n); return m != 0 })
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
