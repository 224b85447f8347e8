package tariff

import (
	"math/big"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"splittally/calc/energy"
)

// timed is the energy of a time-of-use row: what is known of each line, and
// what is not.
type timed struct {
	known   []sum // by line
	unknown []group
}

// group is energy that slots too long to tell hours apart hold, gathered by the
// minutes that each line has within them.
type group struct {
	minutes []int64
	sum     sum
}

// timesOf gathers the energy of a time-of-use row.
func (p *pricing) timesOf(r *row, h held) timed {
	t := timed{known: make([]sum, len(r.bands))}
	minutes := make([]int64, len(r.bands))
	faces := make([]*face, len(p.facts)) // nil where the row does not hold
	for day, f := range p.facts {
		if h.on[day] {
			faces[day] = r.clocks[f.kinds]
		}
	}
	for _, s := range p.shorts {
		if f := faces[s.day]; f != nil {
			t.addShort(f, s)
		}
	}
	c := cutter{span: p.u.Span}
	for _, slot := range p.long {
		cut := c.cut(slot)
		if cut.isLong() {
			t.addLong(faces, slot.Energy, cut, minutes)
			continue
		}
		for _, piece := range cut.pieces {
			if f := faces[piece.day]; f != nil {
				t.addPiece(f, slot.Energy, piece, cut)
			}
		}
	}
	return t
}

// addShort adds the energy of a slot to the lines that have its minutes.
func (t *timed) addShort(f *face, s short) {
	if s.to <= f.until[s.from] {
		t.known[f.line[s.from]].whole += int64(s.energy)
		return
	}
	p := piece{int(s.day), int(s.from), int(s.to)}
	t.addPiece(f, s.energy, p, cut{nil, int64(s.to - s.from)})
}

// addPiece adds the energy of a piece to the lines that have its minutes.
func (t *timed) addPiece(f *face, e energy.Energy, p piece, c cut) {
	if p.to <= int(f.until[p.from]) {
		num, den := c.share(p)
		t.known[f.line[p.from]].add(e, num, den)
		return
	}
	for m := p.from; m < p.to; {
		next := min(p.to, int(f.until[m]))
		t.known[f.line[m]].add(e, int64(next-m), c.total)
		m = next
	}
}

// addLong adds the energy of a slot of a day and more. If all its minutes belong
// to one line, it is known.
func (t *timed) addLong(faces []*face, e energy.Energy, c cut, minutes []int64) {
	clear(minutes)
	all := int64(0)
	for _, piece := range c.pieces {
		f := faces[piece.day]
		if f == nil {
			continue
		}
		all += int64(piece.to - piece.from)
		if piece.to-piece.from == minutesOfDay {
			for line, n := range f.minutes {
				minutes[line] += int64(n)
			}
			continue
		}
		for m := piece.from; m < piece.to; m++ {
			minutes[f.line[m]]++
		}
	}
	if all == 0 {
		return
	}
	if only := slices.Index(minutes, all); only >= 0 {
		t.known[only].add(e, all, c.total)
		return
	}
	for i := range t.unknown {
		if slices.Equal(t.unknown[i].minutes, minutes) {
			t.unknown[i].sum.add(e, all, c.total)
			return
		}
	}
	g := group{minutes: slices.Clone(minutes)}
	g.sum.add(e, all, c.total)
	t.unknown = append(t.unknown, g)
}

// spread is how energy of unknown hours falls into the periods.
type spread uint8

const (
	asShared spread = iota // by Usage.Shares and the minutes of the clock
	cheapest               // all to the lowest price
	dearest
)

// lines gives the energy of each line in kWh, and which lines rest on an
// assumption.
func (t timed) lines(r *row, by spread, u Usage) (kWh []*big.Rat, assumed []bool) {
	kWh, assumed = make([]*big.Rat, len(r.bands)), make([]bool, len(r.bands))
	for i := range kWh {
		kWh[i] = t.known[i].kWh()
	}
	for _, g := range t.unknown {
		if g.sum.isZero() {
			continue
		}
		all, by, isPrinted := g.sum.kWh(), by, u.IsPrinted && isNamed(r, g.minutes, u.Shares)
		if isPrinted {
			by = asShared
		}
		for i, w := range weights(r, g.minutes, by, u.Shares) {
			if w.Sign() != 0 {
				kWh[i].Add(kWh[i], product(all, w))
				assumed[i] = assumed[i] || !isPrinted
			}
		}
	}
	return kWh, assumed
}

// isNamed says whether shares tell all lines that have minutes in a group: each
// by its name, but for one that has the rest.
func isNamed(r *row, minutes []int64, shares map[string]decimal.Decimal) bool {
	named, others := 0, 0
	for i, n := range minutes {
		if n == 0 || r.bands[i].line != i {
			continue
		}
		if _, ok := shareOf(shares, r.bands[i].name); ok {
			named++
		} else {
			others++
		}
	}
	return named > 0 && others <= 1
}

// weights gives the portions of the lines within a group; they add up to 1.
func weights(r *row, minutes []int64, by spread, shares map[string]decimal.Decimal) []*big.Rat {
	if by != asShared {
		return extreme(r, minutes, by)
	}
	list := make([]*big.Rat, len(minutes))
	rest, others := big.NewRat(1, 1), int64(0)
	for i, n := range minutes {
		list[i] = new(big.Rat)
		if r.bands[i].line != i {
			continue
		}
		share, named := shareOf(shares, r.bands[i].name)
		switch {
		case named:
			rest.Sub(rest, share)
			if n > 0 {
				list[i].Set(share)
			}
		default:
			others += n
		}
	}
	if rest.Sign() > 0 {
		for i, n := range minutes {
			if _, named := shareOf(shares, r.bands[i].name); !named && n > 0 {
				list[i].Mul(rest, big.NewRat(n, others))
			}
		}
	}
	return scaled(list, minutes)
}

// shareOf gives the share assumed of a time-of-use period, whatever the case of
// its name; a negative one is none.
func shareOf(shares map[string]decimal.Decimal, name string) (*big.Rat, bool) {
	share, ok := shares[name]
	if !ok {
		found := ""
		for other, s := range shares { // the order of a map must not matter
			if strings.EqualFold(other, name) && (!ok || other < found) {
				share, found, ok = s, other, true
			}
		}
	}
	if !ok || share.IsNegative() {
		return nil, false
	}
	return ratOf(share), true
}

// scaled makes the weights add up to 1; if there are none, by the minutes.
func scaled(list []*big.Rat, minutes []int64) []*big.Rat {
	total := new(big.Rat)
	for _, w := range list {
		total.Add(total, w)
	}
	if total.Sign() == 0 {
		all := int64(0)
		for _, n := range minutes {
			all += n
		}
		for i, n := range minutes {
			list[i].SetFrac64(n, all)
		}
		return list
	}
	for _, w := range list {
		w.Quo(w, total)
	}
	return list
}

// extreme gives all to the line of the lowest or the highest price.
func extreme(r *row, minutes []int64, by spread) []*big.Rat {
	list, at := make([]*big.Rat, len(minutes)), -1
	for i, n := range minutes {
		list[i] = new(big.Rat)
		if n == 0 {
			continue
		}
		if at < 0 || by == cheapest && r.bands[i].price.LessThan(r.bands[at].price) || by == dearest && r.bands[i].price.GreaterThan(r.bands[at].price) {
			at = i
		}
	}
	list[at].SetInt64(1)
	return list
}
