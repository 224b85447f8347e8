package intake

import (
	"slices"
	"strings"

	"splittally/calc/energy"
	"splittally/calc/intake/scan"
	"splittally/calc/intake/words"
	"splittally/calc/remark"
)

// unitOf is the unit of a column's figures that have none of their own.
type unitOf struct {
	unit   words.Unit
	energy bool // kW was written and kWh is meant
}

// unitFor gives the unit of one figure.
func (a *attempt) unitFor(it *scan.Item, column int) words.Unit {
	u := it.Unit
	if !u.IsEnergy() && !u.IsPower() {
		u = a.units[column].unit
	}
	if u.IsPower() && a.units[column].energy {
		u -= words.Watt - words.WattHour
	}
	return u
}

// likelyUnit gives the unit of the heading, the lines or the text around, kWh
// if none is written.
func (p *paper) likelyUnit() words.Unit {
	for _, c := range p.columns {
		if c.unit.IsEnergy() || c.unit.IsPower() {
			return c.unit
		}
	}
	if p.titleUnit != 0 {
		return p.titleUnit
	}
	return words.KilowattHour
}

// settleUnits finds the unit of each column: its own on the lines, else of the
// heading, else of the text around, else kWh is assumed and said.
func (a *attempt) settleUnits() {
	a.units = make([]unitOf, len(a.p.columns))
	var said []string
	for c := range a.p.columns {
		u, from := a.columnUnit(c)
		a.units[c].unit = u
		if text := u.Name() + from; !slices.Contains(said, text) {
			said = append(said, text)
		}
		if from == assumed {
			a.assumeUnit(c, &said)
		} else {
			a.doubtUnit(c)
		}
	}
	a.unitText = strings.Join(said, "; ")
	if a.powers() && !a.severalADay() {
		a.askPower()
	}
}

const assumed = " (assumed)"

// columnUnit gives the unit of a column and where it was found.
func (a *attempt) columnUnit(c int) (u words.Unit, from string) {
	count := map[words.Unit]int{}
	var seen []words.Unit
	bare := 0
	for ri := range a.p.rows {
		r := &a.p.rows[ri]
		if i := r.figures[c]; i >= 0 {
			if u := a.p.sheet.Items[i].Unit; u == 0 {
				bare++
			} else if count[u]++; count[u] == 1 {
				seen = append(seen, u)
			}
		}
	}
	if len(seen) > 0 {
		arrange(seen, func(u *words.Unit) int { return -count[*u] })
		from = ", from the lines"
		if len(seen) > 1 {
			from = " and " + seen[1].Name() + from
		}
	}
	head := a.p.columns[c].unit
	switch {
	case head.IsEnergy() || head.IsPower():
		if len(seen) > 0 {
			return head, " from the heading, and " + seen[0].Name() + " from lines"
		}
		return head, ", from the heading"
	case len(seen) > 0:
		if bare > 0 {
			a.notice("unit-assumed", plural(bare, "figure")+" without a unit "+wasOrWere(bare)+" taken as "+seen[0].Name()+", the unit of the other lines.")
		}
		return seen[0], from
	}
	for o, other := range a.p.columns {
		if o != c && (other.unit.IsEnergy() || other.unit.IsPower()) {
			return other.unit, ", as the other column"
		}
	}
	if a.p.titleUnit != 0 {
		return a.p.titleUnit, ", from the text around"
	}
	return words.KilowattHour, assumed
}

func wasOrWere(n int) string {
	if n == 1 {
		return "was"
	}
	return "were"
}

// assumeUnit takes kWh, unless the figures are too big for a home's days: then
// it asks whether they are Wh.
func (a *attempt) assumeUnit(c int, said *[]string) {
	values := a.values(c)
	if len(values) == 0 {
		return
	}
	usual := energy.Energy(middle(values)).KilowattHours() * a.perDay()
	if usual <= mostPlausible || a.climbs(c) {
		if word := a.wordBehind(c); word != "" {
			a.notice("unit-unknown", "Behind the figures stands “"+word+"”, which is no unit that is known here; they were taken as kWh.")
			return
		}
		a.notice("unit-assumed", "No unit is written; the figures were taken as kWh.")
		return
	}
	if !a.asked("unit") {
		a.ask("unit", "Are these figures Wh or kWh?",
			"No unit is written, and as kWh they would be far more than a home uses.", "Wh",
			remark.Choice{ID: "Wh", Label: "Watt-hours (Wh)"}, remark.Choice{ID: "kWh", Label: "Kilowatt-hours (kWh)"})
	}
	if a.taken("unit") == "Wh" {
		a.units[c].unit = words.WattHour
		(*said)[len(*said)-1] = "Wh" + assumed
	}
}

// doubtUnit asks about a unit that the heading or the text around names, if
// figures of that size are beyond any home. Until it is answered the unit is
// taken as written.
func (a *attempt) doubtUnit(c int) {
	u := a.units[c].unit
	values := a.values(c)
	if u != words.KilowattHour && u != words.MegawattHour || len(values) == 0 || a.p.register || a.climbs(c) {
		return
	}
	usual := energy.Energy(middle(values)).KilowattHours() * a.perDay()
	if u == words.MegawattHour {
		usual *= 1000
	}
	if usual <= mostPlausible || slices.ContainsFunc(a.p.rows, func(r row) bool { return r.figures[c] >= 0 && a.p.sheet.Items[r.figures[c]].Unit != 0 }) {
		return
	}
	less := u - 1
	if !a.asked("unit") {
		a.ask("unit", "Are these figures really "+u.Name()+"?", "As "+u.Name()+" they would be far more than a home uses.", u.Name(),
			remark.Choice{ID: u.Name(), Label: u.Name() + ", as written"}, remark.Choice{ID: less.Name(), Label: less.Name()})
	}
	if a.taken("unit") == less.Name() {
		a.units[c].unit = less
	}
}

// wordBehind gives the one word that stands behind every figure of a column and
// is neither a unit nor anything else that is known.
func (a *attempt) wordBehind(c int) string {
	word, rows := "", 0
	for ri := range a.p.rows {
		r := &a.p.rows[ri]
		if r.figures[c] < 0 {
			continue
		}
		next := r.figures[c] + 1
		if next >= a.p.sheet.Lines[r.line].Past {
			return ""
		}
		it := &a.p.sheet.Items[next]
		if it.Kind != scan.Word || it.Unit != 0 || it.Cell != a.p.sheet.Items[next-1].Cell || words.LabelOf(it.Fold) != 0 || words.Month(it.Fold) != 0 || rows > 0 && it.Fold != word {
			return ""
		}
		word = it.Fold
		rows++
	}
	if rows < 2 {
		return ""
	}
	return word
}

// perDay gives roughly how many figures make a day: less than one for totals of
// weeks and months, more for intervals.
func (a *attempt) perDay() float64 {
	switch r := &a.p.rows[0]; {
	case r.onWeekday > 0:
		return 1
	case a.severalADay():
		days := 1
		for i := 1; i < len(a.p.rows); i++ {
			if a.p.rows[i].first != a.p.rows[i-1].first {
				days++
			}
		}
		return float64(len(a.p.rows)) / float64(days)
	case r.first.Form == scan.Month:
		return 1.0 / 30
	case r.first.Form == scan.Week || r.dates == 2 || a.p.weekly:
		return 1.0 / 7
	}
	if step := a.p.usualGap(); step > 5 {
		return 1 / float64(step)
	}
	return 1
}

// usualGap gives the usual number of days between the dates of one row and the
// next, 0 if there are too few.
func (p *paper) usualGap() int {
	for _, order := range [2]scan.Order{scan.DayFirst, scan.MonthFirst} {
		var days, gaps []int
		for i := range p.rows {
			if d, ok := p.rows[i].first.On(order, 2024); ok && p.rows[i].dates == 1 {
				days = append(days, int(d))
			}
		}
		for i := 1; i < len(days); i++ {
			gaps = append(gaps, abs(days[i]-days[i-1]))
		}
		if len(days) == len(p.rows) && len(gaps) > 1 {
			return middle(gaps)
		}
	}
	return 0
}

// values gives the sizes of a column's numbers as if they were kWh, in the order
// of the text.
func (a *attempt) values(c int) []int {
	var values []int
	for r := range a.p.rows {
		if it := a.item(r, c); it != nil {
			if v, _, ok := a.value(it); ok {
				values = append(values, size(v, words.KilowattHour))
			}
		}
	}
	return values
}

// climbs says whether the numbers of a column only rise or only fall: those of
// a register do.
func (a *attempt) climbs(c int) bool {
	values := a.values(c)
	up, down := 0, 0
	for i := 1; i < len(values); i++ {
		switch {
		case values[i] > values[i-1]:
			up++
		case values[i] < values[i-1]:
			down++
		}
	}
	return len(values) > 2 && (down*6 <= up || up*6 <= down)
}

// powers says whether any column is of power.
func (a *attempt) powers() bool {
	return slices.ContainsFunc(a.units, func(u unitOf) bool { return u.unit.IsPower() })
}

// askPower asks what kW on figures of whole days means.
func (a *attempt) askPower() {
	taken := a.ask("power", "Are these kWh of each day, or the mean kW over the day?",
		"The unit is one of power, but there is one figure a day.", "energy",
		remark.Choice{ID: "energy", Label: "Energy: kWh was meant"}, remark.Choice{ID: "power", Label: "Mean power: times 24 hours"})
	for c := range a.units {
		if a.units[c].unit.IsPower() && taken == "energy" {
			a.units[c].energy = true
		}
	}
	if taken == "energy" {
		a.unitText += ", taken as energy"
	}
}
