package tariff

import (
	"slices"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"splittally/calc/number"
)

// basis reads which energy a row prices.
func (b *builder) basis(r *row, in Row) bool {
	switch r.kind {
	case Energy, Tiers, Times:
	default:
		return true
	}
	before := len(b.out.Problems)
	r.basis = basis(b.choice(field(r.index, "basis"), in.Basis, "metered", "adjusted", "losses"))
	return len(b.out.Problems) == before
}

// priced reads what a row costs.
func (b *builder) priced(r *row, in Row) (ok bool) {
	i, at := r.index, field(r.index, "price")
	switch r.kind {
	case Netting:
		return true
	case Tiers:
		return b.perOf(r, in, "") && b.readSteps(r, in)
	case Times:
		return b.readBands(r, in)
	case Energy, Export:
		return b.perKWh(i, at, in.Price, r.kind == Energy, &r.price)
	case Demand:
		m, ok := b.cost(i, at, in.Price, "a price per kW, such as 5.40", false, "kw")
		r.price = m.value
		return b.readWindow(r, in) && ok
	case Tax:
		ok = b.percentOf(i, at, in.Price, "tax", &r.price)
		r.percents = true
		return ok
	case Discount:
		return b.discount(r, in)
	case Minimum:
		m, ok := b.cost(i, at, in.Price, "an amount, such as 12.50", false, "period", "month", "day")
		r.price = m.value
		return ok && b.perOf(r, in, m.per)
	}
	return b.fixed(r, in)
}

func (b *builder) fixed(r *row, in Row) bool {
	m, ok := b.cost(r.index, field(r.index, "price"), in.Price, "a charge, such as 7.50", true, "period", "month", "day")
	r.price = m.value
	if ok = ok && b.perOf(r, in, m.per); ok && r.per == perDay && !m.said {
		b.bare = append(b.bare, bare{&r.price, "day"})
	}
	return ok
}

// perOf reads what a charge or threshold is for; said is what the price's own
// text says, such as "60.99p a day".
func (b *builder) perOf(r *row, in Row, said string) bool {
	before := len(b.out.Problems)
	r.per = period(b.choice(field(r.index, "per"), in.Per, units[:]...))
	if said == "" || said == units[r.per] || said == "month" && r.per == perPeriod && number.IsBlank(in.Per) {
		return len(b.out.Problems) == before
	}
	if number.IsBlank(in.Per) {
		r.per = period(slices.Index(units[:], said))
		return true
	}
	b.problem(field(r.index, "price"), in.Price, "a price per "+units[r.per]+", as the row says")
	return false
}

func (b *builder) readWindow(r *row, in Row) bool {
	switch text := number.Trim(in.Per); text {
	case "15", "30", "60":
		r.window, _ = strconv.Atoi(text)
		return true
	case "":
		b.wait(r.index, "the minutes over which the power is a mean, 15, 30 or 60,")
	default:
		b.problem(field(r.index, "per"), in.Per, "minutes: 15, 30 or 60")
	}
	return false
}

// cost reads an amount of money. It waits for one that is not there.
func (b *builder) cost(i int, at, typed, wanted string, below bool, per ...string) (m money, ok bool) {
	if number.IsBlank(typed) || onlySign(typed) {
		b.wait(i, "a price")
		return m, false
	}
	plain, minus := number.Trim(typed), false
	if below {
		for _, sign := range []string{"-", "−", "–"} {
			if rest, found := strings.CutPrefix(plain, sign); found {
				plain, minus = rest, true
				break
			}
		}
	}
	if number.IsBlank(plain) {
		b.wait(i, "a price") // a minus, and the number is still to come
		return m, false
	}
	a, ok := parseAmount(plain)
	if !ok || a.ways[0].Value.IsNegative() && (!below || minus) || a.per != "" && !slices.Contains(per, a.per) {
		b.problem(at, typed, wanted)
		return m, false
	}
	m = b.taken(at, typed, a, per)
	if minus {
		m.value = m.value.Neg()
	}
	return m, true
}

// perKWh reads a price per kWh into a place that stays where it is.
func (b *builder) perKWh(i int, at, typed string, below bool, into *decimal.Decimal) bool {
	m, ok := b.cost(i, at, typed, "a price per kWh, such as 0.14 or 14 ¢", below, "kwh")
	if *into = m.value; ok && !m.said {
		b.bare = append(b.bare, bare{into, "kWh"})
	}
	return ok
}

func (b *builder) percentOf(i int, at, typed, what string, into *decimal.Decimal) (ok bool) {
	if number.IsBlank(typed) {
		b.wait(i, "the percentage")
		return false
	}
	*into, ok = b.percent(at, typed, what)
	return ok
}

// discount reads a percentage, or money if a sign or a unit of money says so.
func (b *builder) discount(r *row, in Row) bool {
	at := field(r.index, "price")
	a, ok := parseAmount(number.Trim(in.Price))
	if ok && (a.sign != "" || a.code != "" || a.hundredths || a.per != "") || onlySign(in.Price) {
		m, ok := b.cost(r.index, at, in.Price, "a discount, such as 10 % or $5", false, "period", "month")
		r.price = m.value
		return ok
	}
	r.percents = true
	return b.percentOf(r.index, at, in.Price, "discount", &r.price)
}

// counts reads which rows a discount, tax or minimum counts.
func (b *builder) counts(r *row, in Row) bool {
	switch r.kind {
	case Discount, Tax, Minimum:
	default:
		return true
	}
	r.on = map[int]bool{}
	if number.IsBlank(in.On) {
		for i := range r.index {
			r.on[i] = true
			if r.kind == Tax && Kind(fold(b.in.Rows[i].Kind)) == Tax {
				b.notice(field(r.index, "on"), "tax-on-tax", "“"+r.name+"” is a tax on all rows above, “"+b.nameOf(i)+"” among them.")
			}
		}
		return true
	}
	ok := true
	pieces := strings.Split(in.On, ",")
	for len(pieces) > 0 {
		used := b.longestName(r, pieces)
		if used == 0 {
			b.unknownName(r, pieces[0])
			ok, used = false, 1
		}
		pieces = pieces[used:]
	}
	return ok
}

// longestName takes as many pieces as make up the name of rows above, as a name
// may hold a comma itself, and marks them.
func (b *builder) longestName(r *row, pieces []string) int {
	for n := len(pieces); n > 0; n-- {
		name := fold(strings.Join(pieces[:n], ","))
		found := n == 1 && name == "" // nothing between two commas
		for i := range r.index {
			if fold(b.nameOf(i)) == name {
				r.on[i], found = true, true
			}
		}
		if found {
			return n
		}
	}
	return 0
}

// unknownName tells of a name that no row above has, or that is half typed.
func (b *builder) unknownName(r *row, piece string) {
	var above []string
	for i := range r.index {
		name := b.nameOf(i)
		if strings.HasPrefix(fold(name), fold(piece)) {
			b.wait(r.index, "the rest of the name “"+number.Trim(piece)+"”")
			return
		}
		if !slices.Contains(above, name) {
			above = append(above, name)
		}
	}
	wanted := "names of rows above it, a comma between; there are none yet"
	if len(above) > 0 {
		wanted = "names of rows above it, a comma between: " + strings.Join(above, ", ")
	}
	b.problem(field(r.index, "on"), number.Trim(piece), wanted)
}
