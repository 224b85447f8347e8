// Package outage makes events of the gaps of a record: when an instrument was
// silent, what was probably used meanwhile, and whether it looks as if the power
// was gone or only the connection.
//
// The step before is a record with its ledger; those who show the findings read
// what it gives.
//
// # One event
//
// Two gaps are one event if the readings between them cover no more than ten
// minutes, or no more than one reading and less than either gap. A supply that
// comes back hesitantly, and an instrument that starts twice, are over within
// minutes (a choice of this package).
//
// # What it looks like
//
// The rules are tried in this order; the first that speaks decides. Their
// numbers are choices of this package: common practice, no source.
//
//   - A register that went on counting over the gap by more than a fifth of what
//     is usual: the instrument measured, so that only its readings were lost.
//   - A register that did not go on, though usual use would show clearly in it:
//     the instrument had no power. Either the whole home had none, and used
//     nothing, or the instrument alone; that cannot be told.
//   - The first reading after the gap holds about what is usual for the gap on
//     top of its own: the energy was sent later, in one.
//   - At least six gaps in more than half an hour: readings were lost on the way.
//     No supply flickers for so long.
//   - Two to five gaps within half an hour, the last of which is the longest and
//     no longer than a quarter of an hour: the supply flickered, and then the
//     instrument started anew.
//   - A gap of three hours or more: the connection was lost, since a supply is
//     mostly back sooner.
//   - All else cannot be told. A single gap of minutes is what a lost reading, a
//     restart and a short interruption all look like.
package outage

import (
	"splittally/calc/energy"
	"splittally/calc/fill"
	"splittally/calc/ledger"
	"splittally/calc/record"
)

// Kind says what an event looks like.
type Kind string

// The kinds.
const (
	Power      Kind = "power"      // the instrument had no power
	Connection Kind = "connection" // it measured, or may have, and its readings were lost or late
	Untold     Kind = "untold"     // it cannot be told
)

// Outage is one event.
type Outage struct {
	// From and To are in milliseconds of the local clock, as in record.Gap;
	// readings in between are inside if the event has several gaps.
	From, To int64
	Length   int64 // of its gaps together, true length in milliseconds
	Gaps     int   // of which it consists
	// Energy is what its gaps brought: known, if Known, from a register; else
	// estimated by the usual shape of days, with its standard uncertainty in kWh.
	// Estimated says that there is an estimate; a ledger without hours has none.
	Energy           energy.Energy
	Standard         float64
	Known, Estimated bool
	// Late says that the reading after it seems to hold its energy already, so
	// that filling the gap counts it twice.
	Late bool
	Kind Kind
	Why  string // in one sentence
}

// Found is what the gaps of a record come to.
type Found struct {
	Outages []Outage // the longest, in the order of time
	// More counts the events left out, MoreLength their length in milliseconds.
	More       int
	MoreLength int64
}

// Most is how many events are listed.
const Most = 100

// Of makes events of gaps, which are in the order of time. l is the ledger of
// the record they are from; step is its usual spacing in milliseconds, 0 if it
// has none. The largest lengths win; of equals the earlier.
func Of(gaps []record.Gap, l ledger.Ledger, step int64) Found {
	var found Found
	events := longest(group(gaps, step), &found)
	if len(events) == 0 {
		return found
	}
	usual, ok := fill.UsualOf(l)
	for _, e := range events {
		o := e.outage()
		if ok {
			e.expect(usual, l)
		}
		e.estimate(&o)
		o.Kind, o.Why = e.judge()
		o.Late = e.late
		found.Outages = append(found.Outages, o)
	}
	return found
}
