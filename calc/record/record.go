// Package record keeps what a file of interval readings came to: energy and
// coverage for each hour by the local clock, the gaps, and what was odd.
//
// A case keeps this instead of the file, as a text that a person can read (see
// Format); a year of one column has about 60 kB however many readings came in.
// Package series makes a record, calc.Work turns it into ledgers.
package record

import (
	"splittally/calc/calendar"
	"splittally/calc/energy"
)

// Record is what one file came to.
type Record struct {
	Source   Source
	Channels []Channel
	// Gaps are the stretches of time within the record that no reading of any
	// channel covers, in order of time; the first MaxGaps of them.
	Gaps     []Gap
	MoreGaps int // how many more there are
	Oddities []Oddity
}

// MaxGaps is how many gaps a record lists, MaxLines how many lines an oddity.
const (
	MaxGaps  = 2000
	MaxLines = 20
)

// Source says what a record was made of.
type Source struct {
	File  string // its name
	Bytes int64  // as read, unpacked
	Rows  int    // readings, of all channels together
	Step  int    // usual spacing of readings in seconds; 0 if there is none
	Zone  string // in words: whose clock the hours are by
	// Said is how the file was read, a short sentence each: what its stamps and
	// figures were taken for.
	Said []string
}

// Role says what a channel measures.
type Role string

// The roles.
const (
	Import     Role = "import"     // taken from the grid: what the utility's meter counts
	Export     Role = "export"     // fed into the grid
	Production Role = "production" // made in the home, by solar panels for one
	LegA       Role = "leg-a"      // legs or phases, which add up to the import
	LegB       Role = "leg-b"
	LegC       Role = "leg-c"
	Circuit    Role = "circuit" // a part of the home
)

// Channel is one column of a file, or one series of a feed.
type Channel struct {
	Name string // as its heading has it; may be empty
	Role Role
	Unit string // as read, in words, such as "kW, mean power"
	// Rounding is half of the last digit of one reading, as the energy of one
	// interval. Sums is false for a register, of whose reads only the first and
	// the last count.
	Rounding energy.Energy
	Sums     bool
	First    calendar.Day
	Days     []Day // from First on, without holes
}

// Day is a day of hours by the local clock.
type Day struct {
	Hours [24]Hour
	// Turn is +1 on a day whose clock was set back, so that hour TurnAt came
	// twice: Again is its second run. It is −1 on a day whose clock was set
	// forward, so that hour TurnAt never was.
	Turn   int8
	TurnAt uint8
	Again  Hour
}

// Hour is an hour by the clock.
type Hour struct {
	Energy energy.Energy
	// Covered is how much of the hour readings cover, in milliseconds; Whole is
	// all of it.
	Covered int32
	Marks   Marks
}

// Whole is the length of an hour in milliseconds.
const Whole = 3_600_000

// Marks are what else is known of an hour.
type Marks uint8

// The marks.
const (
	// Spread: the energy, or some of it, is the even share of a longer stretch
	// whose total is known, such as a register's across a gap. Covered counts it.
	Spread Marks = 1 << iota
	// Estimated: the source itself calls a reading of it estimated.
	Estimated
	// Begins: with the hour a total begins that is Spread, and none before it
	// runs into it.
	Begins
)

// Gap is a stretch without readings.
type Gap struct {
	// From and To are in milliseconds of the local clock, counted from
	// 1970-01-01 00:00 as if no clock were ever changed.
	From, To int64
	Length   int64 // true length in milliseconds, across a change of clocks too
	// Energy is what the first channel's register advanced over it, if Known.
	Energy energy.Energy
	Known  bool
}

// Kind is a kind of oddity.
type Kind string

// The kinds of oddities.
const (
	Duplicate  Kind = "duplicate"    // a reading that was there already, with the same figure; counted once
	Conflict   Kind = "conflict"     // the same time with another figure; the first was kept
	Overlap    Kind = "overlap"      // an interval that reaches into one that was there already; left out
	Disorder   Kind = "out-of-order" // a reading from before the one above it; put where it belongs
	Unreadable Kind = "unreadable"   // a line that has no readable time
	NoFigure   Kind = "no-figure"    // a cell that holds no number; its interval is a gap
	Reset      Kind = "reset"        // a register that began anew at zero
	RollOver   Kind = "roll-over"    // a register that passed its highest figure
	BelowZero  Kind = "below-zero"   // a figure below zero
	TooLarge   Kind = "too-large"    // a figure that no home can have; left out
	ClockBack  Kind = "clock-back"   // an hour came twice: the clock was set back
	ClockOn    Kind = "clock-on"     // an hour never was: the clock was set forward
	Finer      Kind = "finer"        // digits finer than a microwatt-hour, rounded
	Marked     Kind = "estimated"    // a reading that the source itself calls estimated
)

// Oddity is something odd that was met in a file, told by line.
type Oddity struct {
	Kind  Kind
	Count int
	Lines []int  // the first of them, from 1; none for a feed
	Told  string // an example in words, such as "03:00 on 12 Mar 2023"; may be empty
}
