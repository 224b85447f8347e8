package tariff

import (
	"math/big"

	"github.com/shopspring/decimal"

	"splittally/calc/energy"
	"splittally/calc/remark"
)

// way is how a bill is written from the same usage.
type way struct {
	spread    spread
	unrounded bool
	scale     *big.Rat // what the imported energy is multiplied by; nil is 1
}

// writer writes the lines of a bill in the order of the rows.
type writer struct {
	p       *pricing
	way     way
	lines   []Line
	exact   []*big.Rat // of each line
	taxes   []int      // which lines are taxes
	uses    []Use
	skipped []remark.Notice
	factor  *big.Rat // of the imported energy
	carry   *big.Rat
	sum     *big.Rat // of the exact amounts
	assumed bool
}

var hundred = new(big.Rat).SetInt64(100) // NewRat would look for divisors, at each start

func (p *pricing) write(way way) *writer {
	w := &writer{p: p, way: way, sum: new(big.Rat)}
	w.factor, w.carry = p.net(way.scale)
	for i, r := range p.t.rows {
		if p.rows[i].days > 0 {
			w.row(r, &p.rows[i])
		}
	}
	return w
}

func (w *writer) row(r *row, use *rowUsage) {
	switch r.kind {
	case Energy:
		w.add(r, r.name, w.quantity(r, use.energy), "kWh", r.price)
		w.use(r, r.name, false)
	case Tiers:
		w.tiers(r, use)
	case Times:
		w.times(r, use)
	case Export:
		w.add(r, r.name, use.energy, "kWh", r.price.Neg())
	case Fixed:
		w.add(r, r.name, use.count(r.per), units[r.per], r.price)
	case Demand:
		w.demand(r, use)
	case Netting:
		less := new(big.Rat).Sub(product(w.p.drawn, w.way.scale), product(w.p.drawn, w.factor))
		w.uses = append(w.uses, Use{Row: r.index, Name: r.name, KWh: decimalOf(less.Neg(less))})
	case Tax:
		w.taxes = append(w.taxes, len(w.lines))
		w.add(r, r.name, product(w.base(r), use.portion()), "", r.price.Shift(-2))
	case Discount:
		if r.percents {
			w.add(r, r.name, product(w.base(r), use.portion()), "", r.price.Shift(-2).Neg())
		} else {
			w.add(r, r.name, use.portion(), units[perPeriod], r.price.Neg())
		}
	case Minimum:
		least := product(ratOf(r.price), use.count(r.per))
		if missing := least.Sub(least, w.base(r)); missing.Sign() > 0 {
			w.add(r, r.name, missing, "", decimal.NewFromInt(1))
		}
	}
}

// add writes a line of quantity · rate.
func (w *writer) add(r *row, name string, quantity *big.Rat, unit string, rate decimal.Decimal) {
	exact := product(quantity, ratOf(rate))
	line := Line{Name: name, Quantity: decimalOf(quantity), Unit: unit, Rate: rate, Exact: decimalOf(exact), Row: r.index}
	line.Amount = w.p.t.round.round(line.Exact)
	w.lines, w.exact = append(w.lines, line), append(w.exact, exact)
	w.sum.Add(w.sum, exact)
}

// use notes the energy of the line just written.
func (w *writer) use(r *row, name string, assumed bool) {
	kWh := w.lines[len(w.lines)-1].Quantity
	w.uses = append(w.uses, Use{Row: r.index, Name: name, KWh: kWh, Assumed: assumed})
	w.assumed = w.assumed || assumed
}

// quantity turns metered kWh into those that a row prices.
func (w *writer) quantity(r *row, drawn *big.Rat) *big.Rat {
	switch r.basis {
	case adjusted:
		return product(drawn, w.factor, w.p.loss)
	case losses:
		return product(drawn, w.factor, new(big.Rat).Sub(w.p.loss, big.NewRat(1, 1)))
	}
	return product(drawn, w.factor)
}

// tiers writes a line for the first tier and each further one that is reached.
func (w *writer) tiers(r *row, use *rowUsage) {
	all := w.quantity(r, use.energy)
	count, below := use.count(r.per), new(big.Rat)
	for i, s := range r.steps {
		end, within := product(ratOf(s.upTo), count), new(big.Rat).Sub(all, below)
		if !s.isLast && all.Cmp(end) > 0 {
			within.Sub(end, below)
		}
		if i > 0 && within.Sign() <= 0 {
			return
		}
		label := tierLabel(i, s, below, end)
		w.add(r, r.name+", "+label, within, "kWh", s.price)
		w.use(r, label, false)
		below = end
	}
}

func tierLabel(i int, s step, below, end *big.Rat) string {
	text := func(r *big.Rat) string { return decimalOf(r).Round(2).String() }
	switch {
	case i == 0 && s.isLast:
		return "all"
	case i == 0:
		return "up to " + text(end) + " kWh"
	case s.isLast:
		return "over " + text(below) + " kWh"
	}
	return text(below) + " to " + text(end) + " kWh"
}

// times writes a line for each time-of-use period.
func (w *writer) times(r *row, use *rowUsage) {
	kWh, assumed := use.times.lines(r, w.way.spread, w.p.u)
	for i, b := range r.bands {
		if b.line == i {
			w.add(r, r.name+", "+b.name, w.quantity(r, kWh[i]), "kWh", b.price)
			w.use(r, b.name, assumed[i])
		}
	}
}

// demand writes the charge for the highest mean power, for the portion of the
// period's days for which the row holds.
func (w *writer) demand(r *row, use *rowUsage) {
	if use.why != nil {
		w.skipped = append(w.skipped, *use.why)
		return
	}
	kW := ratOf(use.kW)
	if w.way.unrounded {
		kW = product(ratOf(use.exactKW), w.way.scale)
	}
	w.add(r, r.name, product(kW, use.portion()), "kW", r.price)
}

// base gives what the rows named come to.
func (w *writer) base(r *row) *big.Rat {
	total := new(big.Rat)
	for i, l := range w.lines {
		if r.on[l.Row] {
			total.Add(total, w.counted(i))
		}
	}
	return total
}

// counted is a line's amount as sums take it: rounded if each line is rounded,
// else exact.
func (w *writer) counted(i int) *big.Rat {
	if w.way.unrounded || w.p.t.round.total {
		return w.exact[i]
	}
	return ratOf(w.lines[i].Amount)
}

// bill adds up the lines.
func (w *writer) bill() Bill {
	b := Bill{Lines: w.lines, Currency: w.p.t.Currency}
	if w.p.t.round.total {
		b.Total = w.p.t.round.round(decimalOf(w.sum))
		return b
	}
	for _, l := range w.lines {
		b.Total = b.Total.Add(l.Amount)
	}
	return b
}

func (w *writer) priced() Priced {
	out := Priced{Bill: w.bill(), Uses: w.uses, IsAssumed: w.assumed, Carry: decimalOf(w.carry), Skipped: w.skipped}
	tax := new(big.Rat)
	for _, i := range w.taxes {
		tax.Add(tax, w.counted(i))
	}
	if p := ratOf(w.p.t.inclusive); p.Sign() > 0 {
		rest := new(big.Rat).Sub(ratOf(out.Total), tax)
		tax.Add(tax, product(rest, p, new(big.Rat).Inv(new(big.Rat).Add(hundred, p))))
	}
	out.Tax = w.p.t.round.round(decimalOf(tax))
	return out
}

// oneMore gives the usage with a kilowatt-hour spread over the whole period.
func oneMore(u Usage) Usage {
	more := Slot{First: u.Span.First, Last: u.Span.Last(), To: minutesOfDay, Energy: energy.KilowattHour}
	u.Import = append(append([]Slot(nil), u.Import...), more)
	return u
}
