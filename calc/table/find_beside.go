package table

import (
	"math"

	"splittally/calc/intake/words"
	"splittally/calc/series"
)

// followOthers takes the unit and kind of the other columns over where a column
// has none of its own, and finds the unit of a register beside a power.
func (f *finder) followOthers(c int, col *column) {
	if col.constant && col.kind.is == series.Energy && f.given[f.id(c, "kind")] == "" {
		for o := range f.columns {
			if p := &f.columns[o]; p.figures && p.kind.is == series.Register && p.unit.is == col.unit.is {
				col.kind = settled[series.Quantity]{series.Register, false, "The column beside it is a register, and this one did not move in the first rows."}
			}
		}
	}
	if col.unit.sure || f.given[f.id(c, "unit")] != "" || col.has(ofOther|ofPerhaps) {
		return
	}
	var other *column
	for o := range f.columns {
		if p := &f.columns[o]; o != c && p.figures && p.unit.sure && !p.has(ofOther) {
			if other != nil && (other.unit.is != p.unit.is || other.kind.is != p.kind.is) {
				other = nil
				break
			}
			other = p
		}
	}
	switch {
	case other != nil && (col.kind.is == series.Register) == (other.kind.is == series.Register):
		col.unit = settled[words.Unit]{other.unit.is, false, "No unit is written here; it was taken as that of the other columns."}
		if f.given[f.id(c, "kind")] == "" {
			col.kind = settled[series.Quantity]{other.kind.is, false, ""}
		}
	case col.kind.is == series.Register:
		f.besidePower(c, col)
	}
}

// besidePower takes the unit of a register that makes it rise as fast as a
// power beside it says.
func (f *finder) besidePower(c int, col *column) {
	for o := range f.columns {
		p := &f.columns[o]
		if o == c || !p.figures || p.kind.is != series.Power || p.has(ofOther|ofPerhaps) {
			continue
		}
		power := f.meanPower(p, series.Power, p.unit.is)
		for _, u := range unitIDs[:3] {
			m := f.meanPower(col, series.Register, u)
			if power > 0 && math.Abs(m-power) < 0.1*power+f.digitPower(col, u)+f.sampling(p) && m < 10*power {
				col.unit = settled[words.Unit]{u, p.unit.sure, "In " + u.Name() + " it rises as fast as the power beside it says."}
				return
			}
		}
	}
}

// digitPower gives the mean power in kW that the last digit of a register is
// over the head.
func (f *finder) digitPower(col *column, unit words.Unit) float64 {
	return float64(unit.Size()) / float64(words.KilowattHour.Size()) * math.Pow(10, -float64(col.places)) / f.hours()
}

// sampling gives how far the mean power in kW of a column may be off because
// only some lines of the head are looked at: two standard errors.
func (f *finder) sampling(col *column) float64 {
	if n := len(f.numbers); f.numbers[n-1] < n || col.known < 2 {
		return 0
	}
	sum, squares := 0.0, 0.0
	for _, v := range col.values {
		if !math.IsNaN(v) {
			sum, squares = sum+v, squares+v*v
		}
	}
	n := float64(col.known)
	size := float64(col.unit.is.Size()) / float64(words.KilowattHour.Size())
	return 2 * size * math.Sqrt(max(0, squares-sum*sum/n)) / n
}

// doubtSize makes a written unit unsure where it makes the figures far more
// than a home's.
func (f *finder) doubtSize(c int, col *column) {
	if f.given[f.id(c, "unit")] != "" || !col.unit.sure || math.Abs(col.mean) <= mostEver {
		return
	}
	col.unit.sure = false
	col.unit.why = "As " + col.unit.is.Name() + " the figures come to " + inKW(col.mean) + " on average, far more than a home uses."
}
