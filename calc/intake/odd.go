package intake

import (
	"math"
	"slices"
	"strings"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/ledger"
)

// rootSum adds two half-widths as independent ones add: in squares.
func rootSum(x, y energy.Energy) energy.Energy {
	return rounded(math.Hypot(x.KilowattHours(), y.KilowattHours()))
}

// plus adds; a sum out of range, which takes a thousand figures none of which a
// home has, stays at the edge.
func plus(x, y energy.Energy) energy.Energy {
	sum, err := x.Add(y)
	switch {
	case err == nil:
		return sum
	case x < 0:
		return math.MinInt64 + 1
	}
	return math.MaxInt64
}

// rootShare gives the part of a half-width for each of n, so that n parts add
// in squares to the whole.
func rootShare(x energy.Energy, n int) energy.Energy {
	return rounded(x.KilowattHours() / math.Sqrt(float64(n)))
}

// rootTimes gives the half-width of a sum of n figures with the same one.
func rootTimes(x energy.Energy, n int) energy.Energy {
	return rounded(x.KilowattHours() * math.Sqrt(float64(n)))
}

func rounded(kWh float64) energy.Energy {
	e, err := energy.FromKilowattHours(kWh)
	if err != nil {
		return 0
	}
	return e
}

// tellAbsent tells which days within the ledger no line speaks of.
func (a *attempt) tellAbsent(l ledger.Ledger, figures []figure) {
	named := make([]bool, len(l.Days))
	for fi := range figures {
		f := &figures[fi]
		for d := max(f.span.First, l.First); d < min(f.span.End, l.Span().End); d++ {
			named[d-l.First] = true
		}
	}
	var days []calendar.Day
	for i := range l.Days {
		e := &l.Days[i]
		if !named[i] && e.State == ledger.Missing {
			days = append(days, l.First+calendar.Day(i))
		}
	}
	if len(days) > 0 {
		a.notice("days-absent", of(l)+"No line speaks of "+plural(len(days), "day")+": "+list(days)+".")
	}
}

// of begins a sentence with a ledger's name.
func of(l ledger.Ledger) string {
	if l.Name == "" {
		return ""
	}
	return l.Name + ": "
}

// tellOdd tells of days below zero, and of days a thousand times too big or
// small, whose unit is likely wrong.
func (a *attempt) tellOdd(l ledger.Ledger) {
	var negative, doubtful []calendar.Day
	var sizes []int
	for i := range l.Days {
		e := &l.Days[i]
		if e.State == ledger.Missing {
			continue
		}
		if e.Energy < 0 {
			negative = append(negative, l.First+calendar.Day(i))
		}
		if e.Energy != 0 {
			sizes = append(sizes, int(e.Energy.Abs()))
		}
	}
	if len(negative) > 0 {
		as := "where more was fed in than taken"
		if IsLeg(l.Name) {
			as = "where a clamp is turned round, or " + as[len("where "):]
		}
		a.notice("negative-days", of(l)+"Below zero, as "+as+": "+list(negative)+".")
	}
	if len(sizes) < 3 {
		return
	}
	usual := energy.Energy(middle(sizes))
	for i := range l.Days {
		e := &l.Days[i]
		size := e.Energy.Abs()
		if e.State != ledger.Missing && size != 0 && (size/300 > usual || usual/300 > size) {
			doubtful = append(doubtful, l.First+calendar.Day(i))
		}
	}
	if len(doubtful) > 0 {
		a.notice("unit-doubtful", of(l)+"Hundreds of times larger or smaller than the other days, so the unit may be wrong: "+list(doubtful)+".")
	}
}

// tellDropped tells of columns of numbers that were left out.
func (a *attempt) tellDropped() {
	var names []string
	for _, c := range a.p.dropped {
		if c.name != "" {
			names = append(names, "“"+c.name+"”")
		}
	}
	money := slices.ContainsFunc(a.p.rows, func(r row) bool { return a.p.facts[r.line].money > 0 })
	if money {
		a.notice("money-ignored", "Amounts of money beside the figures were left out.")
	}
	if len(a.p.rough) > 0 {
		a.notice("rough-figures", "The text calls figures rough or estimated on "+lineList(a.p.rough)+"; they were taken as written.")
	}
	if a.p.unread {
		names = append(names, "one whose figures can't be read")
	}
	if a.p.constant {
		names = append(names, "one that holds the same whole number on every line")
	}
	if len(names) > 0 {
		a.notice("columns-ignored", "Columns that hold no energy were left out: "+strings.Join(names, ", ")+".")
	}
}
