package intake

import (
	"slices"
	"strconv"
	"strings"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/intake/scan"
	"splittally/calc/intake/words"
	"splittally/calc/ledger"
	"splittally/calc/remark"
)

// id makes the ID of a question or the path of its field.
func (a *attempt) id(name string) string { return a.o.Path + "." + name }

// ask notes a question and gives the ID of the choice to go by.
func (a *attempt) ask(name, asks, why, provisional string, choices ...remark.Choice) string {
	q := remark.Question{ID: a.id(name), Path: a.id("readings"), Asks: asks, Why: why, Choices: choices}
	taken := q.Settle(a.o.Answers, provisional)
	a.questions = append(a.questions, q)
	return taken
}

// notice notes what was assumed or stands out.
func (a *attempt) notice(code, text string) {
	n := remark.Notice{Code: code, Path: a.id("readings"), Text: text}
	if !slices.Contains(a.notices, n) { // two columns may have the same to tell
		a.notices = append(a.notices, n)
	}
}

// wrong marks a line as wrong because of what stands at an item, or of the
// whole line if item is negative.
//
// The item of a date may stand on another line, a heading of days: then that
// line is wrong, and this one is left out. One item is blamed once.
func (a *attempt) wrong(line, item int, wanted string) {
	if item >= 0 {
		if at := a.p.lineOf(item); at != line {
			a.ignore(line, "its day is not known")
			line = at
		}
		if a.blamed[item] {
			return
		}
		if a.blamed == nil {
			a.blamed = map[int]bool{}
		}
		a.blamed[item] = true
	}
	text := a.p.sheet.Lines[line].Text
	column, found := 1, strings.TrimSpace(text)
	if item >= 0 {
		it := &a.p.sheet.Items[item]
		column, found = scan.Column(text, it.From), text[it.From:it.To]
	}
	if r := []rune(found); len(r) > 60 {
		found = string(r[:60]) + "…"
	}
	a.lines[line].Use, a.lines[line].Why = Wrong, "expected "+wanted
	a.problems = append(a.problems, remark.Problem{
		Path: a.id("readings"), Line: line + 1, Column: column, Found: found, Wanted: wanted,
	})
}

// lineOf gives the line of an item.
func (p *paper) lineOf(item int) int {
	low, high := 0, len(p.sheet.Lines)
	for high-low > 1 { // the last line that begins at the item or before
		if middle := (low + high) / 2; p.sheet.Lines[middle].First <= item {
			low = middle
		} else {
			high = middle
		}
	}
	return low
}

// ignore leaves a line out, unless it is wrong.
func (a *attempt) ignore(line int, why string) {
	if a.lines[line].Use != Wrong {
		a.lines[line].Use, a.lines[line].Why = Ignored, why
	}
}

// blameStrays turns the lines that the paper found wrong into problems.
func (a *attempt) blameStrays() {
	for i, l := range a.p.lines {
		if l.Use != Wrong {
			continue
		}
		item := a.p.facts[i].firstNumber
		switch l.Why {
		case wrongFigure, wrongWide:
			item = a.p.lastItem(i)
		case wrongLost:
			items := a.p.sheet.Of(i)
			item = a.p.sheet.Lines[i].First + slices.IndexFunc(items, func(it scan.Item) bool { return it.Lost })
		}
		a.wrong(i, item, l.Why)
	}
}

// lastItem gives the last item of a line that is not its date, -1 if none.
func (p *paper) lastItem(line int) int {
	l := p.sheet.Lines[line]
	for i := l.Past - 1; i >= l.First; i-- {
		if p.sheet.Items[i].Kind != scan.DateOf {
			return i
		}
	}
	return -1
}

// refuse says why nothing could be read.
func (a *attempt) refuse() {
	wanted := "a day and its energy on each line, such as 3 Oct 2023  12.4 kWh"
	blank := true
	for i := range a.p.facts {
		f := &a.p.facts[i]
		blank = blank && f.blank
		if f.money == 0 && (!a.p.noEnergy || !a.p.allMoney()) {
			continue
		}
		for k := a.p.sheet.Lines[i].First; k < a.p.sheet.Lines[i].Past; k++ {
			if it := &a.p.sheet.Items[k]; it.Kind == scan.Number && (it.Unit == words.Money || it.Unit == 0 && a.p.noEnergy) {
				a.wrong(i, k, "energy, such as 12.4 kWh: these are amounts of money, not energy")
				a.lines[i].Why = "an amount of money, not energy"
				return
			}
		}
	}
	if word := a.p.quantity(); word != "" {
		wanted = "energy, such as 12.4 kWh: “" + word + "” is no unit of electric energy"
	}
	if blank {
		wanted = "readings: there is nothing to read. Paste " + wanted
	}
	a.problems = append(a.problems, remark.Problem{Path: a.id("readings"), Wanted: wanted})
	for i := range a.lines {
		if a.lines[i].Use == Used {
			a.lines[i].Use, a.lines[i].Why = Ignored, "no row of figures could be read"
		}
	}
}

// quantity gives the first word of a text that is a unit of another quantity
// than electric energy, "" if there is none.
func (p *paper) quantity() string {
	for i := range p.sheet.Lines {
		for _, word := range strings.FieldsFunc(p.sheet.Lines[i].Text, func(c rune) bool { return strings.ContainsRune(" \t,;|()[]:", c) }) {
			if folded := words.Fold(word); words.Measured(strings.TrimLeft(folded, "0123456789.,")) {
				return strings.TrimLeft(word, "0123456789.,")
			}
		}
	}
	return ""
}

// gives puts into words what a choice would give.
func gives(ledgers []ledger.Ledger) string {
	if len(ledgers) == 0 {
		return "no days"
	}
	var parts []string
	for _, l := range ledgers {
		var total energy.Energy
		known := 0
		for ei := range l.Days {
			e := &l.Days[ei]
			if e.State != ledger.Missing {
				total = plus(total, e.Energy)
				known++
			}
		}
		text := strings.TrimSuffix(l.Name+": ", ": ")
		if text != "" {
			text += ": "
		}
		if len(ledgers) == 1 {
			text = ""
		}
		parts = append(parts, text+l.Span().String()+", "+plural(known, "day")+" with "+total.String())
	}
	return strings.Join(parts, "; ")
}

// plural counts things: "1 day", "2 days".
func plural(n int, thing string) string {
	if n != 1 {
		thing += "s"
	}
	return strconv.Itoa(n) + " " + thing
}

// list names up to twelve days, and says how many more there are.
func list(days []calendar.Day) string {
	var out strings.Builder
	for i, d := range days {
		switch {
		case i == 12:
			out.WriteString(" and " + strconv.Itoa(len(days)-i) + " more")
			return out.String()
		case i > 0:
			out.WriteString(", ")
		}
		out.WriteString(d.Long())
	}
	return out.String()
}
