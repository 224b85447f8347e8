package account

import (
	"slices"
	"strconv"

	"github.com/shopspring/decimal"

	"splittally/calc/calendar"
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
// cheapest hour of its day.
func (r *rival) breakShare(cheapest *rival) {
	hours := r.cheapHours()
	gap := func(share decimal.Decimal) decimal.Decimal {
		return r.exactly(moved(r.periods, hours, share)).Sub(cheapest.exactly(moved(cheapest.periods, hours, share)))
	}
	all := decimal.NewFromInt(1)
	if gap(all).Sign() > 0 {
		return
	}
	share := root(gap, decimal.Decimal{}, all).Shift(2).Round(0)
	r.out.Words = append(r.out.Words, "With about "+figure.Percent(share.String())+" of all use moved to the cheapest hours of its day it costs as much as “"+cheapest.out.Name+"”.")
}

// cheapHours gives for each day the hour in which a kWh is cheapest, the first
// of several. It asks the tariff with an hour at a time.
func (r *rival) cheapHours() map[calendar.Day]int {
	hours, known := map[calendar.Day]int{}, map[string]int{}
	for _, u := range r.periods {
		for d := u.Span.First; d < u.Span.End; d++ {
			key := r.signature(d)
			at, ok := known[key]
			if !ok {
				at = r.cheapHour(d)
				known[key] = at
			}
			hours[d] = at
		}
	}
	return hours
}

// signature tells days apart on which hours belong to other time-of-use
// periods: each hour has an energy of its own power of two, so that the sums of
// the lines say which hours they hold.
func (r *rival) signature(d calendar.Day) (key string) {
	u := tariff.Usage{Span: calendar.Span{First: d, End: d + 1}}
	for h := range 24 {
		u.Import = append(u.Import, hour(d, h, 60<<h))
	}
	for _, l := range r.t.Price(u).Lines {
		if l.Unit == "kWh" {
			key += strconv.Itoa(l.Row) + ":" + l.Rate.String() + ":" + l.Quantity.String() + " "
		}
	}
	return key
}

func hour(d calendar.Day, h int, e energy.Energy) tariff.Slot {
	return tariff.Slot{First: d, Last: d, From: h * 60, To: h*60 + 60, Energy: e}
}

func (r *rival) cheapHour(d calendar.Day) (best int) {
	var least decimal.Decimal
	for h := range 24 {
		p := r.t.Price(tariff.Usage{
			Span: calendar.Span{First: d, End: d + 1}, Import: []tariff.Slot{hour(d, h, energy.KilowattHour)},
		})
		if cost := exact(p); h == 0 || cost.LessThan(least) {
			best, least = h, cost
		}
	}
	return best
}

// moved gives the periods with a share of each day's energy moved to an hour of
// that day. Totals over several days move a like part to each day.
func moved(periods []tariff.Usage, hours map[calendar.Day]int, share decimal.Decimal) []tariff.Usage {
	out := slices.Clone(periods)
	for i, u := range out {
		slots := make([]tariff.Slot, 0, len(u.Import)+u.Span.Days())
		days := map[calendar.Day]energy.Energy{}
		for _, s := range u.Import {
			part := energy.Energy(share.Mul(decimal.NewFromInt(int64(s.Energy))).Round(0).IntPart())
			s.Energy -= part
			slots = append(slots, s)
			last := max(s.First, s.Last)
			for k, e := range part.Share(int(last-s.First) + 1) {
				days[s.First+calendar.Day(k)] += e
			}
		}
		for d := u.Span.First; d < u.Span.End; d++ {
			if e := days[d]; e != 0 {
				slots = append(slots, hour(d, hours[d], e))
			}
		}
		out[i].Import = slots
	}
	return out
}

var half = decimal.New(5, -1)
