// Package link carries a whole case in the fragment of an address: the numbers,
// dates, bills, checks and tariffs, never the text that readings were pasted as.
//
// It reads and writes calc.Case. The page puts the fragment behind its own
// address; a browser sends no fragment to anybody.
package link

import (
	"splittally/calc"
)

// Options say what goes with the numbers.
type Options struct {
	// Names lets titles, notes and all names of people's own go along: of
	// monitors, legs, tariffs, their rows and the lines of bills.
	Names bool
	// Hours lets the hours of files go along, not their days alone: some ten
	// thousand characters a year and column.
	Hours bool
}

// Write gives the fragment of a case, without the #. It consists of letters and
// digits alone, so that no forum cuts an address off in it.
func Write(c calc.Case, o Options) string { panic("to come") }

// Is says that a fragment was meant to hold a case, of any version.
func Is(fragment string) bool { panic("to come") }

// Read gives the case of a fragment. Its error is a sentence for whoever
// opened the link.
func Read(fragment string) (calc.Case, error) { panic("to come") }
