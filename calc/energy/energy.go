// Package energy holds electrical energy exactly, as a whole number of
// microwatt-hours.
//
// Readings come as decimal text. They are never passed through a float on
// their way into a sum: text becomes decimal.Decimal, decimal becomes Energy,
// and only statistics call KilowattHours to leave the exact world.
package energy

import (
	"errors"
	"math"

	"github.com/shopspring/decimal"
)

// Energy is an amount of electrical energy in microwatt-hours (µWh), signed:
// positive is energy taken from the grid. It reaches ±9.2 TWh. The zero value
// is no energy, which is not the same as an unknown amount.
type Energy int64

// Units of energy. An Energy divided by one of them is a count of that unit.
const (
	WattHour     Energy = 1_000_000
	KilowattHour        = 1_000 * WattHour
	MegawattHour        = 1_000 * KilowattHour
)

// ErrRange says that an amount does not fit into an Energy.
var ErrRange = errors.New("energy out of range")

// FromDecimal gives n units as an Energy. Anything finer than a microwatt-hour
// is rounded half to even, and exact is then false. The only error is ErrRange.
func FromDecimal(n decimal.Decimal, unit Energy) (e Energy, exact bool, err error) {
	// Exponents beyond these are nonsense, and multiplying them out would cost
	// time without bound.
	if n.Exponent() > 30 || n.Exponent() < -100 {
		return 0, false, ErrRange
	}
	fine := n.Mul(decimal.NewFromInt(int64(unit)))
	whole := fine.RoundBank(0)
	if !whole.BigInt().IsInt64() || whole.BigInt().Int64() == math.MinInt64 {
		return 0, false, ErrRange
	}
	return Energy(whole.BigInt().Int64()), whole.Equal(fine), nil
}

// Decimal gives e in kilowatt-hours, exactly.
func (e Energy) Decimal() decimal.Decimal { return decimal.New(int64(e), -9) }

// KilowattHours gives e in kilowatt-hours as a float, for statistics only.
func (e Energy) KilowattHours() float64 { return float64(e) / float64(KilowattHour) }

// FromKilowattHours rounds a float, the outcome of statistics, to the nearest
// microwatt-hour. It is the way back from KilowattHours and gives ErrRange for
// NaN, infinities and amounts that do not fit.
func FromKilowattHours(kWh float64) (Energy, error) {
	fine := math.RoundToEven(kWh * float64(KilowattHour))
	// The largest float below 2^63; a plain comparison with MaxInt64 rounds up.
	if math.IsNaN(fine) || math.Abs(fine) > math.Nextafter(math.MaxInt64, 0) {
		return 0, ErrRange
	}
	return Energy(fine), nil
}

// Add gives e + other, or ErrRange.
func (e Energy) Add(other Energy) (Energy, error) {
	sum := e + other
	if (other > 0 && sum < e) || (other < 0 && sum > e) {
		return 0, ErrRange
	}
	return sum, nil
}

// Share splits e into n parts that differ by at most one microwatt-hour and
// sum to e exactly; the earlier parts take what is left over. n must be
// positive.
func (e Energy) Share(n int) []Energy {
	parts := make([]Energy, n)
	each, left := e/Energy(n), e%Energy(n)
	for i := range parts {
		parts[i] = each
		if left > 0 {
			parts[i]++
			left--
		} else if left < 0 {
			parts[i]--
			left++
		}
	}
	return parts
}

// Abs gives the size of e without its sign.
func (e Energy) Abs() Energy {
	if e < 0 {
		return -e
	}
	return e
}

// String gives the exact amount in kilowatt-hours without trailing zeros, such
// as "12.4 kWh".
func (e Energy) String() string { return e.Decimal().String() + " kWh" }

// Text gives the amount in kilowatt-hours with a fixed number of decimals,
// rounded half away from zero, without the unit. It is for show.
func (e Energy) Text(places int32) string { return e.Decimal().StringFixed(places) }
