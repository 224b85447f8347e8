package account

import (
	"math"

	"github.com/shopspring/decimal"

	"splittally/calc/figure"
	"splittally/calc/tariff"
)

// A value is looked for in whole steps of ten decimals: finer than any price is
// printed, and exact.
const gridPlaces = 10

func onGrid(n int64) decimal.Decimal { return decimal.New(n, -gridPlaces) }

// target is a printed amount that has to come out.
type target struct {
	name string
	want decimal.Decimal
	of   func(tariff.Priced) decimal.Decimal
}

// search finds all values that make the printed amounts come out: of the lines
// that depend on the unknown, or of the total if no such line is printed.
func (r *rebuild) search(u unknown) {
	s := &r.out.Solved
	targets := r.targets(u)
	if len(targets) == 0 {
		s.Words = "No printed amount depends on " + u.what + "."
		return
	}
	low, high := int64(math.MinInt64), int64(math.MaxInt64)
	for _, t := range targets {
		from, to, why := find(u, t)
		if why != "" {
			s.Words = "No value of " + u.what + " makes the " + r.text(t.want) + " of “" + t.name + "” come out" + why
			return
		}
		low, high = max(low, from), min(high, to)
	}
	if low > high {
		s.Words = "No one value of " + u.what + " makes all the printed lines come out that depend on it."
		return
	}
	s.Found, s.Low, s.High = true, onGrid(low), onGrid(high)
	s.Value = shortest(low, high)
	s.Words = r.foundWords(u, targets)
}

func (r *rebuild) foundWords(u unknown, targets []target) string {
	s := r.out.Solved
	// The range is shown in two digits more, cut inwards so that it stays true.
	places := max(-s.Value.Exponent(), 0) + 2
	show := func(d decimal.Decimal) string {
		switch u.unit {
		case "%":
			return figure.Percent(d.String())
		case "":
			return d.String()
		}
		return d.String() + " " + u.unit
	}
	what := "the printed " + r.text(targets[0].want) + " comes out"
	if len(targets) > 1 {
		what = figure.Counted(len(targets), "printed amount comes", "printed amounts come") + " out"
	}
	text := "With " + show(s.Value) + " as " + u.what
	if u.unit == "%" && !r.offOn(u.row).IsZero() {
		text += " on the printed amounts of the lines it counts"
	}
	text += ", " + what
	low, high := s.Low.RoundCeil(places), s.High.RoundFloor(places)
	if low.LessThan(high) {
		return text + ", as with all from " + low.String() + " to " + high.String() + "."
	}
	return text + "."
}

// targets lists the printed lines that change with the unknown, matched on a
// bill that has them all.
func (r *rebuild) targets(u unknown) (list []target) {
	here, there := u.at(u.now), u.at(u.now.Mul(decimal.New(12, -1)))
	groups := match(r.list, here)
	base := &rebuild{b: r.b}
	base.out.Priced = here
	for i, group := range groups {
		p := r.list[i]
		if len(group) == 0 || !p.known {
			continue
		}
		pair := Pair{Line: group[0], Lines: group}
		at := base.placesOf(pair)
		a, _ := amountAt(here, at)
		b, _ := amountAt(there, at)
		own := u.row < 0 || here.Lines[group[0]].Row == u.row
		if !a.Equal(b) && own && !base.isShareOf(pair, u) {
			list = append(list, target{p.name, p.amount, r.amountOf(u, at)})
		}
	}
	if len(list) == 0 && r.out.HasTotal && !here.Total.Equal(there.Total) {
		list = append(list, target{"Total", r.out.Total, func(v tariff.Priced) decimal.Decimal { return v.Total }})
	}
	return list
}

// amountOf gives the amount at the places for a bill. A percentage that is looked
// for is of the lines it counts as they are printed.
func (r *rebuild) amountOf(u unknown, at []place) func(tariff.Priced) decimal.Decimal {
	off := decimal.Zero
	if u.unit == "%" {
		off = r.offOn(u.row)
	}
	return func(v tariff.Priced) decimal.Decimal {
		for _, l := range v.Lines {
			if !off.IsZero() && l.Row == u.row {
				return r.rounding().of(l.Quantity.Add(off).Mul(l.Rate))
			}
		}
		sum, _ := amountAt(v, at)
		return sum
	}
}

// isShareOf says whether a pair is a percentage on others, and not what is
// looked for itself.
func (r *rebuild) isShareOf(p Pair, u unknown) bool {
	return len(p.Lines) == 1 && r.isShare(p) && r.out.Lines[p.Line].Row != u.row
}

// find bisects: what is printed rises or falls with the unknown throughout. why
// is empty if values from low to high, in steps of the grid, make it come out.
func find(u unknown, t target) (low, high int64, why string) {
	from, to := steps(u.least), steps(u.most)
	value := func(n int64) decimal.Decimal { return t.of(u.at(onGrid(n))) }
	rises := value(from).LessThan(value(to))
	// beyond says whether the amount at n has passed what is printed, or has
	// come to it.
	beyond := func(n int64, orAt bool) bool {
		c := value(n).Cmp(t.want)
		if !rises {
			c = -c
		}
		return c > 0 || orAt && c == 0
	}
	if beyond(from, false) || !beyond(to, true) {
		return 0, 0, ": it would have to be outside " + u.least.String() + " to " + u.most.String() + "."
	}
	to = near10(u, from, to, beyond)
	low = bisect(from, to, func(n int64) bool { return beyond(n, true) })
	if beyond(low, false) {
		return 0, 0, ": about " + onGrid(low).Round(6).String() + " it skips to " + value(low).String() + "."
	}
	high = to
	if beyond(to, false) {
		high = bisect(low, to, func(n int64) bool { return beyond(n, false) }) - 1
	}
	return low, high, ""
}

// near10 narrows a wide range from below by tens, as most prices are small.
func near10(u unknown, from, to int64, beyond func(int64, bool) bool) int64 {
	for n := max(steps(u.now)/100, 1); n < to; n *= 10 {
		if n > from && beyond(n, false) {
			return n
		}
	}
	return to
}

func steps(d decimal.Decimal) int64 { return d.Shift(gridPlaces).IntPart() }

// bisect gives the first n from low to high that passes; high must.
func bisect(low, high int64, passes func(int64) bool) int64 {
	for low < high {
		middle := low + (high-low)/2
		if passes(middle) {
			high = middle
		} else {
			low = middle + 1
		}
	}
	return low
}

// shortest gives the number of the fewest decimals from low to high, the one
// nearest the middle if there are several.
func shortest(low, high int64) decimal.Decimal {
	middle := low + (high-low)/2
	step := int64(1)
	for range gridPlaces {
		step *= 10
	}
	for ; step > 1; step /= 10 {
		down := floorTo(middle, step)
		up := down + step
		isDown, isUp := down >= low, up <= high
		switch {
		case isDown && (!isUp || middle-down <= up-middle):
			return trimmed(down)
		case isUp:
			return trimmed(up)
		}
	}
	return trimmed(middle)
}

func floorTo(n, step int64) int64 {
	q := n / step
	if n%step < 0 {
		q--
	}
	return q * step
}

// trimmed writes a value of the grid without zeros at its end.
func trimmed(n int64) decimal.Decimal {
	places := int32(gridPlaces)
	for places > 0 && n%10 == 0 {
		n /= 10
		places--
	}
	return decimal.New(n, -places)
}
