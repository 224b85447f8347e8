package tariff

import (
	"math/big"
	"strconv"

	"github.com/shopspring/decimal"

	"splittally/calc/remark"
)

// pricing is a period's usage, gathered for the rows of a tariff: everything
// that takes going through the slots, done once.
type pricing struct {
	t      Tariff
	u      Usage
	facts  []dayFact
	shorts []short // the import
	long   []Slot
	rows   []rowUsage
	sent   *big.Rat // kWh exported in the period, and carried from earlier
	drawn  *big.Rat // kWh imported in the period
	days   []sum    // of drawn
	netted bool
	loss   *big.Rat // adjusted kWh for one metered
}

// rowUsage is what a row prices.
type rowUsage struct {
	held
	energy  *big.Rat // of energy, tiers and export, metered
	times   timed
	kW      decimal.Decimal // of a demand, rounded
	exactKW decimal.Decimal
	why     *remark.Notice // a demand cannot be known
}

// Price reckons the bill of a period. A tariff that is not Given gives a bill
// of what rows it has.
func (t Tariff) Price(u Usage) Priced {
	p := t.gather(u)
	w := p.write(way{})
	out := w.priced()
	out.Least, out.Most = out.Total, out.Total
	if out.IsAssumed {
		out.Least = p.write(way{spread: cheapest}).bill().Total
		out.Most = p.write(way{spread: dearest}).bill().Total
	}
	out.Notices = p.notices()
	return out
}

// gather goes through the usage.
func (t Tariff) gather(u Usage) *pricing {
	p := &pricing{t: t, u: u, facts: t.factsOf(u.Span)}
	if p.loss = ratOf(u.LossFactor); u.LossFactor.IsZero() {
		p.loss.SetInt64(1)
	}
	c := cutter{span: u.Span}
	p.shorts, p.long = c.sort(u.Import)
	drawn, sent := p.byDay(p.shorts, p.long), p.byDay(c.sort(u.Export))
	p.drawn, p.sent, p.days = total(drawn), total(sent), drawn
	p.rows = make([]rowUsage, len(t.rows))
	for i, r := range t.rows {
		use := &p.rows[i]
		use.held = p.heldBy(r)
		if use.days == 0 {
			continue
		}
		switch r.kind {
		case Energy, Tiers:
			use.energy = use.of(drawn)
		case Export:
			use.energy = use.of(sent)
		case Times:
			use.times = p.timesOf(r, use.held)
		case Demand:
			use.kW, use.exactKW, use.why = p.demandOf(r, use.held)
		case Netting:
			p.netted = true
		}
	}
	return p
}

// byDay gives the energy of each day of the period.
func (p *pricing) byDay(shorts []short, long []Slot) []sum {
	days := make([]sum, len(p.facts))
	if len(days) == 0 {
		return nil
	}
	for _, s := range shorts {
		days[s.day].whole += int64(s.energy)
	}
	c := cutter{span: p.u.Span}
	for _, slot := range long {
		cut := c.cut(slot)
		for _, piece := range cut.pieces {
			num, den := cut.share(piece)
			days[piece.day].add(slot.Energy, num, den)
		}
	}
	return days
}

func total(days []sum) *big.Rat {
	var s sum
	for _, d := range days {
		s.addSum(d)
	}
	return s.kWh()
}

// of gives the energy of the days held.
func (h held) of(days []sum) *big.Rat {
	var s sum
	for i, on := range h.on {
		if on {
			s.addSum(days[i])
		}
	}
	return s.kWh()
}

// net gives what the imported energy is multiplied by: scale, and less what is
// netted; and the energy that netting carries over.
func (p *pricing) net(scale *big.Rat) (factor, carry *big.Rat) {
	factor, carry = product(scale), ratOf(p.u.Carried)
	if !p.netted {
		return factor, carry
	}
	drawn, sent := product(p.drawn, scale), new(big.Rat).Add(p.sent, carry)
	left := new(big.Rat).Sub(drawn, sent)
	if left.Sign() < 0 || drawn.Sign() <= 0 {
		return new(big.Rat), new(big.Rat).Neg(left)
	}
	return factor.Mul(factor, left.Quo(left, drawn)), new(big.Rat)
}

// notices tells what was assumed besides the shares.
func (p *pricing) notices() (list []remark.Notice) {
	long := false
	for _, slot := range p.long {
		long = long || slot.Last > slot.First+1
	}
	told := map[string]bool{} // a price that changes may keep its name
	for i, r := range p.t.rows {
		if h := p.rows[i].held; long && p.rows[i].energy != nil && h.days < len(h.on) && !told[r.name] {
			told[r.name] = true
			list = append(list, remark.Notice{
				Code: "split-by-days", Path: p.rowPath(r),
				Text: "“" + r.name + "” holds for some days of the period. A total over several days is split evenly among them.",
			})
		}
	}
	if p.t.Given {
		list = append(list, p.unpriced(p.days)...)
	}
	return list
}

func (p *pricing) rowPath(r *row) string { return p.t.path + ".rows." + strconv.Itoa(r.index) }

// Marginal gives the price of one further kilowatt-hour in the period, used
// when the others are: every slot grows in proportion (with no energy at all it
// is spread over the minutes of the clock). Tiers, times of use, netting,
// demand, discounts, taxes and minimum are as they come out; nothing is rounded
// but the result, to 12 decimals:
//
//	Price(usage + 1 kWh) − Price(usage)
func (t Tariff) Marginal(u Usage) decimal.Decimal {
	p := t.gather(u)
	if len(p.facts) == 0 {
		return decimal.Decimal{}
	}
	before := p.write(way{unrounded: true}).sum
	var after *big.Rat
	if p.drawn.Sign() > 0 {
		one := big.NewRat(1, 1)
		scale := one.Quo(new(big.Rat).Add(p.drawn, one), p.drawn)
		after = p.write(way{unrounded: true, scale: scale}).sum
	} else {
		after = t.gather(oneMore(u)).write(way{unrounded: true}).sum
	}
	return decimalOf(after.Sub(after, before)).Round(12)
}
