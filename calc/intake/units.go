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
