package account

import (
	"cmp"
	"slices"
	"strconv"

	"github.com/shopspring/decimal"

	"splittally/calc/figure"
	"splittally/calc/sorted"
	"splittally/calc/tariff"
)

// Choose prices the same periods by each tariff: the cheapest first, those of
// another currency than the first last, and those without a price not at all.
// What is netted and carried over goes from period to period by each tariff's
// own rules, from what the first period carries.
//
// Per year is per 365.25 days of the periods, which must not overlap.
func Choose(plans []tariff.Tariff, periods []tariff.Usage) []Choice {
	periods = slices.Clone(periods)
	sorted.Stable(periods, func(a, b tariff.Usage) int { return cmp.Compare(a.Span.First, b.Span.First) })
	days := 0
	for _, u := range periods {
		days += u.Span.Days()
	}
	if days == 0 {
		return nil
	}
	var all []*rival
	for i, t := range plans {
		if t.Given {
			all = append(all, newRival(i, t, periods, days))
		}
	}
	rank(all)
	list := make([]Choice, len(all))
	for i, r := range all {
		r.assumptions(days)
		if i > 0 && !r.out.IsApart && !all[0].out.IsApart && !r.out.IsPartial && !all[0].out.IsPartial {
			r.breakEven(all[0])
		}
		list[i] = r.out
	}
	return list
}

// rival is a tariff among others.
type rival struct {
	t       tariff.Tariff
	periods []tariff.Usage // as lean as the tariff allows
	days    int
	priced  []tariff.Priced
	out     Choice
	known   map[string]decimal.Decimal // totals before rounding, by the scale of the use
}

func newRival(plan int, t tariff.Tariff, periods []tariff.Usage, days int) *rival {
	r := &rival{t: t, days: days, out: Choice{Plan: plan, Name: t.Name, IsPartial: len(t.LeftOut) > 0}, known: map[string]decimal.Decimal{}}
	if r.out.Name == "" {
		r.out.Name = "Tariff " + strconv.Itoa(plan+1)
	}
	for _, u := range periods {
		r.periods = append(r.periods, lean(t, u))
	}
	r.priced = r.price(r.periods)
	var least, most, unrounded decimal.Decimal
	for _, p := range r.priced {
		r.out.Total = r.out.Total.Add(p.Total)
		least, most, unrounded = least.Add(p.Least), most.Add(p.Most), unrounded.Add(exact(p))
		r.out.IsAssumed = r.out.IsAssumed || p.IsAssumed
		r.out.IsPartial = r.out.IsPartial || len(p.Skipped) > 0
	}
	r.known["1"] = unrounded
	r.out.PerYear = r.perYear(r.out.Total)
	if r.out.IsAssumed {
		r.out.Least, r.out.Most = r.perYear(least), r.perYear(most)
	}
	return r
}

// price prices the periods one after the other.
func (r *rival) price(periods []tariff.Usage) (list []tariff.Priced) {
	for i, u := range periods {
		if i > 0 {
			u.Carried = list[i-1].Carry
		}
		list = append(list, r.t.Price(u))
	}
	return list
}

// perYear gives an amount of all periods for a year, in coins.
func (r *rival) perYear(total decimal.Decimal) decimal.Decimal {
	year := total.Mul(decimal.NewFromFloat(yearDays)).DivRound(decimal.NewFromInt(int64(r.days)), fine)
	return year.Round(r.t.Currency.Places())
}

// rank puts the cheapest first and says how much more the others are. A tariff
// of which a row is missing or could not be priced stands behind those that are
// whole: what it lacks may be what makes it dear.
func rank(all []*rival) {
	if len(all) == 0 {
		return
	}
	first := slices.MinFunc(all, func(a, b *rival) int { return cmp.Compare(a.out.Plan, b.out.Plan) })
	for _, r := range all {
		r.out.IsApart = !sameMoney(r.t.Currency, first.t.Currency)
	}
	sorted.Stable(all, func(a, b *rival) int {
		return cmp.Or(order(a.out.IsApart, b.out.IsApart), order(a.out.IsPartial, b.out.IsPartial), a.out.Total.Cmp(b.out.Total))
	})
	for _, r := range all {
		if !r.out.IsApart {
			r.out.More = r.out.PerYear.Sub(all[0].out.PerYear)
		}
	}
}

// order puts what is not so before what is.
func order(a, b bool) int {
	switch {
	case a == b:
		return 0
	case b:
		return -1
	}
	return 1
}

// sameMoney says whether amounts can be compared: money without a name goes
// with any.
func sameMoney(a, b tariff.Currency) bool {
	switch {
	case a.Code != "" && b.Code != "":
		return a.Code == b.Code
	case a.Sign != "" && b.Sign != "":
		return a.Sign == b.Sign
	}
	return true
}

// assumptions lists what the figure rests on.
func (r *rival) assumptions(days int) {
	say := func(text string) {
		if !slices.Contains(r.out.Words, text) {
			r.out.Words = append(r.out.Words, text)
		}
	}
	if r.out.IsApart {
		say("It is in another currency, so it is not ranked.")
	}
	if r.out.IsPartial {
		say("A row of it is not in the figure, so it stands behind those that are whole.")
	}
	if days < 350 {
		say("A year is reckoned from " + figure.Counted(days, "day", "days") + ", whatever their season.")
	}
	if r.out.IsAssumed {
		say("How use falls on the time-of-use periods is assumed: a year may come to between " +
			r.t.Currency.Text(r.out.Least) + " and " + r.t.Currency.Text(r.out.Most) + ".")
	}
	for _, text := range leftOut(r.t) {
		say(text)
	}
	for _, p := range r.priced {
		for _, n := range p.Skipped {
			say(n.Text)
		}
		for _, n := range p.Notices {
			say(n.Text)
		}
	}
	if r.t.NeedsExport && !slices.ContainsFunc(r.periods, func(u tariff.Usage) bool { return len(u.Export) > 0 }) {
		say(noExport)
	}
	if last := r.priced[len(r.priced)-1]; last.Carry.Sign() > 0 {
		say(last.Carry.Round(0).String() + " kWh sent out are still carried over at the end and count for nothing here.")
	}
}
