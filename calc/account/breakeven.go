package account

import (
	"slices"

	"github.com/shopspring/decimal"

	"splittally/calc/energy"
	"splittally/calc/figure"
	"splittally/calc/tariff"
)

// breakEven says in words at what use, or with how much of it moved to the
// cheapest time-of-use period, the tariff costs as much as the cheapest one.
func (r *rival) breakEven(cheapest *rival) {
	if r.out.Total.Equal(cheapest.out.Total) {
		r.out.Words = append(r.out.Words, "It costs as much as “"+cheapest.out.Name+"”.")
		return
	}
	gap := func(scale decimal.Decimal) decimal.Decimal { return r.at(scale).Sub(cheapest.at(scale)) }
	one := decimal.NewFromInt(1)
	for _, end := range []decimal.Decimal{decimal.New(5, -1), decimal.NewFromInt(2)} {
		if gap(end).Sign() > 0 {
			continue
		}
		use := r.yearly(root(gap, one, end)).Round(0)
		than := "below"
		if end.GreaterThan(one) {
			than = "above"
		}
		r.out.Words = append(r.out.Words, "At about "+use.String()+" kWh a year it costs as much as “"+cheapest.out.Name+
			"”, "+than+" that less, if all use changes alike; the periods have "+r.yearly(one).Round(0).String()+" kWh a year.")
	}
	if r.t.NeedsHours {
		r.breakShare(cheapest)
	}
}

// yearly gives the kWh a year at a scale of the use.
func (r *rival) yearly(scale decimal.Decimal) decimal.Decimal {
	var sum energy.Energy
	for _, u := range r.periods {
		sum += kWh(u)
	}
	return sum.Decimal().Mul(scale).Mul(decimal.NewFromFloat(yearDays)).DivRound(decimal.NewFromInt(int64(r.days)), fine)
}

// at gives the total before rounding if all use were so many times what it is.
func (r *rival) at(scale decimal.Decimal) decimal.Decimal {
	key := scale.String()
	if v, ok := r.known[key]; ok {
		return v
	}
	periods := slices.Clone(r.periods)
	for i, u := range periods {
		to := scale.Mul(decimal.NewFromInt(int64(kWh(u)))).Round(0)
		periods[i] = scaled(u, energy.Energy(to.IntPart()))
	}
	v := r.exactly(periods)
	r.known[key] = v
	return v
}

func (r *rival) exactly(periods []tariff.Usage) (sum decimal.Decimal) {
	for _, p := range r.price(periods) {
		sum = sum.Add(exact(p))
	}
	return sum
}

// rootSteps bounds the search. Bills are straight between the edges of tiers,
// so that a few steps do.
const rootSteps = 12

// root gives where f is zero between a, where it is above, and b, where it is
// not, to three decimals: by the straight line between the two, the end that
// stays halved (Illinois).
func root(f func(decimal.Decimal) decimal.Decimal, a, b decimal.Decimal) decimal.Decimal {
	fa, fb := f(a), f(b)
	stays := 0
	x := b
	for range rootSteps {
		if fa.Equal(fb) {
			break
		}
		x = a.Add(b.Sub(a).Mul(fa).DivRound(fa.Sub(fb), 6))
		fx := f(x)
		if fx.Abs().LessThan(decimal.New(5, -3)) || b.Sub(a).Abs().LessThan(decimal.New(1, -4)) {
			break
		}
		if fx.Sign() > 0 {
			a, fa = x, fx
			if stays == 1 {
				fb = fb.Mul(half)
			}
			stays = 1
		} else {
			b, fb = x, fx
			if stays == -1 {
				fa = fa.Mul(half)
			}
			stays = -1
		}
	}
	return x
}

// breakShare looks for the portion of all use that would have to move to the
// cheapest time-of-use period. What is moved saves in proportion, so that two
// bills tell: with nothing moved, and with all. A charge for power can't be told
// then, so tariffs with one are left out.
func (r *rival) breakShare(cheapest *rival) {
	if r.t.NeedsPower || cheapest.t.NeedsPower {
		return
	}
	one := decimal.NewFromInt(1)
	now := r.at(one).Sub(cheapest.at(one))
	then := r.atCheapest().Sub(cheapest.atCheapest())
	if then.Sign() > 0 || now.Equal(then) {
		return
	}
	share := now.Shift(2).DivRound(now.Sub(then), 0)
	hours := "the hours that are cheapest by it"
	if cheapest.t.NeedsHours {
		hours = "hours that are cheapest by both"
	}
	r.out.Words = append(r.out.Words, "With about "+figure.Percent(share.String())+" of all use moved to "+hours+", it costs as much as “"+cheapest.out.Name+"”.")
}

// atCheapest gives the total before rounding with all use moved.
func (r *rival) atCheapest() decimal.Decimal {
	const key = "moved"
	if _, ok := r.known[key]; !ok {
		r.known[key] = r.exactly(r.moved())
	}
	return r.known[key]
}

// moved gives the periods with all energy in the cheapest time-of-use period of
// each row, as far as it occurs on a day.
func (r *rival) moved() []tariff.Usage {
	periods := slices.Clone(r.periods)
	for i, u := range periods {
		u.Import, u.Shares = byDays(u.Import), map[string]decimal.Decimal{}
		least := map[int]tariff.Line{}
		for _, l := range r.priced[i].Lines {
			if first, ok := least[l.Row]; l.Unit == "kWh" && (!ok || l.Rate.LessThan(first.Rate)) {
				least[l.Row] = l
			}
		}
		for _, l := range least {
			if _, band := parts(l, r.priced[i].Uses); band != "" {
				u.Shares[band] = decimal.NewFromInt(1)
			}
		}
		periods[i] = u
	}
	return periods
}

var half = decimal.New(5, -1)
