package account

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"splittally/calc/calendar"
	"splittally/calc/number"
	"splittally/calc/sorted"
	"splittally/calc/tariff"
)

// trials makes the bills that would come out if something were otherwise, as
// far as it can matter to the open pairs.
func (r *rebuild) trials(open []int) (list []trial) {
	add := func(says string, change func(*tariff.Schedule)) {
		if p, ok := r.variant(change); ok {
			list = append(list, trial{says, p})
		}
	}
	r.roundings(add)
	rows := map[int]bool{}
	for _, i := range open {
		for _, at := range r.placesOf(r.out.Pairs[i]) {
			rows[at.row] = true
		}
	}
	for row := range r.b.Schedule.Rows {
		if !rows[row] {
			continue
		}
		r.bases(row, add)
		r.thresholds(row, add)
		r.taxed(row, add)
		r.windows(row, add)
	}
	r.dates(add)
	if all := kWh(r.usage); !r.t.NeedsHours && len(r.usage.Import) > 1 && len(r.usage.Export) == 0 {
		u := r.usage
		u.Import = []tariff.Slot{{First: u.Span.First, Last: u.Span.Last(), To: dayMinutes, Energy: all}}
		says := "if the " + all.Decimal().Round(3).String() + " kWh are split evenly over the days, not as they were used"
		list = append(list, trial{says, r.t.Price(u)})
	}
	if !r.usage.Carried.IsZero() {
		u := r.usage
		u.Carried = decimal.Zero
		says := "if none of the " + r.usage.Carried.Round(3).String() + " kWh is taken off that earlier bills carried over"
		list = append(list, trial{says, r.t.Price(u)})
	}
	if r.hasLosses() && r.lossy() > 1 {
		u := r.usage
		u.LossFactor = decimal.NewFromInt(1)
		list = append(list, trial{"if no losses are added, in place of a loss factor of " + r.usage.LossFactor.String(), r.t.Price(u)})
	}
	return list
}

// lossy counts the rows that losses make dearer.
func (r *rebuild) lossy() (n int) {
	for _, row := range r.b.Schedule.Rows {
		if b := fold(row.Basis); b == "adjusted" || b == "losses" {
			n++
		}
	}
	return n
}

// hasLosses says whether a loss factor is given.
func (r *rebuild) hasLosses() bool {
	return !r.usage.LossFactor.IsZero() && !r.usage.LossFactor.Equal(decimal.NewFromInt(1))
}

type adder func(says string, change func(*tariff.Schedule))

// roundings tries other rules of rounding.
func (r *rebuild) roundings(add adder) {
	now := r.rounding()
	for _, h := range []struct{ half, says string }{
		{"up", "if halves are rounded up"}, {"even", "if halves are rounded to even"}, {"down", "if further digits are cut off"},
	} {
		if now.half != h.half && !(now.half == "" && h.half == "up") {
			add(h.says, func(s *tariff.Schedule) { s.Half = h.half })
		}
	}
	for places := range now.places {
		if r.isFiner(places) {
			continue
		}
		says := "if amounts are rounded to whole units"
		if places > 0 {
			says = "if amounts are rounded to " + strconv.Itoa(int(places)) + " decimals"
			if places == 1 {
				says = "if amounts are rounded to 1 decimal"
			}
		}
		add(says, func(s *tariff.Schedule) { s.Places = strconv.Itoa(int(places)) })
	}
	says := "if the total alone is rounded"
	if fold(r.b.Schedule.Round) == "total" {
		says = "if each line is rounded by itself"
	}
	add(says, func(s *tariff.Schedule) { s.Round = other(s.Round) })
}

// isFiner says whether a printed amount has more decimals than that.
func (r *rebuild) isFiner(places int32) bool {
	return slices.ContainsFunc(r.list, func(p printed) bool { return p.known && !p.amount.Equal(p.amount.Round(places)) })
}

// bases tries the other energies that a row could price.
func (r *rebuild) bases(row int, add adder) {
	switch r.kindOf(row) {
	case tariff.Energy, tariff.Tiers, tariff.Times:
	default:
		return
	}
	now := fold(r.b.Schedule.Rows[row].Basis)
	if now == "" {
		now = "metered"
	}
	factor := r.usage.LossFactor
	if !r.hasLosses() {
		return
	}
	for _, b := range []struct{ basis, says string }{
		{"metered", "if it is on the metered energy"},
		{"adjusted", "if it is on the energy with losses"},
		{"losses", "if it is on the losses alone"},
	} {
		if b.basis != now {
			add(b.says+" (loss factor "+factor.String()+")", func(s *tariff.Schedule) { s.Rows[row].Basis = b.basis })
		}
	}
}

// windows tries the other lengths of time whose mean power a demand can be.
func (r *rebuild) windows(row int, add adder) {
	if r.kindOf(row) != tariff.Demand {
		return
	}
	for _, minutes := range []string{"15", "30", "60"} {
		if number.Trim(r.b.Schedule.Rows[row].Per) != minutes {
			add("if the power is the mean of "+minutes+" minutes", func(s *tariff.Schedule) { s.Rows[row].Per = minutes })
		}
	}
}

// taxed tries a tax or discount with one row more or less among those it counts.
func (r *rebuild) taxed(row int, add adder) {
	kind := r.kindOf(row)
	if kind != tariff.Tax && kind != tariff.Discount {
		return
	}
	on := r.t.Counts(row)
	verb := "taxed"
	if kind == tariff.Discount {
		verb = "discounted"
	}
	seen := map[string]bool{}
	for k := range row {
		name := r.nameOf(k)
		if seen[fold(name)] {
			continue
		}
		seen[fold(name)] = true
		names := r.toggled(on, row, name)
		if len(names) == 0 {
			continue
		}
		says := "if “" + name + "” is " + verb + " as well"
		if on[k] {
			says = "if “" + name + "” is not " + verb
		}
		add(says, func(s *tariff.Schedule) { s.Rows[row].On = strings.Join(names, ", ") })
	}
}

// toggled lists the names counted, with name in if it is out, and out if in.
func (r *rebuild) toggled(on map[int]bool, row int, name string) (names []string) {
	for k := range row {
		n := r.nameOf(k)
		isIn := on[k] != (fold(n) == fold(name))
		if isIn && !slices.Contains(names, n) {
			names = append(names, n)
		}
	}
	return names
}

// dates tries prices that change, and seasons that begin, some days earlier or
// later, or not within the period at all.
func (r *rebuild) dates(add adder) {
	runs := r.runs()
	var edges []calendar.Day
	for _, h := range runs {
		if h.begins {
			edges = append(edges, h.First)
		}
		if h.ends {
			edges = append(edges, h.End)
		}
	}
	sorted.Stable(edges, cmp.Compare)
	for _, edge := range slices.Compact(edges) {
		for _, n := range dayOffsets {
			to := edge + calendar.Day(n)
			says := "if prices change on " + to.Short() + ", not on " + edge.Short()
			add(says, func(s *tariff.Schedule) { move(s, runs, edge, to) })
		}
		span := r.b.Usage.Span
		if span.First < edge && edge < span.End {
			add("if the prices from "+edge.Short()+" on hold for the whole period", func(s *tariff.Schedule) { move(s, runs, edge, span.First) })
			add("if the prices until "+(edge-1).Short()+" hold for the whole period", func(s *tariff.Schedule) { move(s, runs, edge, span.End) })
		}
	}
}

// move moves an edge of the days on which rows hold.
func move(s *tariff.Schedule, runs map[int]run, edge, to calendar.Day) {
	for row, h := range runs {
		if !(h.begins && h.First == edge) && !(h.ends && h.End == edge) {
			continue
		}
		if h.begins && h.First == edge {
			h.First = to
		}
		if h.ends && h.End == edge {
			h.End = to
		}
		target := &s.Rows[row]
		target.From, target.To, target.Since, target.Until = "", "", "", ""
		if h.begins {
			target.Since = h.First.String()
		}
		if h.ends {
			target.Until = h.Last().String()
		}
	}
}
