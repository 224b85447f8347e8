package report

import (
	"strconv"
	"strings"

	"splittally/calc"
	"splittally/calc/billing"
	"splittally/calc/compare"
	"splittally/calc/say"
)

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
		stories = append([]string{w.key()}, stories...)
	}
	for _, i := range all {
		if i.IsPooled {
			stories = append(stories, w.of(&i)+strings.TrimSpace(say.Consistency(i.Pooled)+" "+say.Drift(i.Pooled)))
		}
	}
	w.section("Bills and errors", append(blocks, w.words(stories...))...)
}

// key explains the signs in the table of bills.
func (w *composer) key() string {
	said := "* More than everything uncertain can explain. ? Cannot be told yet. Without a sign: they agree."
	for _, p := range w.f.Periods {
		if p.StartEstimated || p.EndEstimated {
			return said + " est.: rests on an estimated read."
		}
	}
	return said
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
		if !p.Given && !untouched(p) {
			n, why = n+1, p.Waits
		}
	}
	if n == 0 {
		return ""
	}
	return say.Counted(n, "bill is", "bills are") + " not complete: " + why + "."
}

// untouched says that nothing was typed of a bill by which it could be told.
func untouched(p billing.Statement) bool {
	return !p.Given && !p.Dated && !p.HasBegun && p.Billed == 0
}

func (w *composer) compares() bool {
	i, _ := w.leading()
	return i != nil
}

func (w *composer) errorTable(of []calc.Instrument) *Table {
	t := &Table{Head: []string{"Bill", "Dates", "Days", "Meter, kWh"}, Numbers: []bool{true, false, true, true}}
	for _, i := range of {
		t.Head = append(t.Head, short(i.Name, longHead)+", kWh", "filled", "error")
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
	isPooled := false
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
		if isPooled && row[3] != shown(c.Reference.Energy.Text(3)) {
			row[2], row[3] = "", "" // they are not over the same bills
		} else {
			row[2], row[3] = strconv.Itoa(days), shown(c.Reference.Energy.Text(3))
		}
		isPooled = true
		row = append(row, shown(c.Indicated.Energy.Text(2)), strconv.Itoa(filled), marked(c, true))
	}
	if !isPooled {
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
