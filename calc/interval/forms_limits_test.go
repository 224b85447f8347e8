package interval_test

// oddAt notes an odd row: in the night to a Sunday it may look like a change of
// clocks.
func (f *formsFile) oddAt(i int) {
	wall := f.h.at(f.at[i])
	if day := wall / 86_400; (day+4)%7 == 0 && wall%86_400 < 5*3600 {
		f.sunday = true
	}
}

// limit names what is known to go wrong with a file, or is not told surely; empty
// if nothing is. Most of it is about the days on which a clock is changed, where
// stamps have no offset or rows do not run forwards.
func (f *formsFile) limit() string {
	m := &f.form
	plain := m.zone == "local" || m.zone == "serial"
	switch {
	case f.sunday && plain:
		return "odd rows in the night to a Sunday"
	case m.order == "blocks" && (f.modulus > 0 || f.anew >= 0):
		return "a register that rolls over or begins anew, in blocks"
	case !f.h.turns:
		return ""
	case m.order == "blocks":
		return "blocks over a change of clocks"
	case !plain && m.stamped == "end":
		return "points of time that are ends over a change of clocks"
	case plain && f.uneven:
		return "uneven times over a change of clocks"
	case plain && f.h.clock.Changes[2].Offset+f.h.clock.Changes[3].Offset == 2*7200+3600:
		return "clocks of eastern Europe"
	case plain && m.stamped == "end" && f.h.step == 3600:
		return "hours stamped with their end over a change of clocks"
	case m.instant:
		return "ends by the clock of the next hour"
	}
	return ""
}
