// Package changes lays two cases side by side: what somebody who sent a case
// back has changed in it, item by item, and takes over what is wanted of that.
package changes

import (
	"splittally/calc"
)

// Item is one thing that differs: a field, a day of readings, or something that
// one of the cases has and the other lacks.
type Item struct {
	Key          string // names the item to Take; the same for the same two cases
	Where        string // in words: "Bill 2", "Upstairs clamp", "The tariff"
	What         string // in words: "billed energy", "3 Oct 2026"
	Mine, Theirs string // as shown, with units; empty for none
}

// Between gives what differs, in the order of the page. Readings are compared
// day by day as numbers, whatever text they came from; names and notes that a
// link left out are no difference.
func Between(mine, theirs calc.Case) []Item { panic("to come") }

// Take gives my case with the items of these keys as theirs has them. Texts of
// readings in which nothing is taken stay as they are.
func Take(mine, theirs calc.Case, keys []string) calc.Case { panic("to come") }
