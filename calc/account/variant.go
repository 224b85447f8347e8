package account

import (
	"math/bits"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/number"
	"splittally/calc/tariff"
)

const dayMinutes = 1440

// lean gives a usage with one slot a day, where no price depends on hours: it
// costs the same and is priced in a fraction of the time.
func lean(t tariff.Tariff, u tariff.Usage) tariff.Usage {
	if t.NeedsHours || t.NeedsPower {
		return u
	}
	u.Import, u.Export = byDays(u.Import), byDays(u.Export)
	return u
}

func byDays(slots []tariff.Slot) (list []tariff.Slot) {
	for _, s := range slots {
		if s.First != s.Last {
			list = append(list, s)
			continue
		}
		if n := len(list); n > 0 && list[n-1].First == s.First && list[n-1].Last == s.First {
			list[n-1].Energy += s.Energy
			continue
		}
		list = append(list, tariff.Slot{First: s.First, Last: s.First, To: dayMinutes, Energy: s.Energy})
	}
	return list
}

// variant prices the usage by a schedule that was changed; ok is false if there
// is no schedule, or the change leaves it without a row that it had.
func (r *rebuild) variant(change func(*tariff.Schedule)) (p tariff.Priced, ok bool) {
	t, ok := r.changed(change)
	if !ok {
		return p, false
	}
	return t.Price(r.usage), true
}

func (r *rebuild) changed(change func(*tariff.Schedule)) (t tariff.Tariff, ok bool) {
	s := r.b.Schedule
	if len(s.Rows) == 0 {
		return t, false
	}
	s.Rows = slices.Clone(s.Rows)
	change(&s)
	built := tariff.Build(s, r.b.Options)
	return built.Tariff, built.Tariff.Given || !r.t.Given
}

// plain writes a number so that it can be read in one way only: three decimals
// could be a group of thousands.
func plain(d decimal.Decimal) string {
	text := d.String()
	if _, behind, found := strings.Cut(text, "."); found && len(behind) == 3 {
		text += "0"
	}
	return text
}

// price writes a price as a row's text that needs no question: in hundredths, as
// these say their unit.
func price(d decimal.Decimal) string { return plain(d.Shift(2)) + " ¢" }

// kindOf gives the kind of a row of the schedule.
func (r *rebuild) kindOf(row int) tariff.Kind {
	if row < 0 || row >= len(r.b.Schedule.Rows) {
		return ""
	}
	return tariff.Kind(strings.ToLower(number.Trim(r.b.Schedule.Rows[row].Kind)))
}

// nameOf gives the name of a row as its lines have it.
func (r *rebuild) nameOf(row int) string {
	if row < len(r.b.Schedule.Rows) {
		if name := number.Trim(r.b.Schedule.Rows[row].Name); name != "" {
			return name
		}
	}
	for _, l := range r.out.Lines {
		if l.Row == row {
			name, _ := parts(l, r.out.Uses)
			return name
		}
	}
	return string(r.kindOf(row))
}

// places of a line: which of its row's it is. The names of tiers change with
// their ends, their order does not.
type place struct {
	row, nth int
	all      bool // the whole row
}

// placesOf gives the places of a pair's lines.
func (r *rebuild) placesOf(p Pair) (list []place) {
	lines := p.linesOf()
	for _, l := range lines {
		row, nth, all := r.out.Lines[l].Row, 0, 0
		for k, other := range r.out.Lines {
			if other.Row != row {
				continue
			}
			if all++; k < l {
				nth++
			}
		}
		if len(lines) > 1 && all == len(lines) && r.out.Lines[lines[0]].Row == row {
			return []place{{row: row, all: true}}
		}
		list = append(list, place{row: row, nth: nth})
	}
	return list
}

// amountAt adds up the lines at the places; known is false if there are none.
func amountAt(p tariff.Priced, at []place) (sum decimal.Decimal, known bool) {
	for _, want := range at {
		nth := 0
		for _, l := range p.Lines {
			if l.Row != want.row {
				continue
			}
			if want.all || nth == want.nth {
				sum, known = sum.Add(l.Amount), true
			}
			nth++
		}
	}
	return sum, known
}

// kWh gives the energy drawn.
func kWh(u tariff.Usage) (sum energy.Energy) {
	for _, s := range u.Import {
		sum += s.Energy
	}
	return sum
}

// scaled gives the usage with so much energy drawn in place of what it has, each
// slot in proportion, to the microwatt-hour.
func scaled(u tariff.Usage, to energy.Energy) tariff.Usage {
	from := kWh(u)
	if from == 0 || to == from {
		return u
	}
	u.Import = slices.Clone(u.Import)
	// The sums are scaled and cut, so that the slots add up to what is asked.
	var was, before energy.Energy
	for i, s := range u.Import {
		was += s.Energy
		upTo := portion(to, was, from)
		u.Import[i].Energy, before = upTo-before, upTo
	}
	return u
}

// portion gives e·part/whole, cut towards zero. whole must not be 0.
func portion(e, part, whole energy.Energy) energy.Energy {
	hi, lo := bits.Mul64(uint64(e.Abs()), uint64(part.Abs()))
	if hi >= uint64(whole.Abs()) {
		return 0 // out of range of an Energy
	}
	q, _ := bits.Div64(hi, lo, uint64(whole.Abs()))
	if (e < 0) != (part < 0) != (whole < 0) {
		return -energy.Energy(q)
	}
	return energy.Energy(q)
}

// window is how far beyond the period boundaries are looked for.
const window = 3

// run is the days on which a row holds, within the period and some days about
// it. One that holds on the first or the last of these has no such end.
type run struct {
	calendar.Span
	begins, ends bool
}

// runs gives for each row the run of days on which it holds, as far as it is
// one and has an end near or within the period. It asks the tariff day by day,
// whatever way the dates were written in.
func (r *rebuild) runs() map[int]run {
	span := calendar.Span{First: r.b.Usage.Span.First - window, End: r.b.Usage.Span.End + window}
	if span.Days() > 500 {
		return nil
	}
	all, broken := map[int]run{}, map[int]bool{}
	for d := span.First; d < span.End; d++ {
		seen := map[int]bool{}
		for _, l := range r.t.Price(tariff.Usage{Span: calendar.Span{First: d, End: d + 1}}).Lines {
			if seen[l.Row] {
				continue
			}
			seen[l.Row] = true
			h, known := all[l.Row]
			switch {
			case !known:
				h = run{Span: calendar.Span{First: d, End: d + 1}, begins: d > span.First}
			case h.End == d:
				h.End = d + 1
			default:
				broken[l.Row] = true
			}
			h.ends = h.End < span.End
			all[l.Row] = h
		}
	}
	for row := range broken {
		delete(all, row)
	}
	return all
}
