package account

import "github.com/shopspring/decimal"

// assumed explains lines of time-of-use periods of which nobody knows the energy:
// what is printed tells it.
func (r *rebuild) assumed() {
	for i := range r.out.Pairs {
		p := &r.out.Pairs[i]
		if !p.differs() || len(p.linesOf()) != 1 || !r.isAssumed(p.Line) {
			continue
		}
		l := r.out.Lines[p.Line]
		if kWh, ok := r.kWhFor(p.Printed, l.Rate); ok {
			p.IsExplained = true
			p.Reason = "What falls into this period is assumed. " + r.text(p.Printed) + " comes out, as printed, with " + kWh.String() + " kWh in place of " + l.Quantity.Round(2).String() + "."
		}
	}
}

// isAssumed says whether the energy of a line is assumed.
func (r *rebuild) isAssumed(line int) bool {
	l := r.out.Lines[line]
	_, label := parts(l, r.out.Uses)
	for _, u := range r.out.Uses {
		if u.Row == l.Row && u.Name == label && u.Assumed {
			return true
		}
	}
	return false
}

// kWhFor gives the energy with the fewest decimals that costs so much.
func (r *rebuild) kWhFor(amount, rate decimal.Decimal) (kWh decimal.Decimal, ok bool) {
	if rate.IsZero() || amount.Sign()*rate.Sign() < 0 {
		return kWh, false
	}
	exact := amount.DivRound(rate, fine)
	for places := range int32(4) {
		kWh = exact.Round(places)
		if r.rounding().of(kWh.Mul(rate)).Equal(amount) {
			return kWh, true
		}
	}
	return kWh, false
}
