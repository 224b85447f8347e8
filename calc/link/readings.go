package link

import (
	"math"
	"slices"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/intake"
	"splittally/calc/ledger"
	"splittally/calc/sorted"
)

// sheetOf makes a sheet of what a text was read as: days, or with times the
// stretches within them. Of a day of which only a part was measured a sheet of
// days has no figure, since it would be taken for all of the day. With every day
// those without figures have rows too.
func sheetOf(ledgers []ledger.Ledger, timed, every bool) *sheet {
	s := &sheet{timed: timed, mega: inTens(ledgers)}
	at := map[stretch]int{}
	for c, l := range ledgers {
		s.names = append(s.names, l.Name)
		put := func(when stretch, f cell) {
			i, ok := at[when]
			if !ok || s.rows[i].cells[c].known { // the second run of an hour has a row of its own
				i = len(s.rows)
				at[when] = i
				s.rows = append(s.rows, row{at: when.at, length: when.length, cells: make([]cell, len(ledgers))})
			}
			s.rows[i].cells[c] = f
		}
		for d := l.First; d < l.Span().End; d++ {
			if timed {
				s.putSlots(l, d, put)
			} else {
				s.putDay(l, d, every, put)
			}
		}
	}
	sorted.Stable(s.rows, func(a, b row) int { return a.at - b.at })
	return s
}

// putDay puts what a ledger has of a day, or of the days that begin with it. The
// first and the last of a ledger have rows even if nothing is known of them.
func (s *sheet) putDay(l ledger.Ledger, d calendar.Day, every bool, put func(when stretch, f cell)) {
	e := l.At(d)
	when := stretch{int(d) * dayLength, dayLength}
	switch {
	case e.State == ledger.Measured:
		put(when, cell{true, written(e.Energy, float64(e.Rounding), s.mega)})
	case e.State == ledger.Spread && d == e.Total.First && l.Count(e.Total, ledger.Spread) == e.Total.Days():
		sum := energy.Energy(0)
		for k := e.Total.First; k < e.Total.End; k++ {
			sum += l.At(k).Energy
		}
		when.length *= e.Total.Days()
		put(when, cell{true, written(sum, float64(e.Rounding)*math.Sqrt(float64(e.Total.Days())), s.mega)})
	case e.State == ledger.Missing && (every || d == l.First || d == l.Span().Last()):
		put(when, cell{})
	}
}

// putSlots puts the slots of a day, each with the rounding of one of them, or the
// day whose total alone is known.
func (s *sheet) putSlots(l ledger.Ledger, d calendar.Day, put func(when stretch, f cell)) {
	slots := l.On(d)
	if e := l.At(d); e.State == ledger.Measured && len(slots) == 0 {
		put(stretch{int(d) * dayLength, dayLength}, cell{true, written(e.Energy, float64(e.Rounding), s.mega)})
	}
	for _, one := range slots {
		rounding := float64(l.At(d).Rounding) / math.Sqrt(float64(len(slots)))
		put(stretch{int(d)*dayLength + one.From, one.To - one.From}, cell{true, written(one.Energy, rounding, s.mega)})
	}
}

// written gives an energy with as many decimals as its rounding stands for, or
// more if it needs them.
func written(e energy.Energy, rounding float64, mega bool) numeral {
	unit := energy.KilowattHour
	if mega {
		unit *= 1000
	}
	n := numeral{minus: e < 0, digits: int64(e.Abs()), places: 9}
	for unit > energy.KilowattHour {
		unit, n.places = unit/10, n.places+1
	}
	step := 1.0
	for n.places > 0 && n.digits%10 == 0 && (2*rounding > 3.16*step || n.digits > 1e14) {
		n.digits, n.places, step = n.digits/10, n.places-1, step*10
	}
	if n.places == 0 {
		n.places = -1
	}
	return n
}

// inTens says that figures are rounded to ten kWh or more, so that only MWh have
// decimals for it.
func inTens(ledgers []ledger.Ledger) bool {
	for _, l := range ledgers {
		if slices.ContainsFunc(l.Days, func(e ledger.Entry) bool { return e.State == ledger.Measured && e.Rounding >= 4*energy.KilowattHour }) {
			return true
		}
	}
	return false
}

// readings gives the text that a link has instead of a pasted one, and the
// answers that it needs: none, as a rule. Nothing of a text goes along in which
// no readings were found.
func readings(text string, from intake.Options, o Options) (clean string, answers map[string]string) {
	if s, ok := parseSheet(text); ok && (o.Hours || !s.timed) && (o.Names || !s.hasNames()) {
		return text, asked(text, from)
	}
	read := intake.Read(text, from)
	if len(read.Ledgers) == 0 {
		return "", nil
	}
	timed := o.Hours && slices.ContainsFunc(read.Ledgers, func(l ledger.Ledger) bool { return len(l.Slots) > 0 })
	return sheetText(read.Ledgers, from, timed, o.Names)
}

// sheetText writes a sheet of columns in the way in which it is read as just
// them, if there is one: with the names of columns, if they are to go along, or
// without; with rows for days of which nothing is known or without.
func sheetText(columns []ledger.Ledger, from intake.Options, timed, named bool) (clean string, answers map[string]string) {
	least := 1 << 30
	for _, every := range []bool{false, true} {
		s := sheetOf(columns, timed, every)
		for _, names := range []bool{true, false} {
			if names && !named || len(s.rows) == 0 {
				continue
			}
			if !names {
				s.leaveNames()
			}
			text := s.String()
			if parsed, ok := parseSheet(text); !ok || len(parsed.names) != len(s.names) {
				continue
			}
			needs, apart := settled(text, from, columns)
			if apart < least {
				clean, answers, least = text, needs, apart
			}
			if apart == 0 {
				return clean, answers
			}
		}
	}
	return clean, answers
}

// leaveNames calls all columns by neutral names but those of legs, which tell
// that the columns add up.
func (s *sheet) leaveNames() {
	for i, name := range s.names {
		if !isLegName(name) {
			s.names[i] = columnName(i, len(s.names))
		}
	}
}

func (s *sheet) hasNames() bool {
	for i, name := range s.names {
		if name != columnName(i, len(s.names)) && !isLegName(name) {
			return true
		}
	}
	return false
}

// columnName is what a column is called without its own name.
func columnName(i, of int) string {
	if of == 1 {
		return ""
	}
	return "Column " + string(rune('A'+i))
}

// asked gives the answers that a sheet's own questions have.
func asked(text string, o intake.Options) map[string]string {
	answers := map[string]string{}
	questions := intake.Read(text, o).Questions
	for i := range questions {
		if id := questions[i].ID; o.Answers[id] != "" {
			answers[id] = o.Answers[id]
		}
	}
	return answers
}

// settled answers what intake would ask of a sheet, so that it is read as what it
// was made of, and says at how many days it is not. Days that rise from the
// first to the last are like a register's reads, for one.
func settled(text string, o intake.Options, want []ledger.Ledger) (answers map[string]string, apart int) {
	o.Answers = map[string]string{}
	read := intake.Read(text, o)
	for range 4 {
		open := 0
		for open < len(read.Questions) && o.Answers[read.Questions[open].ID] != "" {
			open++
		}
		if open == len(read.Questions) {
			break
		}
		q, best, least := &read.Questions[open], "", 1<<30
		for i := range q.Choices {
			o.Answers[q.ID] = q.Choices[i].ID
			if apart := differing(intake.Read(text, o).Ledgers, want); apart < least {
				best, least = q.Choices[i].ID, apart
			}
		}
		o.Answers[q.ID] = best
		read = intake.Read(text, o)
	}
	return o.Answers, differing(read.Ledgers, want)
}

// differing counts the days at which ledgers differ; a day of which a part is
// known counts as one of which nothing is, as a sheet of days has it.
func differing(a, b []ledger.Ledger) int {
	if len(a) != len(b) {
		return 1 << 20
	}
	n := 0
	for i := range a {
		span := calendar.Span{First: min(a[i].First, b[i].First), End: max(a[i].Span().End, b[i].Span().End)}
		for d := span.First; d < span.End; d++ {
			x, y := a[i].At(d), b[i].At(d)
			if x.State == ledger.Partial && y.State == ledger.Missing || x.State == ledger.Missing && y.State == ledger.Partial {
				continue
			}
			if x.State != y.State || x.Energy != y.Energy {
				n++
			}
		}
	}
	return n
}
