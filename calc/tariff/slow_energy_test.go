package tariff_test

import (
	"math/big"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/tariff"
)

func kWh(s tariff.Slot) *big.Rat { return big.NewRat(int64(s.Energy), int64(energy.KilowattHour)) }

// held is the energy of the days on which a row holds; a slot of several days
// is split evenly.
func (c *slow) held(r tariff.Row, slots []tariff.Slot) *big.Rat {
	sum := new(big.Rat)
	for _, s := range slots {
		sum.Add(sum, heldOf(r, s))
	}
	return sum
}

func heldOf(r tariff.Row, s tariff.Slot) *big.Rat {
	days, on := int64(0), int64(0)
	for d := s.First; d <= s.Last; d++ {
		days++
		if holds(r, d) {
			on++
		}
	}
	if on == days {
		return kWh(s)
	}
	return mul(kWh(s), big.NewRat(on, days))
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
	clock := newClock(c.Dates, r)
	for _, s := range c.Import {
		e := heldOf(r, s)
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
	isWhole := s.First != s.Last || s.To-s.From == 1440
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
// bands that have one get is made to add up to 1.
func (c *slow) share(r tariff.Row, minutes []int, split []*big.Rat) {
	rest, others, sum := big.NewRat(1, 1), int64(0), new(big.Rat)
	for b, band := range r.Bands {
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
		split[b].Quo(split[b], sum)
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
// that short slots fill. It is not known if a slot is longer than a window.
func (c *slow) power(r tariff.Row) (kW *big.Rat, known bool) {
	type window struct {
		day   calendar.Day
		start int
		again bool
	}
	length := whole(r.Per)
	filled, sums, top := map[window]int{}, map[window]*big.Rat{}, new(big.Rat)
	for _, s := range c.Import {
		if heldOf(r, tariff.Slot{First: s.First, Last: s.Last, Energy: 1}).Sign() == 0 {
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
		if filled[w] == length && sums[w].Cmp(top) > 0 {
			top = sums[w]
		}
	}
	return round(top, 2, "up"), true
}

// clock finds the band of each minute of a row.
type clock struct {
	row   tariff.Row
	dates string
	spans [][]hours // by band
	days  map[calendar.Day][]bool
}

func newClock(dates string, r tariff.Row) clock {
	c := clock{row: r, dates: dates, days: map[calendar.Day][]bool{}}
	for _, b := range r.Bands {
		c.spans = append(c.spans, spans(b.Hours))
	}
	return c
}

// minutes counts the minutes of a slot by band, on the days of the row.
func (c clock) minutes(s tariff.Slot) []int {
	counts := make([]int, len(c.row.Bands))
	for d := s.First; d <= s.Last; d++ {
		if !holds(c.row, d) {
			continue
		}
		from, to := 0, 1440
		if s.First == s.Last {
			from, to = s.From, s.To
		}
		today, yesterday := c.on(d), c.on(d-1)
		for m := from; m < to; m++ {
			counts[c.band(m, today, yesterday)]++
		}
	}
	return counts
}

// on says which bands' days take in a day.
func (c clock) on(d calendar.Day) []bool {
	if on, known := c.days[d]; known {
		return on
	}
	on := make([]bool, len(c.row.Bands))
	c.days[d] = on
	for b, band := range c.row.Bands {
		on[b] = onDay(band.Days, d, holiday(c.dates, d))
	}
	return on
}

func (c clock) band(m int, today, yesterday []bool) int {
	for b, spans := range c.spans {
		for _, h := range spans {
			over := h.to <= h.from
			if today[b] && m >= h.from && (m < h.to || over) || yesterday[b] && over && m < h.to {
				return b
			}
		}
	}
	panic("a minute without a band")
}
