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

	"github.com/shopspring/decimal"
)

// attempt works a paper out under one set of answers.
type attempt struct {
	p *paper
	o Options

	mark    rune // the decimal mark, '.' or ','
	units   []unitOf
	placed  []placed // the rows that have a day, in the order of the text
	ledgers []ledger.Ledger
	partial []calendar.Day  // days of which only a part was measured
	sums    []energy.Energy // of the figures of each column, as written
	counts  []int           // of these figures

	lines     []Line
	unitText  string
	problems  []remark.Problem
	questions []remark.Question
	notices   []remark.Notice
}

// placed is a row with its days.
type placed struct {
	row  int
	span calendar.Span // a day, or the days of a total
	gave []amount      // for each column
}

// amount is a figure with its unit worked in.
type amount struct {
	known    bool
	marked   bool // a mark says that there is no figure
	energy   energy.Energy
	rounding energy.Energy // half of the last digit
	top      energy.Energy // where a register that shows it rolls over
}

// attemptWith runs the stages. Each leaves the rows that it can't use marked as
// wrong and goes on with the others.
func attemptWith(p *paper, o Options) *attempt {
	a := &attempt{p: p, o: o, mark: '.', lines: slices.Clone(p.lines)}
	a.blameStrays()
	if len(p.rows) == 0 || len(p.columns) == 0 {
		a.refuse()
		return a
	}
	a.tellDates()
	a.settleMark()
	a.settleUnits()
	a.settleDays()
	a.weighRows()
	a.build()
	a.tellPartial()
	a.checkTotals()
	a.tellDropped()
	return a
}

func (a *attempt) result() Result {
	slices.SortStableFunc(a.problems, func(x, y remark.Problem) int { return x.Line - y.Line })
	return Result{Ledgers: a.ledgers, Lines: a.lines, Unit: a.unitText, Problems: a.problems, Questions: a.questions, Notices: a.notices}
}

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
func (a *attempt) wrong(line, item int, wanted string) {
	text := a.p.sheet.Lines[line].Text
	column, found := 1, strings.TrimSpace(text)
	if item >= 0 {
		it := a.p.sheet.Items[item]
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

// blameStrays turns the lines that the paper found wrong into problems.
func (a *attempt) blameStrays() {
	for i, l := range a.p.lines {
		if l.Use != Wrong {
			continue
		}
		item := a.p.facts[i].firstNumber
		if l.Why == wrongFigure {
			item = a.p.lastItem(i)
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
			if it := a.p.sheet.Items[k]; it.Kind == scan.Number && (it.Unit == words.Money || it.Unit == 0 && a.p.noEnergy) {
				a.wrong(i, k, "energy, such as 12.4 kWh: these are amounts of money, not energy")
				a.lines[i].Why = "an amount of money, not energy"
				return
			}
		}
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

// item gives the item of a row's column, nil if none stands there.
func (a *attempt) item(row, column int) *scan.Item {
	if i := a.p.rows[row].figures[column]; i >= 0 {
		return &a.p.sheet.Items[i]
	}
	return nil
}

// value gives the number of an item under the decimal mark.
func (a *attempt) value(it *scan.Item) (v decimal.Decimal, places int32, ok bool) {
	if len(it.Readings) == 0 {
		return v, 0, false
	}
	best := it.Readings[0]
	for _, r := range it.Readings[1:] {
		if best.Mark != a.mark && best.Mark != 0 && r.Mark == 0 {
			best = r
		}
	}
	return best.Value, best.Places, true
}

// weighRows turns the figures of the placed rows into energies.
func (a *attempt) weighRows() {
	a.sums, a.counts = make([]energy.Energy, len(a.p.columns)), make([]int, len(a.p.columns))
	room := make([]amount, len(a.placed)*len(a.p.columns))
	for i := range a.placed {
		pl := &a.placed[i]
		pl.gave, room = room[:len(a.p.columns):len(a.p.columns)], room[len(a.p.columns):]
		for c := range a.p.columns {
			pl.gave[c] = a.weigh(pl.row, c)
			if pl.gave[c].known {
				a.sums[c] = plus(a.sums[c], pl.gave[c].energy)
				a.counts[c]++
			}
		}
	}
}

// weigh gives the energy of one figure. One that is malformed makes its line
// wrong and its day missing.
func (a *attempt) weigh(row, column int) amount {
	it := a.item(row, column)
	if it == nil {
		return amount{marked: a.p.rows[row].figures[column] == noData}
	}
	line := a.p.rows[row].line
	v, places, ok := a.value(it)
	if !ok {
		a.wrong(line, a.p.rows[row].figures[column], wrongFigure)
		return amount{}
	}
	unit := a.unitFor(it, column).Size()
	e, _, err := energy.FromDecimal(v, unit)
	if err != nil || e.Abs() > mostEnergy || a.unitFor(it, column).IsPower() && e.Abs() > mostPower {
		a.wrong(line, a.p.rows[row].figures[column], "energy of a household, such as 12.4 kWh")
		return amount{}
	}
	half, _, err := energy.FromDecimal(decimal.New(5, -places-1), unit)
	if err != nil {
		half = 0
	}
	return amount{known: true, energy: e, rounding: half, top: topOf(v, unit)}
}

// Bounds of one figure, far beyond any home: 10 GWh and 100 MW. They keep the
// sums of a text within the range of an energy.
const (
	mostEnergy = 10_000 * energy.MegawattHour
	mostPower  = 100 * energy.MegawattHour // in an hour
)

// topOf gives where a register that shows v rolls over: the next power of ten.
func topOf(v decimal.Decimal, unit energy.Energy) energy.Energy {
	digits := len(v.Abs().Truncate(0).Coefficient().String())
	if digits > 12 {
		return 0
	}
	top, _, err := energy.FromDecimal(decimal.New(1, int32(digits)), unit)
	if err != nil {
		return 0
	}
	return top
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
		for _, e := range l.Days {
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
