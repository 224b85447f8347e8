// Package table reads files of interval readings in columns: it finds out from
// the head of a file how it is laid out (Find), and then reads its rows as
// bytes, in chunks of any size (Reader).
//
// The step after is package series, which gets every reading once.
package table

import (
	"splittally/calc/energy"
	"splittally/calc/record"
	"splittally/calc/series"
)

// Layout is how a file is to be read. Find makes it; every part of it that is
// not certain is among the Settings, with which a person can correct it.
type Layout struct {
	Delimiter byte // between cells: ',', ';', '\t', '|', or ' ' for any run of blanks
	Quoted    bool // cells may stand in double quotes
	Decimal   byte // '.' or ','
	Group     byte // the thousands mark within figures, ' ' and '\'' for all their likenesses; 0 if there is none
	Skip      int  // lines before the first row of readings
	Stamp     Stamp
	Columns   []Column // all columns of the file, in order
	Step      int64    // usual spacing in milliseconds; 0 if uneven
	Ends      bool     // a stamp is the end of its interval
	Newest    bool     // the newest row comes first
}

// Stamp is how the times are written.
type Stamp struct {
	Date, Time int // the columns; Time is −1 if one cell has both
	// Hours says that the column Time has the numbers of hours: 5 is 05:00, and
	// 24 the end of the day.
	Hours bool
	Form  Form
	Zone  Zone
}

// Form is a form of dates. The clock after it may be of 12 or 24 hours, with or
// without seconds and fractions; 24:00 is the end of the day.
type Form uint8

// The forms of dates. Any of - / . or a space may part their numbers; a year may
// have two digits where it comes last; a month may be a name.
const (
	YearFirst  Form = iota // 2024-03-01, 20240301
	DayFirst               // 1/3/2024, 01.03.24, 1 Mar 2024
	MonthFirst             // 3/1/2024, Mar 1 2024
	Seconds                // Unix seconds, perhaps with a fraction
	Millis                 // Unix milliseconds
	Serial                 // days since 1899-12-30, as spreadsheets count them, with a fraction
)

// Zone says whose clock the stamps show.
type Zone uint8

// The zones of stamps.
const (
	Local   Zone = iota // the wall clock's, without an offset
	Offset              // each stamp has its offset, and the wall clock there is meant
	Instant             // points of time (Unix times, or UTC): Reader needs the rules of a zone
)

// Column is one column of a file.
type Column struct {
	Name string // of its heading; may be empty
	// Used says that its figures are read. The times' own columns are not.
	Used     bool
	Role     record.Role
	Quantity series.Quantity
	Unit     string // such as "kWh"
	// Scale is the size of one unit in µWh (or µW): 10⁹ for kWh and kW.
	Scale energy.Energy
	// Places is how many decimals the head shows at most.
	Places int
	// Sign is −1 if the figures count the other way, else 1.
	Sign int
	// Apart says that, after Sign, figures below zero are no part of Role, the
	// import, but are fed into the grid; else they are taken off.
	Apart bool
}

// Setting is one thing about a file that a person can set right.
type Setting struct {
	ID      string // such as "order", "stamps", "zone", "column.2.role", "column.2.unit"
	Label   string // in words, such as "Dates are written"
	Why     string // what speaks for the choice taken; empty if it is plain
	Choices []Choice
	Taken   string // the ID of the choice taken
	// Sure is false if the file does not decide it, and true if it does or the
	// person has.
	Sure bool
}

// Choice is one choice of a Setting.
type Choice struct{ ID, Label string }
