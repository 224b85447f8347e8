package table

import (
	"math"

	"splittally/calc/intake/words"
	"splittally/calc/record"
	"splittally/calc/series"
)

// takeCircuits makes the columns that are left parts of the home, if they can be.
func (f *finder) takeCircuits() {
	whole := -1
	for c := range f.columns {
		if f.columns[c].role.is == record.Import {
			whole = c
		}
	}
	for c := range f.columns {
		col := &f.columns[c]
		if !col.open() {
			continue
		}
		switch {
		case whole < 0 && !f.any(record.LegA) && !f.any(record.LegB):
			col.role = roleOf{record.Circuit, false, "No heading says which column is of the whole home."}
		case col.generic() && col.has(ofUse) && f.any(record.Production):
			col.leave(false, "It seems to count what was made at home too, which the grid’s meter does not.")
		case col.generic() && col.has(ofUse|ofTotal|ofGrid|ofNet):
			col.leave(false, "It seems to count for the whole home as well, and only one column can.")
		case col.generic() && col.has(ofImport):
			col.leave(false, "Another column was taken as what comes from the grid.")
		case col.unit.sure:
			col.role = roleOf{record.Circuit, col.plain != "" && (whole < 0 || f.columns[whole].role.sure), ""}
		case whole >= 0 && within(col, &f.columns[whole]):
			f.likeWhole(c, whole)
		default:
			col.leave(false, "Nothing says that it is energy.")
		}
	}
}

// likeWhole makes a column without a unit a circuit in the unit and kind of the
// whole home.
func (f *finder) likeWhole(c, whole int) {
	col, w := &f.columns[c], &f.columns[whole]
	col.role = roleOf{record.Circuit, false, "Its figures are never more than those of “" + f.called(whole) + "”, as those of a part of it."}
	if f.given[f.id(c, "unit")] == "" && f.given[f.id(c, "kind")] == "" {
		col.unit = settled[words.Unit]{w.unit.is, false, "It was taken as that of “" + f.called(whole) + "”."}
		col.kind = settled[series.Quantity]{w.kind.is, w.kind.sure, ""}
	}
}

// within says whether a column is never more than another, so that it can be a
// part of it.
func within(part, whole *column) bool {
	fits, known := 0, 0
	for i, v := range part.values {
		if w := whole.values[i]; !math.IsNaN(v + w) {
			known++
			if v >= 0 && v <= w*1.01 {
				fits++
			}
		}
	}
	return known > 2 && fits*20 >= known*19
}
