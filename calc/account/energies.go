package account

import (
	"math"
	"sort"

	"github.com/shopspring/decimal"

	"splittally/calc/energy"
	"splittally/calc/tariff"
)

// energies tries whether another energy than the period's makes all lines of
// energy come out as printed: a wrong read, or an estimated one. With a single
// such line some energy always does, so that is told but explains nothing
// unless a read is known to be estimated.
func (r *rebuild) energies(open []int) {
	var wrong []int
	for _, i := range open {
		if r.isEnergy(r.out.Pairs[i]) {
			wrong = append(wrong, i)
		}
	}
	if len(wrong) == 0 || kWh(r.usage) <= 0 || r.anyEnergyRight() {
		return
	}
	least, most, ok := r.energyOf(r.out.Pairs[wrong[0]])
	if !ok {
		return
	}
	for n := least; n <= most && n < least+maxTries; n++ {
		if p := r.t.Price(scaled(r.usage, n*energy.KilowattHour)); r.allPrinted(p, wrong) {
			r.sayEnergy(n, wrong)
			return
		}
	}
}

// lossReason tells which loss factor makes the lines on energy with losses come
// out, if none is given. One line alone always has one, so that it explains
// nothing then; it is told all the same.
func (r *rebuild) lossReason(open []int) bool {
	var wrong []int
	for _, i := range open {
		p := r.out.Pairs[i]
		basis := ""
		if row := r.placesOf(p)[0].row; row < len(r.b.Schedule.Rows) {
			basis = fold(r.b.Schedule.Rows[row].Basis)
		}
		if r.isEnergy(p) && (basis == "adjusted" || basis == "losses") && !p.IsExplained {
			wrong = append(wrong, i)
		}
	}
	if len(wrong) == 0 || r.hasLosses() {
		return false
	}
	u := r.lossFactor()
	low, high := int64(math.MinInt64), int64(math.MaxInt64)
	for _, i := range wrong {
		p := r.out.Pairs[i]
		at := r.placesOf(p)
		from, to, why := find(u, target{want: p.Printed, of: func(v tariff.Priced) decimal.Decimal {
			sum, _ := amountAt(v, at)
			return sum
		}})
		if why != "" {
			return false
		}
		low, high = max(low, from), min(high, to)
	}
	if low > high {
		return false
	}
	for _, i := range wrong {
		p := &r.out.Pairs[i]
		p.IsExplained = len(wrong) > 1
		text := " with a loss factor of " + shortest(low, high).String() + "; none is given"
		if p.IsExplained {
			p.Reason = r.text(p.Printed) + " comes out, as printed," + text + ". So do the other lines with losses."
		} else {
			p.Reason = r.text(p.Printed) + " would come out, as printed," + text + "."
		}
	}
	return true
}

// maxTries bounds the energies of one printed amount that are tried on others.
const maxTries = 20

func (r *rebuild) isEnergy(p Pair) bool {
	for _, l := range p.linesOf() {
		if line := r.out.Lines[l]; line.Unit != "kWh" || line.Rate.Sign() <= 0 {
			return false
		}
	}
	return p.Line >= 0
}

// anyEnergyRight says whether a line of energy is right as it is, so that no
// other energy can be.
func (r *rebuild) anyEnergyRight() bool {
	for _, p := range r.out.Pairs {
		if p.IsEqual && !p.Printed.IsZero() && r.isEnergy(p) && len(r.placesOf(p)) == 1 && !r.isFullTier(p) {
			return true
		}
	}
	return false
}

// isFullTier says whether a line is a tier that a later one follows, which stays
// as it is with more energy.
func (r *rebuild) isFullTier(p Pair) bool {
	last := p.linesOf()[len(p.linesOf())-1]
	return r.kindOf(r.out.Lines[p.Line].Row) == tariff.Tiers &&
		last+1 < len(r.out.Lines) && r.out.Lines[last+1].Row == r.out.Lines[p.Line].Row
}

func (r *rebuild) allPrinted(p tariff.Priced, pairs []int) bool {
	for _, i := range pairs {
		pair := r.out.Pairs[i]
		if v, ok := amountAt(p, r.placesOf(pair)); !ok || !v.Equal(pair.Printed) {
			return false
		}
	}
	for _, pair := range r.out.Pairs {
		if v, _ := amountAt(p, r.placesOf(pair)); pair.IsEqual && r.isEnergy(pair) && !v.Equal(pair.Printed) {
			return false
		}
	}
	return true
}

// energyOf gives the whole kWh that make a pair come out as printed.
func (r *rebuild) energyOf(p Pair) (least, most energy.Energy, ok bool) {
	at := r.placesOf(p)
	limit := int(4*kWh(r.usage)/energy.KilowattHour) + 100
	first := func(above bool) energy.Energy {
		return energy.Energy(sort.Search(limit, func(n int) bool {
			v, _ := amountAt(r.t.Price(scaled(r.usage, max(energy.Energy(n)*energy.KilowattHour, 1))), at)
			return v.GreaterThan(p.Printed) || !above && v.Equal(p.Printed)
		}))
	}
	least, most = first(false), first(true)-1
	return max(least, 1), most, least <= most && int(most) < limit-1
}

func (r *rebuild) sayEnergy(n energy.Energy, pairs []int) {
	text := "with " + (n * energy.KilowattHour).Text(0) + " kWh in place of " + kWh(r.usage).Decimal().Round(3).String()
	for _, i := range pairs {
		p := &r.out.Pairs[i]
		switch {
		case r.b.Estimated && !p.IsExplained:
			p.IsExplained = true
			p.Reason = r.text(p.Printed) + " comes out, as printed, " + text + "; an end of the period rests on an estimated read."
		case len(pairs) > 1 && r.common[i] < len(pairs): // else it is as good
			p.IsExplained = true
			p.Reason = r.text(p.Printed) + " comes out, as printed, " + text + ", and so do the other lines of energy."
		case !p.IsExplained:
			p.Reason = r.text(p.Printed) + " would come out, as printed, " + text + "; nothing else tried here explains it."
		case r.b.Estimated || len(pairs) > 1:
			p.Reason += " It would also come out " + text + "."
		}
	}
}
