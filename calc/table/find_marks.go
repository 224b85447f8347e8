package table

// marks counts what speaks for either mark as the decimal mark of a file.
type marks struct {
	dot, comma             int // only a decimal mark can stand so
	dotGroup, commaGroup   int // only a mark of thousands can stand so
	dotEither, commaEither int // three digits behind: 1.234
	small, large           int // whole numbers without a mark, below and from 1000
	blank, apostrophe      int // marks of thousands
}

// weigh takes one figure into account.
func (m *marks) weigh(f *numeral) {
	switch f.group {
	case ' ':
		m.blank++
	case '\'':
		m.apostrophe++
	}
	switch {
	case f.dots > 0 && f.commas > 0 && f.last == '.':
		m.dot++
		m.commaGroup++
	case f.dots > 0 && f.commas > 0:
		m.comma++
		m.dotGroup++
	case f.dots > 1:
		m.dotGroup++
	case f.commas > 1:
		m.commaGroup++
	case f.last == 0 && f.before > 3:
		m.large++
	case f.last == 0:
		m.small++
	default:
		m.single(f)
	}
}

// single weighs a figure with one mark.
func (m *marks) single(f *numeral) {
	group := f.after == 3 && f.before > 0 && f.before < 4 && !f.zero && f.group == 0 && !f.raised
	switch {
	case f.last == '.' && group:
		m.dotEither++
	case f.last == '.':
		m.dot++
	case group:
		m.commaEither++
	default:
		m.comma++
	}
}

// none says whether no figure had a mark.
func (m *marks) none() bool {
	return m.dot+m.comma+m.dotGroup+m.commaGroup+m.dotEither+m.commaEither == 0
}

// settle gives the decimal mark, whether it is sure, and why it is not.
func (m *marks) settle() (decimal byte, sure bool, why string) {
	group := m.small > 0 && m.large == 0 // as in 850, 1,234, 920
	switch {
	case m.dot > 0 || m.commaGroup > 0:
		return '.', m.comma == 0, "In some figures only a point can be the decimal mark, in others only a comma."
	case m.comma > 0 || m.dotGroup > 0:
		return ',', true, ""
	case m.commaEither > 0 && m.dotEither > 0:
		return ',', false, "Points and commas both stand before three digits."
	case m.commaEither > 0 && group:
		return '.', m.small > 2 && m.commaEither > 2, "Figures below a thousand have no comma, so it seems to part the thousands, as in 1,234."
	case m.commaEither > 0:
		return ',', m.large > 0, "Each comma stands before three digits, as in 1,234, so it could part the thousands."
	case m.dotEither > 0 && group && m.small > m.dotEither/8:
		return ',', m.small > 2 && m.dotEither > 2, "Figures below a thousand have no point, so it seems to part the thousands, as in 1.234."
	}
	return '.', true, ""
}
