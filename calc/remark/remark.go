// Package remark holds what the calculation has to say besides numbers:
// problems with what was typed, questions where the input is truly ambiguous,
// and notices of what was assumed or stands out.
//
// They travel inside results. Nothing is printed, nothing is thrown away.
package remark

import "fmt"

// Problem is one thing wrong in what was typed. Everything else is kept.
type Problem struct {
	// Path names the field, such as "periods.1.kwh". Numbers count from 0.
	Path string
	// Line and Column are the place within a text of several lines. They count
	// from 1, columns in characters as a person would. Both are 0 where the
	// whole field is meant.
	Line, Column int
	Found        string // the text that was met
	Wanted       string // what would have been accepted, in words, with an example
}

// String gives the problem as one sentence, without its path.
func (p Problem) String() string {
	where := ""
	if p.Line > 0 {
		where = fmt.Sprintf("line %d, column %d: ", p.Line, p.Column)
	}
	if p.Found == "" {
		return where + "expected " + p.Wanted
	}
	return fmt.Sprintf("%sfound “%s”, expected %s", where, p.Found, p.Wanted)
}

// Question is asked where the input can be read in more than one way and
// nothing in it decides.
type Question struct {
	ID      string // stable name; the answer is kept under it. Path-like, such as "monitors.0.day-order"
	Path    string // the field that it is about
	Asks    string // the question, one sentence that ends with a question mark
	Why     string // what made it doubtful, one sentence
	Choices []Choice
	// Taken is the ID of the choice that the results rest on.
	Taken string
	// Answered is false while Taken is only the provisional choice.
	Answered bool
}

// Choice is one way to answer a Question.
type Choice struct {
	ID    string // stable name within the question
	Label string // the choice in words
	Gives string // what it would give, such as "3 Apr 2023 to 6 Jul 2023, 74.0 kWh"
}

// Settle fills in Taken and Answered from the answers given so far: answers
// maps question IDs to choice IDs. An answer that is no longer among the
// choices is passed over, so that a changed text is asked about afresh.
func (q *Question) Settle(answers map[string]string, provisional string) string {
	q.Taken, q.Answered = provisional, false
	for _, c := range q.Choices {
		if given := answers[q.ID]; given != "" && given == c.ID {
			q.Taken, q.Answered = c.ID, true
		}
	}
	return q.Taken
}

// Notice tells what was assumed, or what stands out, and stops nothing.
type Notice struct {
	Code string // stable name of the kind of notice, such as "days-absent"
	Path string // the field that it is about
	Text string // one or two sentences
}
