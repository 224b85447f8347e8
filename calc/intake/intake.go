// Package intake turns what a person pasted into ledgers of daily energy.
//
// The stages, each in files named for it:
//
//  1. scan cuts the text into lines and items (package scan).
//  2. paper finds the rows of the table: which line holds a day and a figure,
//     which is a heading, a total or prose; and the columns of figures.
//  3. attempt works the rows out: decimal mark, unit, order of day and month,
//     year, and what the figures are (daily energy, register reads, intervals,
//     totals of weeks). Where the text does not decide it takes the answer
//     given, or a provisional choice, and notes a question. Intervals within
//     days are summed to days, and kept as slots by the clock (slots).
//  4. Each choice of each question is tried in an attempt of its own, so that
//     what a choice is said to give is what it does give.
//
// The next step is filling the days that are missing; intake fills none.
package intake

import (
	"maps"
	"strings"

	"splittally/calc/calendar"
	"splittally/calc/intake/scan"
	"splittally/calc/ledger"
	"splittally/calc/remark"
)

// Options is what else is known when a text is read.
type Options struct {
	// Path is the path of the monitor, such as "monitors.0"; the IDs of
	// questions and the paths of problems begin with it.
	Path string
	// Answers maps the IDs of questions to those of the choices taken.
	Answers map[string]string
	// Near is the days that the bills cover; empty if that is not known. It
	// decides a missing year, and weighs in the order of day and month.
	Near calendar.Span
	// Today is the day on which the readings were last edited, 0 if not known.
	// Readings are not from later days.
	Today calendar.Day
}

// Use says what became of a line.
type Use uint8

// The uses of a line.
const (
	Ignored Use = iota
	Used
	Wrong
)

// Line accounts for one line of the text.
type Line struct {
	Number int // from 1
	Use    Use
	Why    string // in words; empty for a plainly used row
}

// Result is what a text holds.
type Result struct {
	Ledgers   []ledger.Ledger // one for each column of figures
	Lines     []Line          // each line of the text, once, in order
	Unit      string          // the unit as understood, such as "kWh" or "Wh, from the heading"
	Problems  []remark.Problem
	Questions []remark.Question
	Notices   []remark.Notice
}

// Limits of a text. They keep a mistaken paste from stopping the page.
const (
	maxBytes   = 20 << 20
	maxLines   = 200_000
	maxColumns = 24
)

// Read reads a text. It never fails: what can't be read is among the problems,
// and everything else is kept.
func Read(text string, o Options) Result {
	if len(text) > maxBytes || strings.Count(text, "\n")+strings.Count(text, "\r") > maxLines {
		return Result{Problems: []remark.Problem{{
			Path: o.Path + ".readings", Wanted: "a text of at most 20 MB and 200,000 lines, such as daily totals",
		}}}
	}
	t := layText(text)
	r := t.attempt(o).result()
	for i, q := range r.Questions {
		for j, c := range q.Choices {
			trial := o
			trial.Answers = maps.Clone(o.Answers)
			if trial.Answers == nil {
				trial.Answers = map[string]string{}
			}
			trial.Answers[q.ID] = c.ID
			r.Questions[i].Choices[j].Gives = gives(t.attempt(trial).ledgers)
		}
	}
	return r
}

// laid is a text laid out in each way in which its commas can be understood.
type laid struct {
	likely *paper
	other  *paper // nil if there is no doubt
}

func layText(text string) laid {
	s := scan.Read(text)
	t := laid{likely: lay(s)}
	if s.Doubtful {
		other := byte(scan.DecimalCommas + ',' - s.Delimiter)
		t.other = lay(scan.ReadParted(text, other))
	}
	return t
}

// attempt works the text out under one set of answers.
func (t laid) attempt(o Options) *attempt {
	if t.other == nil {
		return attemptWith(t.likely, o)
	}
	decimals, columns := t.likely, t.other
	if t.likely.sheet.Delimiter == ',' {
		decimals, columns = columns, decimals
	}
	q := remark.Question{
		ID: o.Path + ".commas", Path: o.Path + ".readings",
		Asks: "Do the commas part columns, or decimals too?", Why: "Behind the days are only whole numbers, two by two.",
		Choices: []remark.Choice{{ID: "decimals", Label: "Decimals: each two numbers are one figure"}, {ID: "columns", Label: "Columns: each number is a figure of its own"}},
	}
	provisional := "decimals"
	if t.likely == columns {
		provisional = "columns"
	}
	p := decimals
	if q.Settle(o.Answers, provisional) == "columns" {
		p = columns
	}
	a := attemptWith(p, o)
	a.questions = append([]remark.Question{q}, a.questions...)
	return a
}
