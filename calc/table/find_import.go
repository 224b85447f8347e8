package table

import (
	"math"
	"strings"

	"splittally/calc/record"
	"splittally/calc/series"
)

var legRoles = [...]record.Role{record.LegA, record.LegB, record.LegC}

// takeLegs gives two or three legs their roles, and leaves out their total. If
// there is a total that they do not add up to, it is taken instead.
func (f *finder) takeLegs() bool {
	var legs [3]*column
	var parts []*column
	for c := range f.columns {
		col := &f.columns[c]
		if !col.open() || col.leg == 0 {
			continue
		}
		at := &legs[col.leg-'a']
		if *at != nil || len(parts) > 0 && (parts[0].kind.is != col.kind.is || parts[0].unit.is != col.unit.is) {
			return false
		}
		*at = col
		parts = append(parts, col)
	}
	if len(parts) < 2 {
		return false
	}
	whole, points := f.likeliest(func(col *column) bool { return col.leg == 0 })
	switch {
	case whole < 0 || points < namesWhole:
	case addsUp(&f.columns[whole], parts):
		f.columns[whole].leave(true, "It adds up the legs, each of which is taken for itself.")
	default:
		for _, col := range parts {
			col.leave(false, "The legs do not add up to “"+f.called(whole)+"”, which was taken instead.")
		}
		f.columns[whole].role = roleOf{record.Import, false, "Its heading speaks of the whole, but the legs do not add up to it."}
		return true
	}
	for i, col := range legs {
		if col != nil {
			col.role = roleOf{legRoles[i], true, ""}
		}
	}
	return true
}

// addsUp says whether a column is the sum of others in nearly all rows.
func addsUp(total *column, parts []*column) bool {
	if total.kind.is != parts[0].kind.is || total.unit.is != parts[0].unit.is {
		return false
	}
	fits, known := 0, 0
	slack := math.Pow(10, -float64(total.places))
	for _, p := range parts {
		slack += math.Pow(10, -float64(p.places))
	}
	for i, v := range total.values {
		sum := 0.0
		for _, p := range parts {
			sum += p.values[i]
		}
		if math.IsNaN(v + sum) {
			continue
		}
		known++
		if math.Abs(v-sum) <= slack/2+0.005*math.Abs(v) {
			fits++
		}
	}
	return known > 2 && fits*20 >= known*19
}

// takeTimes takes two or three columns that hold what was taken from the grid at
// different times of use, which add up to the import as legs do.
func (f *finder) takeTimes() bool {
	var parts []*column
	for c := range f.columns {
		col := &f.columns[c]
		switch {
		case !col.open():
		case !col.has(ofTime):
			if col.has(ofTotal|ofImport|ofUse|ofGrid|ofNet) || col.plain == "" {
				return false
			}
		case len(parts) > 0 && (parts[0].kind.is != col.kind.is || parts[0].unit.is != col.unit.is):
			return false
		default:
			parts = append(parts, col)
		}
	}
	if len(parts) < 2 || len(parts) > 3 || parts[0].kind.is == series.Power {
		return false
	}
	for i, col := range parts {
		col.role = roleOf{legRoles[i], false, "Its heading speaks of a time of use. Such columns add up to what is taken from the grid, and are added up as legs are."}
	}
	return true
}

// namesWhole is how many points make a column the whole home's by its heading.
const namesWhole = 40

// likeliest gives the column that is most likely the import, and its points; −1
// if there is none.
func (f *finder) likeliest(fits func(col *column) bool) (c, points int) {
	c = -1
	for o := range f.columns {
		col := &f.columns[o]
		if !col.open() || !fits(col) {
			continue
		}
		p := col.points()
		if c < 0 || p > points || p == points && col.mean > f.columns[c].mean {
			c, points = o, p
		}
	}
	return c, points
}

// points says how much of a heading speaks of all that the grid delivers.
func (col *column) points() int {
	p := 0
	for _, t := range [...]struct {
		tag    tag
		points int
	}{{ofImport, 100}, {ofTotal, 60}, {ofNet, 55}, {ofGrid, 50}, {ofUse, 40}} {
		if col.has(t.tag) {
			p = max(p, t.points)
		}
	}
	if col.unit.sure {
		p += 20
	}
	if col.generic() {
		p += 25
	}
	return p
}

// generic says whether no word of a heading names a part of the home.
func (col *column) generic() bool {
	for word := range strings.FieldsSeq(col.plain) {
		if !strings.Contains(genericWords, " "+word+" ") && digitsAt([]byte(word)) < len(word) {
			return false
		}
	}
	return true
}

// genericWords are folded words of headings that name no part of a home.
const genericWords = " value values wert werte valeur valor valore waarde varde vaerdi verdi amount data interval average avg mean mittel mittelwert mittlere moyenne media " +
	"moyen medio per of the in hh half hourly minute minutes min hour h kwh electricity electric strom elektrisch electricite electricidad elettrica ac active real wirk " +
	"aktiv actief attiva activa active measured sensor channel ch and quantity units unit result last today daily "

// takeImport takes the column that the heading or the figures make the import.
func (f *finder) takeImport() {
	c, points := f.likeliest(func(*column) bool { return true })
	if c < 0 {
		return
	}
	col := &f.columns[c]
	second := 0
	for o := range f.columns {
		if x := &f.columns[o]; o != c && x.open() {
			second = max(second, x.points())
		}
	}
	switch {
	case f.opens() == 1:
		col.role = roleOf{record.Import, points >= namesWhole || col.generic(), ""}
		if !col.role.sure {
			col.role.why = "It is the only column of energy; its heading does not say that it is of the whole home."
		}
	case points >= namesWhole && points >= second+10:
		col.role = roleOf{record.Import, true, ""}
	case f.takeSum():
		return
	case points >= namesWhole:
		col.role = roleOf{record.Import, false, "More than one heading could be of the whole home; this one has the largest figures."}
	default:
		return
	}
	made := f.any(record.Production) || f.any(record.Export)
	if made && col.has(ofUse) && !col.has(ofImport|ofGrid|ofNet) {
		col.role.sure, col.role.why = false, "Its heading speaks of use, which may count what was made at home too; the grid’s meter does not count that."
	}
}

// takeSum takes the column that all others add up to at most as the import.
func (f *finder) takeSum() bool {
	for c := range f.columns {
		col := &f.columns[c]
		if !col.open() {
			continue
		}
		others, comparable := 0.0, col.mean > 0
		for o := range f.columns {
			if x := &f.columns[o]; o != c && x.open() {
				others += x.mean
			}
		}
		if comparable && others <= 1.005*col.mean {
			col.role = roleOf{record.Import, false, "It is at least as large as the other columns together, as the whole home is."}
			return true
		}
	}
	return false
}
