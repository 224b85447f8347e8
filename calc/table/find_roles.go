package table

import (
	"math"
	"strings"

	numbersFor "splittally/calc/figure"
	"splittally/calc/intake/words"
	"splittally/calc/record"
	"splittally/calc/series"
)

type roleOf = settled[record.Role]

// settleRoles decides what each column of figures measures. Only one column is
// the import, or two or three legs are, so that nothing counts twice.
func (f *finder) settleRoles() error {
	some := false
	for c := range f.columns {
		col := &f.columns[c]
		if col.figures {
			col.role.why = col.excluded(f.whole)
			some = some || col.role.why == ""
		}
	}
	if !some && !f.takeConstant() && !f.givesRole() {
		return f.nothing()
	}
	f.leaveExtremes()
	f.leaveRepeats()
	f.directed()
	switch {
	case f.takeLegs(), f.takeTimes():
	default:
		f.takeImport()
	}
	f.takeCircuits()
	f.takeGiven()
	return nil
}

// open says whether a column of figures has no role yet and may get one.
func (col *column) open() bool { return col.figures && col.role.is == "" && col.role.why == "" }

// used says whether a column is read.
func (col *column) used() bool { return col.figures && col.role.is != "" }

// leave leaves a column out and says why.
func (col *column) leave(sure bool, why string) { col.role = roleOf{"", sure, why} }

// excluded gives why a column is not of energy; nothing if it may be. whole says
// that the head is all of the file.
func (col *column) excluded(whole bool) string {
	unit := usable(col.heading.unit) || usable(col.behind)
	const telling = ofImport | ofExport | ofProduction | ofUse | ofTotal | ofGrid | ofNet | ofPower | ofEnergy | ofRegister
	col.role.sure = true
	switch {
	case col.bothWays:
		return "It seems to be a register that runs both ways, of which only the difference is known."
	case col.has(ofOther):
		return "Its heading speaks of something else than energy."
	case col.heading.unit == words.Money || col.behind == words.Money:
		return "It has amounts of money."
	case col.heading.unit == words.Other || col.behind == words.Other, col.heading.unit == words.GigawattHour:
		return "Its unit is not one of energy or power."
	case col.has(ofPerhaps) && !unit:
		return "Its heading speaks of something else than energy."
	case col.counts && !unit && !col.has(telling):
		return "It numbers the rows."
	case col.constant && !unit && col.tags&telling&^ofRegister == 0:
		// What stood still in the head may run further down.
		col.role.sure = whole || col.above+col.below > 0 || col.name == ""
		return sameInAll
	}
	col.role.sure = false
	return ""
}

// nothing says why no column has energy or power: what speaks against the only
// column of figures, if there is but one.
func (f *finder) nothing() error {
	why, n := "", 0
	for c := range f.columns {
		if col := &f.columns[c]; col.figures {
			why, n = "“"+f.called(c)+"” can’t be taken: "+strings.TrimSuffix(strings.ToLower(col.role.why[:1])+col.role.why[1:], "."), n+1
		}
	}
	if n == 1 {
		return no(why)
	}
	return no("no column has energy or power")
}

// takeConstant takes a figure that is the same in all rows after all, if there
// is nothing else.
func (f *finder) takeConstant() bool {
	at, n := 0, 0
	for c := range f.columns {
		if col := &f.columns[c]; col.figures && col.role.why == sameInAll && col.above > 0 {
			at, n = c, n+1
		}
	}
	if n == 1 {
		f.columns[at].role = roleOf{}
	}
	return n == 1
}

const sameInAll = "It is the same in all rows."

// givesRole says whether the person gave any column a role.
func (f *finder) givesRole() bool {
	for c := range f.columns {
		if f.columns[c].figures && f.given[f.id(c, "role")] != "" {
			return true
		}
	}
	return false
}

// leaveExtremes leaves out columns of the least and most within each interval
// where there is another.
func (f *finder) leaveExtremes() {
	extreme := func(col *column) bool {
		return col.has(ofExtreme) || col.kind.is == series.Power && col.has(ofTime) && col.has(ofPower)
	}
	plain := false
	for c := range f.columns {
		plain = plain || f.columns[c].open() && !extreme(&f.columns[c])
	}
	for c := range f.columns {
		if col := &f.columns[c]; plain && col.open() && extreme(col) {
			col.leave(true, "It has the least or the most within each interval, not the mean.")
		}
	}
}

// leaveRepeats leaves out columns that tell what another tells in another way:
// kW beside kWh, a running total beside its steps.
func (f *finder) leaveRepeats() {
	for c := range f.columns {
		for o := range f.columns {
			x, y := &f.columns[c], &f.columns[o]
			if c == o || !x.open() || !y.open() || x.leg != y.leg || (x.tags^y.tags)&(ofExport|ofProduction) != 0 || !f.repeats(x, y) {
				continue
			}
			if rx, ry := f.rank(x), f.rank(y); rx > ry || rx == ry && c < o {
				y.leave(false, "It tells in "+y.unit.is.Name()+" what “"+f.called(c)+"” tells in "+x.unit.is.Name()+".")
			}
		}
	}
}

// repeats says whether two columns tell the same energy: in different units or
// kinds and within 3 % over the head, or the same figures. The bound is a
// choice: two roundings of one energy seldom differ by more.
func (f *finder) repeats(x, y *column) bool {
	if x.kind.is != y.kind.is || x.unit.is != y.unit.is {
		most := max(math.Abs(x.mean), math.Abs(y.mean))
		slack := 0.03 * most
		for _, pair := range [...][2]*column{{x, y}, {y, x}} {
			if pair[0].kind.is != series.Register {
				continue
			}
			slack += f.digitPower(pair[0], pair[0].unit.is)
			if pair[1].kind.is == series.Power {
				slack += f.sampling(pair[1])
			}
		}
		if most == 0 || math.Abs(x.mean-y.mean) > min(slack, 0.9*most) {
			return false
		}
		return x.plain == y.plain || x.plain == "" || y.plain == ""
	}
	same, known := 0, 0
	for i, v := range x.values {
		if !math.IsNaN(v) && !math.IsNaN(y.values[i]) {
			known++
			if v == y.values[i] {
				same++
			}
		}
	}
	return known > 5 && same == known && !x.constant && x.plain == y.plain
}

// rank says how well a column tells its energy: that of intervals best, a
// register next, power after that, and figures too coarse for an hour last.
func (f *finder) rank(col *column) int {
	digit := float64(col.unit.is.Size()) / float64(words.KilowattHour.Size()) * math.Pow(10, -float64(col.places))
	hour := math.Abs(col.mean)
	switch {
	case col.kind.is == series.Power:
		return 1
	case col.kind.is == series.Register && digit > 0.1*hour, digit > hour*float64(f.spacing())/hourLength:
		return 0
	case col.kind.is == series.Register:
		return 2
	}
	return 3
}

// called names a column in a sentence.
func (f *finder) called(c int) string {
	if name := f.columns[c].name; name != "" {
		return short(name)
	}
	return "column " + numbersFor.Plain(float64(c+1), 0)
}

// directed gives the columns of export and production their roles.
func (f *finder) directed() {
	for c := range f.columns {
		col := &f.columns[c]
		if !col.open() || col.has(ofNet) {
			continue
		}
		switch {
		case col.has(ofExport) && col.leg != 0:
			col.leave(false, "It is the export of one leg, which has no use here.")
		case col.has(ofExport):
			col.role = roleOf{record.Export, true, ""}
		case col.has(ofProduction) && col.has(ofUse|ofImport) && f.opens() > 1:
			col.leave(false, "It seems to be the part of the production that is used at home, which the grid’s meter does not count.")
		case col.has(ofProduction):
			col.role = roleOf{record.Production, true, ""}
		}
	}
}

// opens counts the columns that may get a role yet.
func (f *finder) opens() int {
	n := 0
	for c := range f.columns {
		if f.columns[c].open() {
			n++
		}
	}
	return n
}

// any says whether a column has a role.
func (f *finder) any(role record.Role) bool {
	for c := range f.columns {
		if f.columns[c].role.is == role {
			return true
		}
	}
	return false
}
