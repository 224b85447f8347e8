package tariff

import (
	"math/big"
	"math/bits"

	"github.com/shopspring/decimal"

	"splittally/calc/energy"
)

// workPlaces is how many decimals an exact amount has when it leaves the world
// of fractions; rounding to coins comes after.
const workPlaces = 24

// sum adds up energies and parts of energies exactly: whole microwatt-hours,
// and what is left over, by denominators. It keeps big numbers out of the loop
// over a year's hours.
type sum struct {
	whole int64
	rest  []rest
}

// rest is num/den of a microwatt-hour; num may exceed den.
type rest struct{ num, den int64 }

// add adds e · num/den; num must be from 0 to den.
func (s *sum) add(e energy.Energy, num, den int64) {
	if num == den {
		s.whole += int64(e)
		return
	}
	hi, lo := bits.Mul64(uint64(e.Abs()), uint64(num))
	if hi >= uint64(den) {
		return // out of range of an Energy
	}
	q, r := bits.Div64(hi, lo, uint64(den))
	whole, left := int64(q), int64(r)
	if e < 0 {
		whole, left = -whole, -left
	}
	s.whole += whole
	if left == 0 {
		return
	}
	for i := range s.rest {
		if s.rest[i].den == den {
			s.rest[i].num += left
			return
		}
	}
	s.rest = append(s.rest, rest{left, den})
}

func (s *sum) addSum(o sum) {
	s.whole += o.whole
next:
	for _, r := range o.rest {
		for i := range s.rest {
			if s.rest[i].den == r.den {
				s.rest[i].num += r.num
				continue next
			}
		}
		s.rest = append(s.rest, r)
	}
}

func (s sum) isZero() bool { return s.whole == 0 && s.kWh().Sign() == 0 }

// kWh gives the sum in kilowatt-hours.
func (s sum) kWh() *big.Rat {
	total := new(big.Rat).SetInt64(s.whole)
	for _, r := range s.rest {
		total.Add(total, big.NewRat(r.num, r.den))
	}
	return total.Mul(total, big.NewRat(1, int64(energy.KilowattHour)))
}

// ratOf gives a decimal as a fraction.
func ratOf(d decimal.Decimal) *big.Rat { return d.Rat() }

// decimalOf gives a fraction as a decimal of workPlaces at most.
func decimalOf(r *big.Rat) decimal.Decimal {
	if r.IsInt() {
		return decimal.NewFromBigInt(r.Num(), 0)
	}
	d := decimal.NewFromBigInt(r.Num(), 0).DivRound(decimal.NewFromBigInt(r.Denom(), 0), workPlaces)
	return d
}

func product(factors ...*big.Rat) *big.Rat {
	p := new(big.Rat).SetInt64(1)
	for _, f := range factors {
		if f != nil { // nil is one
			p.Mul(p, f)
		}
	}
	return p
}
