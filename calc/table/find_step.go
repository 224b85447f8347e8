package table

import (
	"slices"
)

// settleStep finds the usual spacing, and refuses what has one row a day.
func (f *finder) settleStep() error {
	steps, back, repeated := f.steps()
	if repeated*3 > repeated+len(steps) {
		return f.stacked()
	}
	if len(steps) == 0 {
		return no("all rows have the same time")
	}
	if line := f.lateMidnight(); line >= 0 {
		return &NoReadings{
			Line: f.numbers[line] + 1, Found: short(f.text(line)),
			Why: "the time 00:00 stands at the end of its day here, where 24:00 or the next date would be understood",
		}
	}
	f.newest = 2*back > len(steps)
	slices.Sort(steps)
	middle := steps[len(steps)/2]
	step, times := usual(steps)
	near := 0
	for _, s := range steps {
		if 2*s >= middle && 2*s <= 3*middle {
			near++
		}
	}
	switch {
	case 2*times > len(steps):
		f.step, f.even = step, true
	case near*5 >= len(steps)*4:
		f.step, f.even = rounded(middle), true
	}
	switch most := max(middle, f.step); {
	case most > 20*hourLength:
		return no("there is one row a day, or less")
	case most > longestStep+longestStep/100: // times may be late by seconds
		return no("the rows are more than two hours apart")
	}
	return nil
}

// steps gives the distances between rows that follow each other, and counts
// those that go back and those that are nil.
func (f *finder) steps() (steps []int64, back, repeated int) {
	for i := 1; i < len(f.rows); i++ {
		if f.numbers[f.rows[i].line] > f.numbers[f.rows[i-1].line]+1 && f.numbers[f.rows[i].line] >= firstLines {
			break // from here on lines are passed over
		}
		switch step := f.rows[i].at - f.rows[i-1].at; {
		case step == 0:
			repeated++
		case step < 0:
			back++
			steps = append(steps, -step)
		default:
			steps = append(steps, step)
		}
	}
	return steps, back, repeated
}

// longestStep is the longest spacing of readings within days that is read here:
// a longer one tells little of the hour in which its energy fell, and package
// intake makes days of it.
const longestStep = 2 * hourLength

// lateMidnight gives a line whose 00:00 means the end of the day beside it: it
// comes behind the last interval of that date, and before the first of the next.
// It is −1 if there is none.
func (f *finder) lateMidnight() int {
	for i := 1; i+1 < len(f.rows); i++ {
		before, r, after := &f.rows[i-1], &f.rows[i], &f.rows[i+1]
		step := after.at - before.at
		if r.clock == 0 && before.date == r.date && before.clock > dayLength/2 && after.date != r.date && after.clock > 0 && step > 0 && step < dayLength/2 {
			return r.line
		}
	}
	return -1
}

// rounded moves a spacing that is not quite even to a whole one next to it.
func rounded(step int64) int64 {
	for _, unit := range [...]int64{minuteLength, 10_000, 5_000, 1000} {
		if n := (step + unit/2) / unit * unit; n > 0 && (n-step)*(n-step)*400 <= step*step {
			return n
		}
	}
	return step
}

// stacked tells why rows that share their times can't be read.
func (f *finder) stacked() error {
	line := 0
	for i := len(f.rows) - 1; i > 0; i-- {
		if f.rows[i].at == f.rows[i-1].at {
			line = f.numbers[f.rows[i].line] + 1
		}
	}
	return &NoReadings{
		Line: line,
		Why:  "many rows have the same time as the one before, as here: several series stand below each other, or the times are cut to the minute",
	}
}

// usual gives the step that occurs most often of steps in order, and how often
// it does.
func usual(steps []int64) (step int64, times int) {
	for i := 0; i < len(steps); {
		n := i + 1
		for n < len(steps) && steps[n] == steps[i] {
			n++
		}
		if n-i > times {
			step, times = steps[i], n-i
		}
		i = n
	}
	return step, times
}
