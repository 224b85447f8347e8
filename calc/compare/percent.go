// Package compare states how far one instrument reads from another over a
// period, with the uncertainty of that, and judges it.
//
// The step before gives, for each period, the energy that the monitor
// indicated over the billed days and the energy of the reference (the
// utility's meter), each with its budget. The step after shows the Comparison,
// or looks for the cause of what it found.
//
// # The verdict
//
// Three lengths decide: the error e, its expanded uncertainty U (everything
// that is not known), and the promise P, the expanded uncertainty that the two
// instruments' stated accuracies would leave if all else were known exactly.
//
//   - |e| > U, which is |E_n| > 1 (ISO 13528): they differ, high or low. What
//     is not known can't explain the error.
//   - |e| <= U, |e| <= P and U <= 2·P: they agree. The error is no more than
//     they promise, and the look at it was sharp enough to mean something: with
//     a U far above P nearly any two instruments would pass, and "agree" would
//     praise the fog. Twice is a choice, no published limit: up to there what
//     is not known about the comparison is at most √3 of the promise itself.
//   - anything else: can't tell. The error is beyond the promise yet within
//     the doubt, or the doubt is too wide. What would narrow it most is the
//     reducible source without which U is smallest.
//
// A reference that rests on an estimated read is somebody's guess, with no
// half-width to be had: can't tell, whatever the numbers. Without a reference
// above zero or without readings there is nothing to compare.
package compare

import (
	"errors"

	"github.com/shopspring/decimal"

	"splittally/calc/energy"
)

// Why there is no figure. A percentage of nothing is not a large number but no
// number.
var (
	ErrNoReference = errors.New("reference energy is not above zero")
	ErrNoIndicated = errors.New("indicated energy is not above zero")
)

// Places is how many decimals the percentages of a Comparison carry: working
// room, rounded half away from zero, not the figure for show.
const Places = 12

var hundred = decimal.NewFromInt(100)

// PercentError reports how far an instrument registers from a reference, as a
// percentage of the reference:
//
//	e = 100 · (W − R) / R
//
// W is the indicated energy and R the energy of the reference over the same
// interval. An instrument that reads high has a positive error. The division
// is carried to places decimals, half away from zero. The only error is
// ErrNoReference, if R is not above zero.
func PercentError(indicated, reference energy.Energy, places int32) (decimal.Decimal, error) {
	if reference <= 0 {
		return decimal.Zero, ErrNoReference
	}
	return percentOf(indicated, reference, reference, places), nil
}

// Registration gives percentage registration, 100 · W / R: 100 plus the
// percentage error. Rounding and error are as in PercentError.
func Registration(indicated, reference energy.Energy, places int32) (decimal.Decimal, error) {
	if reference <= 0 {
		return decimal.Zero, ErrNoReference
	}
	return percentOf(indicated, 0, reference, places), nil
}

// WrongBase gives 100 · (W − R) / W, the difference as a percentage of what the
// instrument indicated. Many people divide so, and a few rules do; it is not the
// percentage error. The only error is ErrNoIndicated, if W is not above zero.
func WrongBase(indicated, reference energy.Energy, places int32) (decimal.Decimal, error) {
	if indicated <= 0 {
		return decimal.Zero, ErrNoIndicated
	}
	return percentOf(indicated, reference, indicated, places), nil
}

// percentOf gives 100 · (a − b) / base. The difference is taken in decimals,
// where it can't overflow.
func percentOf(a, b, base energy.Energy, places int32) decimal.Decimal {
	return a.Decimal().Sub(b.Decimal()).Mul(hundred).DivRound(base.Decimal(), places)
}
