package tariff_test

import (
	"math/big"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/tariff"
)

func kWh(s tariff.Slot) *big.Rat { return big.NewRat(int64(s.Energy), int64(energy.KilowattHour)) }

// held is the energy of the days of the period on which a row holds.
func (c *slow) held(r tariff.Row, slots []tariff.Slot) *big.Rat {
	sum := new(big.Rat)
	for _, s := range slots {
		sum.Add(sum, c.heldOf(r, s))
	}
	return sum
}

// heldOf splits a slot over its days by the minutes that it has of each.
func (c *slow) heldOf(r tariff.Row, s tariff.Slot) *big.Rat {
	all, on := int64(0), int64(0)
	for d := s.First; d <= s.Last; d++ {
		from, to := within(s, d)
		all += int64(to - from)
		if c.Span.Has(d) && holds(r, d) {
			on += int64(to - from)
		}
	}
	if on == all {
		return kWh(s)
	}
	return mul(kWh(s), big.NewRat(on, all))
}

// within gives the minutes of the clock that a slot has of one of its days.
func within(s tariff.Slot, d calendar.Day) (from, to int) {
	from, to = 0, 1440
	if d == s.First {
		from = s.From
	}
	if d == s.Last {
		to = s.To
	}
	return from, to
}

// drawn is what a row prices: on its days, after netting, on its basis.
func (c *slow) drawn(r tariff.Row) *big.Rat { return mul(c.held(r, c.Import), c.factor(r)) }

func (c *slow) factor(r tariff.Row) *big.Rat {
	if r.Basis != "adjusted" || c.LossFactor.IsZero() {
		return c.scale
	}
	return mul(c.scale, c.LossFactor.Rat())
}

func (c *slow) use(row int, kWh, price *big.Rat) {
	c.bill.uses = append(c.bill.uses, slowUse{row, kWh})
	c.line(row, mul(kWh, price))
}

func (c *slow) tiers(i int, r tariff.Row) {
	left, below, stretch := c.drawn(r), new(big.Rat), c.stretch(r)
	for _, step := range r.Steps {
		part := left
		if step.UpTo != "" {
			top := mul(number(step.UpTo), stretch)
			if room := new(big.Rat).Sub(top, below); left.Cmp(room) > 0 {
				part = room
			}
			below = top
		}
		left = new(big.Rat).Sub(left, part)
		c.use(i, part, number(step.Price))
	}
}

func (c *slow) times(i int, r tariff.Row) {
	parts := make([]*big.Rat, len(r.Bands))
	for b := range parts {
		parts[b] = new(big.Rat)
	}
	clock := newClock(c.Span, c.Dates, r)
	for _, s := range c.Import {
		e := c.heldOf(r, s)
		for b, portion := range c.portions(r, s, clock.minutes(s)) {
			if portion.Sign() != 0 {
				parts[b].Add(parts[b], mul(e, portion))
			}
		}
	}
	for b, part := range parts {
		c.use(i, mul(part, c.factor(r)), number(r.Bands[b].Price))
	}
}

// portions splits the energy of a slot, which has so many minutes of each band.
func (c *slow) portions(r tariff.Row, s tariff.Slot, minutes []int) []*big.Rat {
	all, touched, split := 0, 0, make([]*big.Rat, len(minutes))
	for b, n := range minutes {
		split[b] = new(big.Rat)
		if n > 0 {
			all, touched = all+n, touched+1
		}
	}
	isWhole := s.To-s.From+1440*int(s.Last-s.First) >= 1440
	unknown := isWhole && touched > 1 && s.Energy != 0
	c.vague = c.vague || unknown
	switch {
	case all == 0:
	case unknown && c.way == assumed:
		c.share(r, minutes, split)
	case unknown:
		split[c.extreme(r, minutes)].SetInt64(1)
	default:
		for b, n := range minutes {
			split[b].SetFrac64(int64(n), int64(all))
		}
	}
	return split
}

// share gives the bands named their shares, and the rest to the others by
// their minutes. A band without a minute in the slot gets nothing, and what the
// bands that have one get is made to add up to 1. If all of that is 0, the
// shares say nothing, and minutes count.
func (c *slow) share(r tariff.Row, minutes []int, split []*big.Rat) {
	rest, sum, all, others := big.NewRat(1, 1), new(big.Rat), int64(0), int64(0)
	for b, band := range r.Bands {
		all += int64(minutes[b])
		if portion, named := c.Shares[band.Name]; named {
			rest.Sub(rest, portion.Rat())
		} else {
			others += int64(minutes[b])
		}
	}
	for b, band := range r.Bands {
		portion, named := c.Shares[band.Name]
		switch {
		case minutes[b] == 0:
		case named:
			split[b] = portion.Rat()
		default:
			split[b].Mul(rest, big.NewRat(int64(minutes[b]), others))
		}
		sum.Add(sum, split[b])
	}
	for b := range split {
		if sum.Sign() > 0 {
			split[b].Quo(split[b], sum)
		} else {
			split[b].SetFrac64(int64(minutes[b]), all)
		}
	}
}

// extreme is the cheapest or dearest band that has a minute.
func (c *slow) extreme(r tariff.Row, minutes []int) int {
	best := -1
	for b, n := range minutes {
		if n == 0 {
			continue
		}
		if best >= 0 {
			dearer := number(r.Bands[b].Price).Cmp(number(r.Bands[best].Price)) > 0
			if dearer != (c.way == dearest) {
				continue
			}
		}
		best = b
	}
	return best
}

// power is the highest mean power in kW to two places, of windows of the clock
// that short slots fill. It is not known if a slot is longer than a window, or
// if none is filled on the days of the row.
func (c *slow) power(r tariff.Row) (kW *big.Rat, known bool) {
	type window struct {
		day   calendar.Day
		start int
		again bool
	}
	length := whole(r.Per)
	filled, sums, top := map[window]int{}, map[window]*big.Rat{}, new(big.Rat)
	known = c.stretch(r).Sign() == 0
	for _, s := range c.Import {
		any := s
		any.Energy = 1
		if c.heldOf(r, any).Sign() == 0 {
			continue
		}
		if s.First != s.Last || s.To-s.From > length {
			return nil, false
		}
		w := window{s.First, s.From / length, s.Again}
		if sums[w] == nil {
			sums[w] = new(big.Rat)
		}
		filled[w] += s.To - s.From
		sums[w].Add(sums[w], mul(kWh(s), big.NewRat(60, int64(length))))
		if filled[w] < length {
			continue
		}
		known = true
		if sums[w].Cmp(top) > 0 {
			top = sums[w]
		}
	}
	return round(top, 2, "up"), known
}
