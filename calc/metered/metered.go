// Package metered holds the meter's own record against its own bills.
//
// Where a utility gives out what its meter counted hour by hour, the true error
// between those days and the bill of the same meter is nil: both are one
// instrument. So whatever differs by more than the bill's rounding is about the
// bill, and nothing here knows of accuracies. The step before gives the bills'
// days and energies (package billing) and the record (a ledger, of whose days
// only measured ones count); the step after tells the findings.
//
// # What is looked for, in this order
//
//   - one factor in all bills that differ: losses, or a multiplier;
//   - a reading period that was split: short bills that follow one another and
//     are the shares, by days, of one whole; or whose differences cancel;
//   - a read that was guessed and caught up with: two to four bills whose
//     differences cancel, without being such shares;
//   - bills that are net of credits: far less than what came in, or nothing;
//   - reads at another hour than midnight. The energy between a read and its
//     midnight is what the bills up to it are ahead of the record, less the same
//     at the first read, which is not known. So n bills in a row have n + 1 reads
//     and one unknown: they fit only if all these energies lie within one day's
//     at once. Then the hour is sought at which the reads are likeliest, and held
//     against reads at any hour of the day;
//   - single reads that are off where all others are at midnight: by a whole
//     day, or within one.
//
// What fits none of these is called unexplained.
package metered

import (
	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/ledger"
)

// Kind is what a bill is, held against the meter's own record. Its text is
// stable.
type Kind string

// The kinds.
const (
	Waits       Kind = "waits"          // the record or the bill lacks something
	Agrees      Kind = "agrees"         // to within the rounding
	Split       Kind = "split-period"   // a part, by days, of one reading period
	Estimated   Kind = "estimated-read" // a read was a guess, and caught up with
	Net         Kind = "net"            // net of credits for generation
	InDay       Kind = "read-in-day"    // its reads were taken during the day
	DayOff      Kind = "day-off"        // a read lies a day from where the dates put it
	Losses      Kind = "losses"         // the bill is more by one small factor
	Multiplier  Kind = "multiplier"     // the bill is more, or less, by a round factor
	Unexplained Kind = "unexplained"
)

// Bill is what one bill says.
type Bill struct {
	Index  int // in the case
	Span   calendar.Span
	Given  bool          // Billed holds; a bill that charges 0 kWh is given
	Billed energy.Energy // the metered energy that it bills
	Step   energy.Energy // one step of its last digit
	// Exported is energy that went out, typed beside the bill; 0 for none.
	Exported energy.Energy
}

// Judged is one bill beside the record.
type Judged struct {
	Index   int // in the case
	Span    calendar.Span
	Billed  energy.Energy
	Metered energy.Energy // the sum of the record's days; exact
	Missing int           // days of the span that the record did not measure; then nothing is judged
	// Differs is Billed − Metered, and Within how far rounding alone may put
	// the two apart.
	Differs, Within energy.Energy
	Kind            Kind
}

// Finding is what one bill, or several together, come to.
type Finding struct {
	Kind  Kind
	Bills []int // indexes in the case, by time
	Words string
	// Sure is false where something else would do as well; Words say what.
	Sure bool
	// Of a split or estimated period: the sums of its bills.
	Billed, Metered energy.Energy
	// Of bills whose reads were taken in the day, or a day off: the reads.
	Reads []Read
	// Hour is the middle one of the reads' hours, Early and Late the outermost,
	// from the midnight that begins the last date of a bill: 32 is 8 o'clock of
	// the day after it.
	Hour, Early, Late float64
	// From and Till are between which hours Hour lies: where little is used, other
	// hours do about as well.
	From, Till float64
	Factor     float64 // of losses, or of a multiplier: billed / metered
}

// Read is a read of the register between two bills, or at an outer end.
type Read struct {
	Day  calendar.Day // the last date of the bill that it ends
	Hour float64      // as in Finding
	// Apart is the energy from the midnight after Day to the read; below zero
	// where the read came before it.
	Apart energy.Energy
	// Sharp says that the record's hours tell Hour; else the day is taken as
	// evenly used.
	Sharp bool
}

// Result is all that the record says of the bills.
type Result struct {
	Words string   // sums it up
	Bills []Judged // one for each bill with dates, by time
	Found []Finding
	// Agree counts bills that agree, Covered those whose days the record has.
	Agree, Covered int
}

// Of gives the finding that a bill of the case is in.
func (r Result) Of(index int) (Finding, bool) {
	for _, f := range r.Found {
		for _, b := range f.Bills {
			if b == index {
				return f, true
			}
		}
	}
	return Finding{}, false
}

// Judge holds bills against the record of their meter. done is false if the
// record covers no bill.
func Judge(record ledger.Ledger, bills []Bill) (r Result, done bool) {
	s := &sheet{record: record}
	s.add(bills)
	if s.covered() == 0 {
		return Result{}, false
	}
	s.factor()
	s.splits()
	s.caughtUp()
	s.nets()
	s.chains()
	s.rest()
	return s.result(), true
}
