// Package changes lays two cases side by side: what somebody who sent a case
// back has changed in it, item by item, and takes over what is wanted of that.
//
// Both walk the same way: two documents are merged field by field, days of
// readings day by day, lists with the items that belong together beside each
// other. What differs is an item; if its key is among those to take, the merged
// document has it as theirs.
package changes

import (
	"slices"

	"splittally/calc"
	"splittally/calc/document"
	"splittally/calc/ledger"
	"splittally/calc/link"
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
//
// The day of the last edit is none either: it always differs, and is taken over
// with anything else if it is the later one.
func Between(mine, theirs calc.Case) []Item {
	m := between(mine, theirs, nil)
	m.merge()
	return m.items
}

// Take gives my case with the items of these keys as theirs has them. Texts of
// readings in which nothing is taken stay as they are.
func Take(mine, theirs calc.Case, keys []string) calc.Case {
	m := between(mine, theirs, keys)
	n := m.merge()
	if m.count == 0 {
		return mine
	}
	var out calc.Case
	_ = document.Read(*n, out.Fields) // both of which it is made are documents of cases
	out.Answers = m.answers()
	return out
}

// merger lays theirs over mine.
type merger struct {
	mine, theirs calc.Case
	take         []string
	count        int // of what was taken
	items        []Item

	own   document.Flat   // mine
	clean []document.Flat // mine as it comes back from a link, in each way to write one
	days  [2]read         // mine and theirs
	// What became of the items of lists, by their paths: their numbers in the
	// merged case, of mine and of theirs; and the numbers of those that both have,
	// of mine in theirs and of theirs in mine.
	moved            [2]map[string]int
	paired, asTheirs map[string]int
	needed           map[string]string // answers that new texts of readings need
	redone           []string          // monitors, by path, whose text is new
}

// read is what the texts of a case were read as.
type read struct {
	monitors [][]ledger.Ledger
	meter    []ledger.Ledger
}

func between(mine, theirs calc.Case, keys []string) *merger {
	m := &merger{mine: mine, theirs: theirs, take: keys, own: flat(mine), needed: map[string]string{}, paired: map[string]int{}, asTheirs: map[string]int{}}
	bare := mine // readings are compared day by day
	bare.Monitors = slices.Clone(mine.Monitors)
	for i := range bare.Monitors {
		bare.Monitors[i].Readings = ""
	}
	bare.Meter.Readings = ""
	for i := range 4 {
		m.clean = append(m.clean, flat(link.Clean(bare, link.Options{Names: i&1 == 1, Hours: i&2 == 2})))
	}
	for i, c := range []calc.Case{mine, theirs} {
		m.days[i].monitors, m.days[i].meter = link.Days(c)
		m.moved[i] = map[string]int{}
	}
	return m
}

func flat(c calc.Case) document.Flat { return document.Flatten(document.Write(c.Fields)) }

// merge walks both documents.
func (m *merger) merge() *document.Node {
	a, b := document.Write(m.mine.Fields), document.Write(m.theirs.Fields)
	n := m.group("", "", &a, &b)
	m.answerItems()
	if m.theirs.Today > m.mine.Today && m.count > 0 {
		n.Set("today", document.Node{Text: m.theirs.Today})
	}
	return n
}

// wants notes an item and says whether it is taken.
func (m *merger) wants(key, where, what, mine, theirs string) bool {
	m.items = append(m.items, Item{key, where, what, mine, theirs})
	if !slices.Contains(m.take, key) {
		return false
	}
	m.count++
	return true
}

// same says that a field of mine is no other than theirs, or just what a link
// left of it.
func (m *merger) same(path, theirs string) bool {
	if m.own.Texts[path] == theirs {
		return true
	}
	for _, c := range m.clean {
		if c.Texts[path] == theirs {
			return true
		}
	}
	field := path[lastDot(path)+1:]
	return (field == "name" || field == "on") && link.Stands(theirs, m.own.Texts[path])
}
