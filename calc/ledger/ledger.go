// Package ledger keeps what one instrument said, day by day: how much energy,
// and how that is known. Intake writes it; filling and rolling up read it.
package ledger

import (
	"math"
	"sort"

	"splittally/calc/calendar"
	"splittally/calc/energy"
)

// State says how the energy of a day is known.
type State uint8

// The states of a day. The zero value is Missing, so that a day nobody wrote
// is a gap and never a zero.
const (
	Missing  State = iota // nothing is known of the day
	Measured              // the instrument gave the total of the whole day
	Spread                // the day's even share of a total over several days
	Partial               // only a part of the day was measured; Energy is that part
)

// DailySpread is the usual standard deviation of a day's use as a share of its
// mean (common practice, no source): between 0.2 and 0.5 in the homes looked at.
const DailySpread = 0.35

// Entry is one day of a ledger.
type Entry struct {
	State  State
	Energy energy.Energy
	// Rounding is half of the last digit in which the figure was given: the
	// half-width of what rounding hid. For a day summed from many readings it
	// is the half-width of the sum's standard uncertainty times √3, as if it
	// were one rounding.
	Rounding energy.Energy
	// Total is the span of the total that a Spread day is a share of.
	Total calendar.Span
	// Hours counts the measured hours of a Partial day.
	Hours float64
	// Turn is +1 on a day of 25 hours, whose hour TurnAt came twice, and −1 on one
	// of 23, whose hour TurnAt never was. It is 0 on any other, and where the
	// source does not tell. Only a Partial day needs it: the slots of a Measured
	// one are all of the day.
	Turn   int8
	TurnAt uint8
	// Line is the line of the text that gave the figure, from 1; 0 if none did.
	Line int
}

// Ledger is the daily record of one instrument: an entry for each day from
// First on, without holes, Missing days included.
type Ledger struct {
	Name  string // as the text's header names it; may be empty
	First calendar.Day
	Days  []Entry
	// Slots are the shorter stretches that days were summed from, in the order
	// of time, where the text gave energies within days. Those of a Measured day
	// add up to its energy.
	Slots []Slot
}

// Slot is the energy of a stretch within a day, by the local clock.
type Slot struct {
	Day      calendar.Day
	From, To int // minutes of the day, 0 to 1440
	Energy   energy.Energy
	// Short is how much of the stretch no reading covers, in milliseconds.
	// Energy is that of the rest alone.
	Short int32
	// Again marks the second run of an hour that a clock set back repeats.
	Again bool
}

// On gives the slots of a day.
func (l Ledger) On(d calendar.Day) []Slot {
	from := sort.Search(len(l.Slots), func(i int) bool { return l.Slots[i].Day >= d })
	to := sort.Search(len(l.Slots), func(i int) bool { return l.Slots[i].Day > d })
	return l.Slots[from:to]
}

// almostAll is how much of a day must be measured for WholeAt to take it as whole.
const almostAll = 0.99

// WholeAt gives a day that is Measured, or that lacks less than a hundredth of
// it, such as the seconds that a monitor loses in every hour. What it lacks is
// taken as evenly used, and counted as rounding. ok is false for all other days.
func (l Ledger) WholeAt(d calendar.Day) (e Entry, ok bool) {
	e = l.At(d)
	length := float64(24 + e.Turn)
	switch {
	case e.State == Measured:
		return e, true
	case e.State != Partial || e.Hours < almostAll*length || e.Hours > length:
		return Entry{}, false
	}
	added := energy.Energy(math.Round(float64(e.Energy) * (length/e.Hours - 1)))
	e.State, e.Hours, e.Energy = Measured, 0, e.Energy+added
	e.Rounding = energy.Energy(math.Round(math.Hypot(float64(e.Rounding), float64(added))))
	return e, true
}

// Span gives the days from the first to the last entry.
func (l Ledger) Span() calendar.Span {
	return calendar.Span{First: l.First, End: l.First + calendar.Day(len(l.Days))}
}

// At gives the entry of a day; outside the ledger the day is Missing.
func (l Ledger) At(d calendar.Day) Entry {
	if !l.Span().Has(d) {
		return Entry{}
	}
	return l.Days[d-l.First]
}

// Count says how many days of span are in the given state.
func (l Ledger) Count(span calendar.Span, s State) int {
	n := 0
	for d := span.First; d < span.End; d++ {
		if l.At(d).State == s {
			n++
		}
	}
	return n
}

// MaxDays bounds a ledger: 100 years. Intake refuses texts that span more.
const MaxDays = 36525

// Put sets the entry of a day, growing the ledger at either end as needed. The
// caller keeps within MaxDays.
func (l *Ledger) Put(d calendar.Day, e Entry) {
	switch {
	case len(l.Days) == 0:
		l.First, l.Days = d, []Entry{e}
		return
	case d < l.First:
		l.Days = append(make([]Entry, l.First-d), l.Days...)
		l.First = d
	}
	for !l.Span().Has(d) {
		l.Days = append(l.Days, Entry{})
	}
	l.Days[d-l.First] = e
}
