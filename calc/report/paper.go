package report

import "splittally/calc"

// Paper is the report of a case for somebody else: a printed page of at most
// two sheets, and the same as Markdown and as plain text. It says what was
// measured and how, the errors with their intervals, the budget, the causes,
// the corrections, the money, and how to check all of it by hand.
type Paper struct {
	Title    string
	Lead     []string // the verdicts, a sentence for each instrument
	Sections []Section
	Stamp    string // date, version and hash of the engine
}

// Section is a part of the report under a heading of its own.
type Section struct {
	Title  string
	Blocks []Block
}

// Block is one of these: paragraphs, a list, a table or a picture.
type Block struct {
	Words   []string // paragraphs
	Points  []string // a list
	Table   *Table
	Picture string // names a picture that the page draws: "stick", "days"; texts leave it out
}

// Table is a table with a head. Columns of numbers are set to the right.
type Table struct {
	Caption string
	Head    []string
	Numbers []bool // by column
	Rows    [][]string
}

// About is what a report says of itself.
type About struct {
	Today   string // year-month-day, on which it is made
	Version string // of the program
	Engine  string // hash of the engine, short
}

// Compose makes the report. It is bounded: what would not fit two sheets is
// counted instead, with where it can be had.
func Compose(c calc.Case, f calc.Findings, a About) Paper { panic("to come") }
