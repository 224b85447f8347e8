package link

import (
	"strconv"
	"strings"

	"splittally/calc"
	"splittally/calc/calendar"
	"splittally/calc/intake"
	"splittally/calc/ledger"
)

// Days gives what the pasted texts of a case were read as: the columns of each
// monitor, and those of the meter's own text.
func Days(c calc.Case) (monitors [][]ledger.Ledger, meter []ledger.Ledger) {
	o := reading(c)
	read := func(path, text string) []ledger.Ledger {
		if strings.TrimSpace(text) == "" {
			return nil
		}
		o.Path = path
		return intake.Read(text, o).Ledgers
	}
	for i, m := range c.Monitors {
		monitors = append(monitors, read("monitors."+strconv.Itoa(i), m.Readings))
	}
	return monitors, read("meter", c.Meter.Readings)
}

// reading is what else is known when a case's texts are read.
func reading(c calc.Case) intake.Options {
	o := intake.Options{Answers: map[string]string{}}
	for _, a := range c.Answers {
		o.Answers[a.Question] = a.Choice
	}
	o.Near = billed(c.Periods, o.Answers)
	o.Today, _ = calendar.ParseISO(c.Today)
	return o
}

// Sheet writes columns of readings as the plain text that comes back from links,
// and gives the answers that it needs to be read so: none, as a rule. path is
// that of the monitor, such as "monitors.0", or "meter".
func Sheet(path string, columns []ledger.Ledger) (text string, answers map[string]string) {
	timed := false
	for _, l := range columns {
		timed = timed || len(l.Slots) > 0
	}
	return sheetText(columns, intake.Options{Path: path}, timed, true)
}

// Stands says that a text may be what a link put for another that has names in it.
func Stands(neutral, own string) bool {
	split := func(text string) []string {
		return strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(" ,.()/&-", r) })
	}
	a, b := split(neutral), split(own)
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i] != b[i] && !isNeutral(a[i]) {
			return false
		}
	}
	return true
}
