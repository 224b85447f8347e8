package correct

import (
	"math"
	"math/bits"

	"github.com/shopspring/decimal"

	"splittally/calc/energy"
	"splittally/calc/uncertainty"
)

// ratio is a factor kept exactly, numerator over denominator, as long as it
// meets energies and settings. The denominator is above zero.
type ratio struct{ num, den decimal.Decimal }

func (r ratio) float() float64 { return r.num.DivRound(r.den, 18).InexactFloat64() }

// Factors beyond these are no matter of a setting: a unit was mistaken, or
// something else than the home was measured.
const (
	leastFactor = 0.01
	mostFactor  = 100
)

// usable says whether f can be a factor at all. It is false for NaN.
func usable(f float64) bool { return f >= leastFactor && f <= mostFactor }

// of multiplies an energy, rounded once, to the microwatt-hour, half to even.
// The only error is energy.ErrRange.
func (r ratio) of(e energy.Energy) (energy.Energy, error) {
	whole, rest := decimal.NewFromInt(int64(e)).Mul(r.num).QuoRem(r.den, 0)
	odd := whole.BigInt().Bit(0) == 1
	if half := rest.Abs().Mul(decimal.NewFromInt(2)).Cmp(r.den); half > 0 || half == 0 && odd {
		whole = whole.Add(decimal.NewFromInt(int64(rest.Sign())))
	}
	out, _, err := energy.FromDecimal(whole, 1)
	return out, err
}

// each gives of for many energies: in whole numbers of 128 bits where they are
// enough, to the same result in a tenth of the time.
func (r ratio) each() func(energy.Energy) (energy.Energy, error) {
	shift := max(0, -r.num.Exponent(), -r.den.Exponent())
	num, den := r.num.Shift(shift).BigInt(), r.den.Shift(shift).BigInt()
	if !num.IsInt64() || !den.IsInt64() || num.Sign() <= 0 {
		return r.of
	}
	n, d := num.Uint64(), den.Uint64()
	return func(e energy.Energy) (energy.Energy, error) {
		if e == math.MinInt64 {
			return r.of(e)
		}
		hi, lo := bits.Mul64(uint64(e.Abs()), n)
		if hi >= d {
			return r.of(e)
		}
		whole, rest := bits.Div64(hi, lo, d)
		if rest > d-rest || rest == d-rest && whole&1 == 1 {
			whole++
		}
		if whole > math.MaxInt64 {
			return r.of(e)
		}
		if e < 0 {
			return -energy.Energy(whole), nil
		}
		return energy.Energy(whole), nil
	}
}

// finish fills in the factor and all that follows from it alone.
func (c *Correction) finish(factor ratio, b uncertainty.Budget, confidence float64) {
	c.Factor, c.Budget = factor.float(), b
	c.Standard, c.DoF = b.Combined()
	c.Expanded, _ = b.Expanded(confidence)
	c.Significant = math.Abs(c.Factor-1) > c.Expanded
}
