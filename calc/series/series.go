// Package series adds readings up as they come, into hours by the local clock,
// in memory that does not grow with their number.
//
// The step before is a reader of a file (packages table and espi), which hands
// over each reading once, in the order of the file; the step after is a
// record.Record.
package series

import "splittally/calc/energy"

// Quantity is what the figures of a channel are.
type Quantity uint8

// The quantities, with the unit of the integers that are handed over.
const (
	Energy   Quantity = iota // energy of the interval, µWh
	Power                    // mean power over the interval, µW
	Register                 // a counter that runs on, µWh
)

// Channel says what is handed over for one channel.
type Channel struct {
	Quantity Quantity
	// Rounding is half of the last digit of one figure, in the figure's unit.
	Rounding energy.Energy
	// Modulus is where a register rolls over, in µWh; 0 if that is not known.
	Modulus energy.Energy
}

// Options is how times are to be understood.
type Options struct {
	// Step is the usual spacing in milliseconds, as the head of the file shows
	// it; 0 if readings have no even spacing.
	Step int64
	// Ends says that a stamp is the end of its interval.
	Ends bool
	// Zoned says that readings come with the offset of their clock; else an hour
	// that comes twice or never is told from the order of the readings.
	Zoned bool
}
