package intake

import (
	"math"

	"splittally/calc/energy"
	"splittally/calc/intake/scan"
	"splittally/calc/intake/words"

	"github.com/shopspring/decimal"
)

// amount is a figure with its unit worked in.
type amount struct {
	known    bool
	marked   bool // a mark says that there is no figure
	energy   energy.Energy
	rounding energy.Energy // half of the last digit
}

// item gives the item of a row's column, nil if none stands there.
func (a *attempt) item(row, column int) *scan.Item {
	if i := a.p.rows[row].figures[column]; i >= 0 {
		return &a.p.sheet.Items[i]
	}
	return nil
}

// value gives the number of an item under the decimal mark.
func (a *attempt) value(it *scan.Item) (v decimal.Decimal, places int32, ok bool) {
	if len(it.Readings) == 0 {
		return v, 0, false
	}
	best := it.Readings[0]
	for _, r := range it.Readings[1:] {
		if best.Mark != a.mark && best.Mark != 0 && r.Mark == 0 {
			best = r
		}
	}
	return best.Value, best.Places, true
}

// weighRows turns the figures of the placed rows into energies.
func (a *attempt) weighRows() {
	a.sums, a.counts = make([]energy.Energy, len(a.p.columns)), make([]int, len(a.p.columns))
	room := make([]amount, len(a.placed)*len(a.p.columns))
	for i := range a.placed {
		pl := &a.placed[i]
		pl.gave, room = room[:len(a.p.columns):len(a.p.columns)], room[len(a.p.columns):]
		for c := range a.p.columns {
			pl.gave[c] = a.weigh(pl.row, c)
			if pl.gave[c].known {
				a.sums[c] = plus(a.sums[c], pl.gave[c].energy)
				a.counts[c]++
			}
		}
	}
}

// weigh gives the energy of one figure. One that is malformed makes its line
// wrong and its day missing.
func (a *attempt) weigh(row, column int) amount {
	it := a.item(row, column)
	if it == nil {
		return amount{marked: a.p.rows[row].figures[column] == noData}
	}
	line := a.p.rows[row].line
	v, places, ok := a.value(it)
	if !ok {
		a.wrong(line, a.p.rows[row].figures[column], wrongFigure)
		return amount{}
	}
	unit := a.unitFor(it, column).Size()
	e, _, err := energy.FromDecimal(v, unit)
	if err != nil || e.Abs() > mostEnergy || a.unitFor(it, column).IsPower() && e.Abs() > mostPower {
		a.wrong(line, a.p.rows[row].figures[column], "energy of a household, such as 12.4 kWh")
		return amount{}
	}
	return amount{known: true, energy: e, rounding: halfDigit(places, unit)}
}

// Bounds of one figure, far beyond any home: 10 GWh and 100 MW. They keep the
// sums of a text within the range of an energy.
const (
	mostEnergy = 10_000 * energy.MegawattHour
	mostPower  = 100 * energy.MegawattHour // in an hour
)

// size gives a number of units in µWh, for comparing; one out of range is the
// largest of all.
func size(v decimal.Decimal, unit words.Unit) int {
	e, _, err := energy.FromDecimal(v, unit.Size())
	if err != nil {
		return math.MaxInt64
	}
	return int(e)
}

// halfDigit gives half of the last of the given places of a figure.
func halfDigit(places int32, unit energy.Energy) energy.Energy {
	half := 5 * unit // of the last place before the decimal mark: 10 × 0.5
	for ; places > -1; places-- {
		half /= 10
	}
	for ; places < -1 && half < mostEnergy; places++ {
		half *= 10
	}
	return half
}
