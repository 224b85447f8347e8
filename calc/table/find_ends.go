package table

import (
	"splittally/calc/record"
	"splittally/calc/series"
)

// RoleNone is the choice of a role that leaves a column out.
const RoleNone = "none"

// takeGiven gives columns the roles that the person chose. A provisional role
// that would count a thing twice beside a given one is taken away.
func (f *finder) takeGiven() {
	whole, legs := false, false
	for c := range f.columns {
		given := f.given[f.id(c, "role")]
		col := &f.columns[c]
		if !col.figures || roleLabel(given) == "" {
			continue
		}
		if given == RoleNone {
			col.leave(true, "")
			continue
		}
		if given == string(record.Import) && whole {
			col.leave(false, "Only one column can be what comes from the grid, and another was chosen before it.")
			continue
		}
		col.role = roleOf{record.Role(given), true, ""}
		whole = whole || col.role.is == record.Import
		legs = legs || isLeg(col.role.is)
	}
	for c := range f.columns {
		col := &f.columns[c]
		switch {
		case f.given[f.id(c, "role")] != "":
		case whole && (col.role.is == record.Import || isLeg(col.role.is)), legs && col.role.is == record.Import:
			col.leave(false, "Another column was chosen as what comes from the grid.")
		case isLeg(col.role.is) && f.takenElsewhere(c):
			col.leave(false, "Another column was chosen as this leg.")
		}
	}
}

// takenElsewhere says whether the person gave the role of a column to another.
func (f *finder) takenElsewhere(c int) bool {
	for o := range f.columns {
		if o != c && f.columns[o].figures && f.given[f.id(o, "role")] == string(f.columns[c].role.is) {
			return true
		}
	}
	return false
}

func isLeg(r record.Role) bool { return r == record.LegA || r == record.LegB || r == record.LegC }

// settleSigns turns columns that only have figures below zero, and says what
// becomes of those below zero in one that has both.
func (f *finder) settleSigns() {
	for c := range f.columns {
		col := &f.columns[c]
		col.sign = settled[int]{1, true, ""}
		switch given := f.given[f.id(c, "sign")]; {
		case given == "turned":
			col.sign.is = -1
		case given == "as-is":
		case col.used() && col.below > 2 && col.above == 0 && col.kind.is != series.Register:
			col.sign = settled[int]{-1, false, "All its figures are zero or below."}
		case col.role.is == record.Import && col.below > 3*col.above && col.kind.is != series.Register:
			col.sign = settled[int]{1, false, "Most of its figures are below zero, so it may count the other way round."}
		}
		switch given := f.given[f.id(c, "below")]; {
		case given == "net" || given == "apart":
			col.apart = settled[bool]{given == "apart" && col.role.is == record.Import, true, ""}
		case col.role.is != record.Import || col.kind.is == series.Register:
		case col.below == 0 && (col.has(ofNet) || col.has(ofGrid) && !col.has(ofImport) && f.any(record.Production)) && !f.any(record.Export):
			col.apart = settled[bool]{true, false, "It may fall below zero where more is made than used; the grid’s meter counts the two directions apart."}
		case col.below > 0 && col.above > 0 && f.any(record.Export):
			col.apart = settled[bool]{false, false, "Some figures are below zero, and another column has the export."}
		case col.below > 0 && col.above > 0:
			col.apart = settled[bool]{true, false, "Some figures are below zero, as where more is made than used; the grid’s meter counts the two directions apart."}
		}
	}
}

// settleEnds decides whether a stamp is the start or the end of its interval.
// Only reads of a register need no such thing.
func (f *finder) settleEnds() {
	all := true
	for c := range f.columns {
		if col := &f.columns[c]; col.used() && col.kind.is != series.Register {
			all = false
		}
	}
	if all {
		return
	}
	is, sure, why := f.stampsMean()
	f.askEnds(is, sure, why)
}

// stampsMean looks for what tells starts from ends, best evidence first.
func (f *finder) stampsMean() (end, sure bool, why string) {
	h := f.columns[f.stamps.date].tags
	if f.stamps.time >= 0 {
		h |= f.columns[f.stamps.time].tags
	}
	full, ranged := false, false
	for i := range f.rows {
		full = full || f.rows[i].full
		ranged = ranged || f.rows[i].ranged
	}
	switch {
	case f.stamps.end >= 0, ranged:
		return false, true, "Each row has its start and its end."
	case h&ofEnd != 0 && h&ofStart == 0:
		return true, true, "The heading of the times says so."
	case h&ofStart != 0 && h&ofEnd == 0:
		return false, true, "The heading of the times says so."
	case full:
		return true, true, "A time of 24:00 can only be an end."
	case f.stamps.source == hourNumber:
		return f.stamps.fromOne, f.stamps.counted, "The hours are numbered from " + [2]string{"0", "1"}[b2i(f.stamps.fromOne)] + "."
	case f.even && f.step <= minuteLength:
		return false, true, "At this spacing it makes no difference that counts."
	}
	return f.firstStamp(h)
}

// firstStamp guesses from the time at which a file begins.
func (f *finder) firstStamp(h tag) (end, sure bool, why string) {
	first := f.rows[0].at + int64(f.rows[0].offset)*1000
	since := first - int64(dayOf(first))*dayLength
	switch {
	case h&ofReading != 0:
		return true, false, "The heading speaks of the time of a reading, and a meter is read when an interval is over."
	case !f.newest && f.even && f.step < dayLength && since == f.step && f.stamps.source != unixTime:
		return true, false, "The file begins one interval after midnight, as where the first interval of a day is stamped with its end."
	case !f.newest && f.even && since == 0:
		return false, false, "The file begins at midnight, as where the first interval of a day is stamped with its start; hourly exports of utilities are often stamped with the end."
	}
	return false, false, "Nothing in the file says it. A wrong choice shifts all readings by one interval."
}

func b2i(b bool) int {
	if b {
		return 1
	}
	return 0
}
