package report

import (
	"strconv"
	"strings"

	"splittally/calc"
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
