package report

import (
	"strconv"
	"strings"

	"splittally/calc"
	"splittally/calc/billing"
	"splittally/calc/calendar"
	"splittally/calc/compare"
	"splittally/calc/fill"
	"splittally/calc/say"
)

// measured says which instruments there are, what they promise, and how many of
// the billed days each measured.
func (w *composer) measured() {
	t := &Table{
		Head:    []string{"Instrument", "Stated accuracy", "Readings", "Billed days", "Measured", "In part", "Filled"},
		Numbers: []bool{false, false, false, true, true, true, true},
	}
	days, from := 0, "billed energy"
	for _, p := range w.f.Periods {
		if p.Given {
			days += p.Days()
			if p.FromReads {
				from = "register reads"
			}
		}
	}
	class := "—"
	if _, c := w.leading(); len(c.Reference.Budget) > 0 {
		class = stated(c.Reference)
	}
	if own := w.f.MeterDays; own.Used > 0 || own.IsRecord {
		from += ", own days"
	}
	if days > 0 {
		t.Rows = append(t.Rows, []string{"The utility’s meter", class, from, strconv.Itoa(days), "—", "—", "—"})
	}
	for _, i := range w.told() {
		t.Rows = append(t.Rows, w.instrumentRow(&i))
	}
	w.section("What was measured, and how", Block{Table: t}, w.words(w.how(), w.recorded(), w.note()))
}

func (w *composer) instrumentRow(i *calc.Instrument) []string {
	sum := fill.Result{}
	for _, r := range i.Results {
		sum.Days = append(sum.Days, r.Filled.Days...)
		sum.Measured += r.Filled.Measured + r.Filled.Spread
		sum.Partial += r.Filled.Partial
		sum.Filled += r.Filled.Filled
	}
	accuracy := "—"
	if c, ok := total(i); ok {
		accuracy = stated(c.Indicated)
	}
	row := []string{i.Name, accuracy, "none"}
	if len(i.Ledger.Days) > 0 {
		row[2] = spanned(i.Ledger.Span())
	}
	for _, n := range []int{len(sum.Days), sum.Measured, sum.Partial, sum.Filled} {
		row = append(row, strconv.Itoa(n))
	}
	return row
}

// stated is the accuracy that one side promises, as it stands in its budget.
func stated(a compare.Amount) string {
	for _, p := range a.Budget {
		if p.Promise && p.Unit == "%" {
			said := "± " + say.Plain(p.HalfWidth, places(p.HalfWidth)) + say.Thin + "%"
			if p.Assumed {
				said += ", assumed"
			}
			return said
		}
	}
	return "—"
}

// places is how many decimals a stated figure has, three at most.
func places(x float64) int {
	text := strconv.FormatFloat(x, 'f', -1, 64)
	_, behind, _ := strings.Cut(text, ".")
	return min(3, len(behind))
}

// spanned writes the days of a span with as few letters as tell them.
func spanned(s calendar.Span) string {
	if s.Days() == 0 {
		return "—"
	}
	first := s.First.Long()
	if a, _, _ := s.First.Date(); a == year(s.Last()) {
		first = s.First.Short()
	}
	return strings.ReplaceAll(first+" – "+s.Last().Long(), " ", "\u00a0")
}

func year(d calendar.Day) int {
	y, _, _ := d.Date()
	return y
}

// how says what the figures are, and how days without figures were filled.
func (w *composer) how() string {
	said := "Percentage error = 100 × (monitor − meter) ÷ meter, over exactly the days that a bill covers. ± is the " +
		strconv.FormatFloat(100*w.f.Confidence, 'g', 4, 64) + say.Thin + "% interval, reckoned by JCGM 100:2008."
	var ways []fill.Method
	if w.room[mostMethods] == 0 {
		return said
	}
	for _, i := range w.f.Instruments {
		for _, r := range i.Results {
			for _, way := range r.Filled.Ways() {
				if !has(ways, way.Method) {
					ways = append(ways, way.Method)
				}
			}
		}
	}
	for n, m := range ways {
		lead := "; or "
		if n == 0 {
			lead = " Days that are not measured whole were filled by "
		}
		said += lead + m.Words()
	}
	if len(ways) > 0 {
		said += "."
	}
	return said
}

func has(list []fill.Method, m fill.Method) bool {
	for _, x := range list {
		if x == m {
			return true
		}
	}
	return false
}

// note is what the owner wants to be known.
func (w *composer) note() string {
	if note := clean(w.c.Note); note != "" {
		short := cut(note, w.room[mostLetters]/2-20)
		w.left = w.left || short != note
		return "Note of the owner: " + short
	}
	return ""
}

// recorded tells of the files that readings came from.
func (w *composer) recorded() string {
	var said []string
	for n := range w.f.Readings {
		if r := &w.f.Readings[n]; r.IsRecord {
			said = append(said, "Readings of monitor "+strconv.Itoa(n+1)+" from a file: "+say.Readings(r.Record.Source)+"; without readings: "+say.Lost(r.Record)+".")
		}
	}
	if r := &w.f.MeterDays; r.IsRecord {
		said = append(said, "Readings of the meter from a file: "+say.Readings(r.Record.Source)+".")
	}
	return w.inline(said, 3, " ", "file")
}

// errors sets the bills beside the instruments, two instruments to a table.
func (w *composer) errors() {
	var blocks []Block
	all := w.told()
	for at := 0; at < len(all); at += 2 {
		blocks = append(blocks, Block{Table: w.errorTable(all[at:min(at+2, len(all))])})
	}
	if len(all) == 0 {
		blocks = append(blocks, Block{Table: w.errorTable(nil)})
	}
	stories := []string{w.unlisted(len(all)), w.unfinished()}
	if w.compares() {
		stories = append([]string{"* More than everything uncertain can explain. ? Cannot be told yet. Without a sign: they agree. est.: rests on an estimated read."}, stories...)
	}
	for _, i := range all {
		if i.IsPooled {
			stories = append(stories, w.of(&i)+strings.TrimSpace(say.Consistency(i.Pooled)+" "+say.Drift(i.Pooled)))
		}
	}
	w.section("Bills and errors", append(blocks, w.words(stories...))...)
}

// unlisted counts the instruments that have no table.
func (w *composer) unlisted(listed int) string {
	n := len(w.f.Instruments) - listed
	if n == 0 {
		return ""
	}
	w.left = true
	return say.Counted(n, "more instrument is", "more instruments are") + " not set out here; the tables for a spreadsheet have them."
}

// unfinished counts the bills of which something is missing.
func (w *composer) unfinished() string {
	n, why := 0, ""
	for _, p := range w.f.Periods {
		if !p.Given {
			n, why = n+1, p.Waits
		}
	}
	if n == 0 {
		return ""
	}
	return say.Counted(n, "bill is", "bills are") + " not complete: " + why + "."
}

func (w *composer) compares() bool {
	i, _ := w.leading()
	return i != nil
}

func (w *composer) errorTable(of []calc.Instrument) *Table {
	t := &Table{Head: []string{"Bill", "Dates", "Days", "Meter, kWh"}, Numbers: []bool{true, false, true, true}}
	for _, i := range of {
		t.Head = append(t.Head, cut(i.Name, longHead)+", kWh", "filled", "error")
		t.Numbers = append(t.Numbers, true, true, true)
	}
	given := 0
	for _, p := range w.f.Periods {
		if p.Given {
			given++
		}
	}
	skip := max(0, given-w.room[mostBills])
	for n, p := range w.f.Periods {
		if !p.Given {
			continue
		}
		if skip--; skip >= 0 {
			continue
		}
		t.Rows = append(t.Rows, errorRow(of, n, p))
	}
	if skipped := given - len(t.Rows); skipped > 0 {
		w.left = true
		t.Caption = "The last " + strconv.Itoa(len(t.Rows)) + " bills; " + strconv.Itoa(skipped) + " before them count in the sum."
	}
	if last := sumRow(of); last != nil {
		t.Rows = append(t.Rows, last)
	}
	return t
}

func errorRow(of []calc.Instrument, n int, p billing.Statement) []string {
	meter := shown(p.Reference.Text(3))
	if p.Net {
		meter = "net of credits"
	} else if p.StartEstimated || p.EndEstimated {
		meter += " est."
	}
	row := []string{strconv.Itoa(n + 1), spanned(p.Span), strconv.Itoa(p.Days()), meter}
	for _, i := range of {
		r := i.Results[n]
		if len(r.Filled.Days) == 0 {
			row = append(row, "—", "—", "—")
			continue
		}
		row = append(row, shown(r.Filled.Total.Text(2)), strconv.Itoa(r.Filled.Filled), marked(r.Compared, r.Compares()))
	}
	return row
}

// sumRow takes all bills together, if an instrument is pooled.
func sumRow(of []calc.Instrument) []string {
	row := []string{"", "All together", "", ""}
	any := false
	for _, i := range of {
		if !i.IsPooled {
			row = append(row, "—", "—", "—")
			continue
		}
		c, days, filled := i.Pooled.Total, 0, 0
		for _, r := range i.Results {
			if r.Compares() {
				days, filled = days+len(r.Filled.Days), filled+r.Filled.Filled
			}
		}
		if any && row[3] != shown(c.Reference.Energy.Text(3)) {
			row[2], row[3] = "", "" // they are not over the same bills
		} else {
			row[2], row[3] = strconv.Itoa(days), shown(c.Reference.Energy.Text(3))
		}
		any = true
		row = append(row, shown(c.Indicated.Energy.Text(2)), strconv.Itoa(filled), marked(c, true))
	}
	if !any {
		return nil
	}
	return row
}

// marked is an error with its interval and a sign for the verdict.
func marked(c compare.Comparison, compares bool) string {
	if !compares {
		return "—"
	}
	switch c.Verdict {
	case compare.DifferHigh, compare.DifferLow:
		return say.Error(c) + " *"
	case compare.CannotTell:
		return say.Error(c) + " ?"
	}
	return say.Error(c)
}

// shown drops the zeros behind a decimal point, and writes a true minus.
func shown(number string) string {
	if strings.Contains(number, ".") {
		number = strings.TrimRight(strings.TrimRight(number, "0"), ".")
	}
	return minus(number)
}
