package table

import (
	"math"
	"strconv"

	"splittally/calc/intake/words"
	"splittally/calc/series"
)

// settleUnits finds for each column of figures its unit, and whether they are
// energies of intervals, mean powers or reads of a register.
func (f *finder) settleUnits() error {
	for c := range f.columns {
		if col := &f.columns[c]; col.figures {
			f.settleUnit(c, col)
			f.settleKind(c, col)
		}
	}
	for c := range f.columns {
		if col := &f.columns[c]; col.figures {
			f.followOthers(c, col)
			col.mean = f.meanPower(col, col.kind.is, col.unit.is)
			f.doubtSize(c, col)
		}
	}
	return nil
}

// id gives the ID of a setting of a column.
func (f *finder) id(column int, what string) string {
	return "column." + strconv.Itoa(column) + "." + what
}

var unitIDs = [...]words.Unit{words.WattHour, words.KilowattHour, words.MegawattHour, words.Watt, words.Kilowatt, words.Megawatt}

// usable says whether a unit is one that a column of figures can have.
func usable(u words.Unit) bool { return u.IsEnergy() && u != words.GigawattHour || u.IsPower() }

// settleUnit takes the unit that the person gave, or the heading, or the cells,
// or the lines above the table.
func (f *finder) settleUnit(c int, col *column) {
	for _, u := range unitIDs {
		if f.given[f.id(c, "unit")] == u.Name() {
			col.unit = settled[words.Unit]{u, true, ""}
			return
		}
	}
	switch {
	case usable(col.heading.unit):
		col.unit = settled[words.Unit]{col.heading.unit, true, ""}
	case usable(col.behind):
		col.unit = settled[words.Unit]{col.behind, true, "It stands behind the figures."}
	case usable(f.title):
		col.unit = settled[words.Unit]{f.title, true, "It stands above the table."}
		if f.inColumn {
			col.unit.why = "It stands in a column of its own."
		}
	}
}

// settleKind takes the kind that the person gave, or the one that goes with the
// unit and the run of the figures; where there is no unit it guesses both.
func (f *finder) settleKind(c int, col *column) {
	k := col.climbs()
	unit := &col.unit
	if kind, ok := kindByID(f.given[f.id(c, "kind")]); ok {
		col.kind = settled[series.Quantity]{kind, true, ""}
		switch {
		case unit.is == 0:
			f.guessSize(col, kind)
		case unit.is.IsPower() != (kind == series.Power):
			unit.is = twin(unit.is) // kW was written and kWh is meant, or the other way round
			unit.why = "It goes with what the figures were said to be."
		}
		return
	}
	switch {
	case unit.is == 0:
		f.guess(col, k)
	case unit.is.IsPower() && k.strong && len(col.values) >= 24 && f.given[f.id(c, "unit")] == "":
		col.kind = settled[series.Quantity]{series.Register, false, "They only rise, as the reads of a register do, though the unit is one of power."}
		unit.is, unit.sure, unit.why = twin(unit.is), false, "The figures only rise, so "+twin(unit.is).Name()+" seem to be meant."
	case unit.is.IsPower():
		col.kind = settled[series.Quantity]{series.Power, true, ""}
	default:
		f.energyKind(col, k)
	}
}

// twin gives the unit of power for one of energy, and the other way round.
func twin(u words.Unit) words.Unit {
	if u.IsPower() {
		return u - words.Watt + words.WattHour
	}
	return u - words.WattHour + words.Watt
}

// energyKind tells energies of intervals from reads of a register.
func (f *finder) energyKind(col *column, k climb) {
	named := col.has(ofRegister)
	switch {
	case k.strong && k.never:
		col.kind = settled[series.Quantity]{series.Register, true, "The figures never fall in the first " + strconv.Itoa(col.known) + " rows, as the reads of a register."}
	case k.strong:
		col.kind = settled[series.Quantity]{series.Register, named, "The figures rise from row to row and begin again near zero, as a running total does."}
	case named && k.falls == 0 && (k.rises > 0 || col.constant && col.above > 0):
		col.kind = settled[series.Quantity]{series.Register, k.rises > 2, "Its heading speaks of a register, and the figures do not fall."}
	case k.falls > 0 && k.middle > 1000*k.step && math.Abs(f.meanPower(col, series.Energy, col.unit.is)) > mostEver:
		col.kind = settled[series.Quantity]{series.Register, false, ""}
		col.bothWays = true
	case k.falls > 0 || col.constant || k.rises == 0:
		col.kind = settled[series.Quantity]{series.Energy, true, ""}
	default:
		col.kind = settled[series.Quantity]{series.Energy, false, "The figures only rise here, as those of a register would, but they are too few to tell."}
	}
}

// The mean power of a home in kW: common practice, no source.
const (
	leastHome, mostHome = 0.2, 10
	leastEver, mostEver = 0.02, 100
)

// guess takes a kind and a unit where none is written.
func (f *finder) guess(col *column, k climb) {
	switch {
	case k.strong:
		col.kind = settled[series.Quantity]{series.Register, k.never && k.rises >= 20, "The figures rise from row to row, as the reads of a register."}
		f.guessSize(col, series.Register)
		return
	case col.has(ofPower) && !col.has(ofEnergy):
		col.kind = settled[series.Quantity]{series.Power, true, "Its heading speaks of power."}
		f.guessSize(col, series.Power)
		return
	case col.has(ofEnergy) && !col.has(ofPower):
		col.kind = settled[series.Quantity]{series.Energy, true, "Its heading speaks of energy."}
		f.guessSize(col, series.Energy)
		return
	}
	kinds := [...]series.Quantity{series.Energy, series.Power}
	if f.spacing() < 15*minuteLength {
		kinds = [...]series.Quantity{series.Power, series.Energy}
	}
	best, points := kinds[0], -1
	for _, kind := range kinds {
		f.guessSize(col, kind)
		if p := homely(f.meanPower(col, kind, col.unit.is)); p > points {
			best, points = kind, p
		}
	}
	f.guessSize(col, best)
	col.kind = settled[series.Quantity]{best, false, f.bothWays(col)}
	col.unit.why = col.kind.why
}

// homely says how well a mean power goes with a home.
func homely(kw float64) int {
	switch kw = math.Abs(kw); {
	case kw >= leastHome && kw <= mostHome:
		return 2
	case kw >= leastEver && kw <= mostEver:
		return 1
	}
	return 0
}

// guessSize takes the unit of a kind that makes a home's mean power of the
// figures; of two that do, or none, the larger one for figures with decimals.
func (f *finder) guessSize(col *column, kind series.Quantity) {
	small, large := words.WattHour, words.KilowattHour
	if kind == series.Power {
		small, large = words.Watt, words.Kilowatt
	}
	first, second := small, large
	if col.places > 0 {
		first, second = large, small
	}
	col.unit = settled[words.Unit]{is: first}
	a, b := f.meanPower(col, kind, first), f.meanPower(col, kind, second)
	if homely(b) > homely(a) && (kind != series.Power || col.places > 0) { // nobody writes whole kW
		col.unit.is, a = second, b
	}
	col.unit.why = "No unit is written. As " + col.unit.is.Name() + " the figures come to " + inKW(a) + " on average; a home uses 0.2 to 10 kW."
}

// bothWays tells what the figures come to as energies and as powers.
func (f *finder) bothWays(col *column) string {
	kept := col.unit
	f.guessSize(col, series.Energy)
	energy, e := col.unit.is.Name(), f.meanPower(col, series.Energy, col.unit.is)
	f.guessSize(col, series.Power)
	power, p := col.unit.is.Name(), f.meanPower(col, series.Power, col.unit.is)
	col.unit = kept
	return "No unit is written. As " + energy + " of each interval the figures come to " + inKW(e) + " on average, as mean " + power +
		" to " + inKW(p) + "; a home uses 0.2 to 10 kW."
}

// kindByID gives the kind with an ID of a choice.
func kindByID(id string) (series.Quantity, bool) {
	switch id {
	case "energy":
		return series.Energy, true
	case "power":
		return series.Power, true
	case "register":
		return series.Register, true
	}
	return 0, false
}
