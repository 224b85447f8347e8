package tariff_test

import (
	"math/big"
	"slices"
	"strings"

	"splittally/calc/calendar"
	"splittally/calc/tariff"
)

// The slow calculation prices a usage as one would with pencil and patience:
// day by day, for times minute by minute of the local clock, each number a
// fraction that is never rounded before its line is. It is written from the
// rules at the head of schedule.go, and shares no code with the fast one.

// slowBill is what it comes to. Amounts and kWh of nothing are left out.
type slowBill struct {
	lines   []slowLine
	uses    []slowUse
	total   *big.Rat
	tax     *big.Rat
	skipped []int // rows
}

type slowLine struct {
	row          int
	exact, shown *big.Rat
}

type slowUse struct {
	row int
	kWh *big.Rat
}

// way says to which of the bands that a slot touches energy goes of which the
// time is not known.
type way int

const (
	assumed way = iota
	cheapest
	dearest
)

// slow is one schedule and one usage.
type slow struct {
	tariff.Schedule
	tariff.Usage
	places int
	way    way
	scale  *big.Rat // what netting leaves of the energy drawn
	carry  *big.Rat
	bill   slowBill
	// vague is true once energy of an unknown time was met.
	vague bool
}

// reckon prices by one way. places are the currency's.
func reckon(s tariff.Schedule, u tariff.Usage, places int, w way) *slow {
	if s.Places != "" {
		places = whole(s.Places)
	}
	c := &slow{Schedule: s, Usage: u, places: places, way: w}
	c.bill.tax = new(big.Rat)
	c.net()
	for i, r := range s.Rows {
		c.row(i, r)
	}
	c.bill.total = c.sum(nil)
	if s.Round == "total" {
		c.bill.total = round(c.bill.total, c.places, s.Half)
	}
	if s.Inclusive != "" {
		// A line of tax is no price, so it holds no tax of its own.
		p := percent(s.Inclusive)
		inside := mul(new(big.Rat).Sub(c.bill.total, c.bill.tax), p)
		c.bill.tax.Add(c.bill.tax, inside.Quo(inside, p.Add(p, big.NewRat(1, 1))))
	}
	c.bill.tax = round(c.bill.tax, c.places, s.Half)
	return c
}

func mul(a, b *big.Rat) *big.Rat { return new(big.Rat).Mul(a, b) }

// net takes what was sent out off what was drawn. Where there is no netting,
// what was carried stays owed.
func (c *slow) net() {
	c.scale, c.carry = big.NewRat(1, 1), c.Carried.Rat()
	if !slices.ContainsFunc(c.Rows, func(r tariff.Row) bool {
		return r.Kind == string(tariff.Netting) && c.part(r).Sign() > 0
	}) {
		return
	}
	drawn := c.held(tariff.Row{}, c.Import) // a row of all days
	sent := new(big.Rat).Add(c.held(tariff.Row{}, c.Export), c.Carried.Rat())
	left := new(big.Rat).Sub(drawn, sent)
	if left.Sign() <= 0 {
		c.scale, c.carry = new(big.Rat), left.Neg(left)
		return
	}
	c.carry = new(big.Rat)
	c.scale.Quo(left, drawn)
}

func (c *slow) row(i int, r tariff.Row) {
	price, said := money(strings.TrimSuffix(r.Price, " %"))
	switch tariff.Kind(r.Kind) {
	case tariff.Energy:
		c.line(i, mul(c.drawn(r), price))
	case tariff.Export:
		c.line(i, new(big.Rat).Neg(mul(c.held(r, c.Export), price)))
	case tariff.Tiers:
		c.tiers(i, r)
	case tariff.Times:
		c.times(i, r)
	case tariff.Fixed:
		c.line(i, mul(c.stretch(r), price))
	case tariff.Demand:
		// A price for some of the days is for their part of the period, or a
		// price that changes would be paid twice.
		if power, known := c.power(r); known {
			c.line(i, mul(mul(power, price), c.part(r)))
		} else {
			c.bill.skipped = append(c.bill.skipped, i)
		}
	case tariff.Discount:
		if !said {
			price = mul(percent(r.Price), c.sum(c.on(i, r)))
		}
		c.line(i, mul(price.Neg(price), c.part(r)))
	case tariff.Tax:
		c.bill.tax.Add(c.bill.tax, c.line(i, mul(mul(percent(r.Price), c.part(r)), c.sum(c.on(i, r)))))
	case tariff.Minimum:
		lack := price.Sub(mul(price, c.stretch(r)), c.sum(c.on(i, r)))
		if c.part(r).Sign() > 0 && lack.Sign() > 0 {
			c.line(i, lack)
		}
	}
}

// line adds a line and gives its amount as sums take it.
func (c *slow) line(row int, exact *big.Rat) *big.Rat {
	l := slowLine{row, exact, round(exact, c.places, c.Half)}
	c.bill.lines = append(c.bill.lines, l)
	return c.counts(l)
}

func (c *slow) counts(l slowLine) *big.Rat {
	if c.Round == "total" {
		return l.exact
	}
	return l.shown
}

// on gives the indices of the rows that a row is about.
func (c *slow) on(i int, r tariff.Row) (rows []int) {
	for above, other := range c.Rows[:i] {
		if r.On == "" || slices.Contains(strings.Split(r.On, ", "), other.Name) {
			rows = append(rows, above)
		}
	}
	return append(rows, -1) // never nil, which is all
}

// sum adds up the lines of some rows so far, of all if rows is nil.
func (c *slow) sum(rows []int) *big.Rat {
	total := new(big.Rat)
	for _, l := range c.bill.lines {
		if rows == nil || slices.Contains(rows, l.row) {
			total.Add(total, c.counts(l))
		}
	}
	return total
}

// stretch is how much of the period, how many days or how many months a row
// holds.
func (c *slow) stretch(r tariff.Row) *big.Rat {
	sum := new(big.Rat)
	for d := c.Span.First; d < c.Span.End; d++ {
		switch {
		case !holds(r, d):
		case r.Per == "day":
			sum.Add(sum, big.NewRat(1, 1))
		case r.Per == "month":
			sum.Add(sum, big.NewRat(1, monthLength(d)))
		default:
			sum.Add(sum, big.NewRat(1, int64(c.Span.Days())))
		}
	}
	return sum
}

// part is the part of the period for which a row holds.
func (c *slow) part(r tariff.Row) *big.Rat {
	r.Per = "period"
	return c.stretch(r)
}

func monthLength(d calendar.Day) int64 {
	year, month, _ := d.Date()
	for last := 31; ; last-- {
		if _, ok := calendar.Date(year, month, last); ok {
			return int64(last)
		}
	}
}
