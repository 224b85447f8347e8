// Package view turns findings into what the page shows: markup for its slots
// and sentences for its fields. It is pure and knows no browser.
//
// The step before is calc.Work, the step after wasm/page, which puts the markup
// into the slots of the same name. Everything that comes from a person or a
// file passes through package markup, which escapes it.
package view

import (
	"strconv"
	"strings"
	"unicode/utf8"

	"splittally/calc"
	"splittally/calc/chart/markup"
)

// Drawing is what the page shows for a case.
type Drawing struct {
	Slots map[string]string // markup by the slot's path; a slot that is not in it is empty
	Says  map[string]string // what is wrong at a field, by the field's path
	Short string            // the verdict bar's text
}

// Render draws the findings of a case. open holds the ids of the parts that are
// unfolded; the others are drawn without what is inside.
func Render(c calc.Case, f calc.Findings, open map[string]bool) Drawing {
	s := newSheet(c, f, open)
	s.first()
	s.put("causes", s.causes())
	s.put("corrections", s.corrections())
	s.put("legs", s.legs())
	s.put("timing", s.timing())
	s.runs()
	s.put("together", s.together())
	s.put("metered", s.metered())
	s.put("paired", s.paired())
	s.put("accounts", s.accounts())
	s.put("worth", s.worth())
	s.put("running", s.running())
	s.put("choices", s.choices())
	s.planWaits()
	s.put("meter.lines", s.lines(pasted{"meter", "meter.readings", c.Meter.Readings, f.MeterDays}))
	return s.drawing()
}

// First draws what calc.Memory.Verdict finds, as Render does.
func First(c calc.Case, f calc.Findings, open map[string]bool) Drawing {
	s := newSheet(c, f, open)
	s.first()
	return s.drawing()
}

func newSheet(c calc.Case, f calc.Findings, open map[string]bool) *sheet {
	f.Problems = told(c, f.Problems)
	return &sheet{c: c, f: f, open: open, slots: map[string]string{}}
}

func (s *sheet) first() {
	s.put("verdict", s.verdict())
	s.put("mend", s.mend())
	s.put("stick", s.sticks())
	s.put("totals", s.totals())
	s.put("results", s.results())
	s.put("intervals", s.intervals())
	s.unknowns()
	s.put("notices", s.notices())
	for i, r := range s.f.Readings {
		at := "monitors." + strconv.Itoa(i)
		s.put(at+".lines", s.lines(pasted{id("monitor", i), at + ".readings", s.c.Monitors[i].Readings, r}))
	}
	s.questions()
	s.put("bar", s.bar())
}

func (s *sheet) drawing() Drawing {
	return Drawing{Slots: s.slots, Says: s.says(), Short: s.short()}
}

// Pictures draws what need not follow each key: the slots that IsPicture names.
// A year of hours takes as long to draw as all the rest.
func Pictures(c calc.Case, f calc.Findings, open map[string]bool) map[string]string {
	s := &sheet{c: c, f: f, open: open, slots: map[string]string{}}
	s.put("loads", s.loads())
	s.put("outages", s.outages())
	return s.slots
}

// IsPicture says that Pictures draws a slot, and Render does not.
func IsPicture(slot string) bool { return slot == "loads" || slot == "outages" }

// sheet is one case on its way to the page.
type sheet struct {
	c     calc.Case
	f     calc.Findings
	open  map[string]bool
	slots map[string]string
}

func (s *sheet) put(slot string, m piece) {
	if inside, ok := m.(markup.Markup); ok && !inside.Empty() {
		s.slots[slot] += inside.String()
	}
}

// pair is one instrument over one period.
type pair struct {
	instrument, period int
	calc.Result
}

// pairs gives all instruments over all periods, a period's instruments together.
func (s *sheet) pairs() []pair {
	var out []pair
	for p := range s.f.Periods {
		for i, inst := range s.f.Instruments {
			if p < len(inst.Results) {
				out = append(out, pair{i, p, inst.Results[p]})
			}
		}
	}
	return out
}

// compared gives the pairs that have a percentage error.
func (s *sheet) compared() []pair {
	var out []pair
	for _, p := range s.pairs() {
		if p.Compares() {
			out = append(out, p)
		}
	}
	return out
}

func (s *sheet) name(p pair) string { return s.f.Instruments[p.instrument].Name }

// bill names a period: "bill 2", or "the bill" if there is one alone.
func (s *sheet) bill(period int) string {
	dated := 0
	for _, b := range s.f.Periods {
		if b.Dated {
			dated++
		}
	}
	if dated == 1 && s.f.Periods[period].Dated {
		return "the bill"
	}
	return "bill " + strconv.Itoa(period+1)
}

// id makes an id of a word and numbers that name one thing on the page.
func id(word string, numbers ...int) string {
	for _, n := range numbers {
		word += "-" + strconv.Itoa(n)
	}
	return word
}

// uncapital takes the capital of a name within a sentence.
func uncapital(text string) string {
	_, size := utf8.DecodeRuneInString(text)
	return strings.ToLower(text[:size]) + text[size:]
}

// capital gives a sentence its capital.
func capital(text string) string {
	_, size := utf8.DecodeRuneInString(text)
	return strings.ToUpper(text[:size]) + text[size:]
}
