// Package interval reads a file of interval readings as it comes in, in chunks
// of any size and in memory that does not grow with it: columns (package table)
// or an ESPI feed (package espi), told apart by the first bytes.
//
// The page hands over chunks; what comes of them does not depend on where they
// are cut. The step after is the record, which the case keeps.
package interval

import (
	"splittally/calc/record"
	"splittally/calc/remark"
	"splittally/calc/table"
	"splittally/calc/zone"
)

// Options is what is known of a file before it is read.
type Options struct {
	File  string // its name
	Bytes int64  // its length, as far as known; for a packed file that of the packed bytes
	// Zone has the rules of the person's own clock, for files that give points
	// of time and no clock.
	Zone zone.Rules
	// Settings are what the person has set right: table.Setting IDs -> choices.
	Settings map[string]string
}

// Found is what a file came to.
type Found struct {
	// Kind says in words what the file is, such as "columns of readings" or
	// "an ESPI feed". It is empty if it is neither.
	Kind string
	// Text is the file itself, if it is a short text that holds no interval
	// readings: daily totals, to be read as if they were pasted.
	Text     string
	Settings []table.Setting
	Preview  Preview
	// Records are what can be taken from it: one of a file of columns, one for
	// each meter of a feed.
	Records []Candidate
	// Bills are the billing periods that a feed tells of.
	Bills    []Bill
	Problems []remark.Problem // why nothing, or not all, could be read
	Notices  []string         // what the person should know, a sentence each
}

// Candidate is one record that a file offers.
type Candidate struct {
	Name   string // such as "Electricity, delivered"
	Usable bool   // false for gas, water and figures that are no energy
	Why    string // why it is not usable
	Record record.Record
}

// Preview shows the first readings as they were understood.
type Preview struct {
	Heads []string // "Interval", the columns that are read, "As written"
	Rows  [][]string
}

// Bill is a billing period of a feed's usage summary, as texts for the fields
// of a period.
type Bill struct {
	From, To string // days, as in calc.Case
	KWh      string
	Total    string // what was charged; empty if not told
	Words    string // in one sentence
}
