package changes

import (
	"slices"
	"strconv"
	"strings"

	"splittally/calc/calendar"
	"splittally/calc/document"
	"splittally/calc/energy"
	"splittally/calc/ledger"
	"splittally/calc/link"
)

// manyDays is how many days of a column are told one by one.
const manyDays = 31

// of gives the columns of a monitor or of the meter, by its path.
func (r read) of(path string) []ledger.Ledger {
	number, ok := strings.CutPrefix(path, "monitors.")
	if !ok {
		return r.meter
	}
	i, _ := strconv.Atoi(number)
	return r.monitors[i]
}

// readings merges the days of a monitor, or of the meter. My text stays as it is
// unless a day is taken.
func (m *merger) readings(mine, theirs string, x, y *document.Node) *document.Node {
	path := mine + ".readings"
	a, b := m.days[0].of(mine), m.days[1].of(theirs)
	if text(x) == text(y) || text(y) == "" && len(a) == 0 {
		return x
	}
	if len(a) != len(b) || len(a) == 0 {
		own, other := inAll(a), inAll(b)
		if len(a)+len(b) == 0 {
			own, other = lines(text(x)), lines(text(y))
		}
		if m.wants("field "+path, m.where(path), what(path), own, other) {
			m.renew(0, mine)
			m.renew(1, theirs)
			return y
		}
		return x
	}
	out, count := slices.Clone(a), m.count
	for c := range a {
		m.column(path, c, a, b, &out[c])
	}
	if m.count == count {
		return x
	}
	sheet, needs := link.Sheet(mine, out)
	m.renew(0, mine)
	for id, choice := range needs {
		m.needed[id] = choice
	}
	return &document.Node{Text: sheet}
}

// column merges the days of one column: told one by one, or all together if
// they are many.
func (m *merger) column(path string, c int, mine, theirs []ledger.Ledger, out *ledger.Ledger) {
	a, b := &mine[c], &theirs[c]
	all := differing(a, b)
	if len(all) == 0 {
		return
	}
	out.Days, out.Slots = slices.Clone(a.Days), slices.Clone(a.Slots)
	column := ""
	switch {
	case len(mine) > 1 && a.Name != "":
		column = ", " + a.Name
	case len(mine) > 1:
		column = ", column " + strconv.Itoa(c+1)
	}
	key := "days " + path + " " + strconv.Itoa(c) + " "
	if len(all) > manyDays {
		whole := calendar.Span{First: all[0].First, End: all[len(all)-1].End}
		what := strconv.Itoa(len(all)) + " days, " + whole.String() + column
		if m.wants(key+"all", m.where(path), what, total(a, whole), total(b, whole)) {
			for _, s := range all {
				takeDays(out, b, s)
			}
		}
		return
	}
	for _, s := range all {
		what, own, other := daysOf(s)+column, figure(a, s), figure(b, s)
		if own == other {
			what += ", its hours"
		}
		if m.wants(key+s.First.String(), m.where(path), what, own, other) {
			takeDays(out, b, s)
		}
	}
}

func daysOf(span calendar.Span) string {
	if span.Days() == 1 {
		return span.First.Long()
	}
	return span.String()
}

// differing gives the days at which two columns differ, those of a total over
// several together.
func differing(a, b *ledger.Ledger) (all []calendar.Span) {
	span := cover(a.Span(), b.Span())
	for d := span.First; d < span.End; d++ {
		if sameDay(a, b, d) {
			continue
		}
		s := calendar.Span{First: d, End: d + 1}
		for grown := true; grown; {
			before := s
			for k := s.First; k < s.End; k++ {
				for _, l := range []*ledger.Ledger{a, b} {
					if e := l.At(k); e.State == ledger.Spread {
						s = cover(s, e.Total)
					}
				}
			}
			grown = s != before
		}
		all = append(all, s)
		d = s.End - 1
	}
	return all
}

// cover gives the days from the first to the last of two spans.
func cover(a, b calendar.Span) calendar.Span {
	switch {
	case a.Days() == 0:
		return b
	case b.Days() == 0:
		return a
	}
	return calendar.Span{First: min(a.First, b.First), End: max(a.End, b.End)}
}

// sameDay says that theirs has of a day what mine has, or what a link leaves of
// that: no hours, and no day of which only a part is known.
func sameDay(mine, theirs *ledger.Ledger, d calendar.Day) bool {
	x, y := mine.At(d), theirs.At(d)
	switch {
	case y.State == ledger.Missing:
		return x.State == ledger.Missing || x.State == ledger.Partial
	case x.State != y.State || x.Energy != y.Energy || x.Hours != y.Hours || x.Total != y.Total:
		return false
	}
	p, q := mine.On(d), theirs.On(d)
	return len(p) == 0 || len(q) == 0 || slices.Equal(p, q)
}

// takeDays puts theirs for some days.
func takeDays(to, from *ledger.Ledger, span calendar.Span) {
	var slots []ledger.Slot
	for d := span.First; d < span.End; d++ {
		to.Put(d, from.At(d))
		slots = append(slots, from.On(d)...)
	}
	n := 0
	for n < len(to.Slots) && to.Slots[n].Day < span.First {
		n++
	}
	past := n
	for past < len(to.Slots) && to.Slots[past].Day < span.End {
		past++
	}
	to.Slots = slices.Concat(to.Slots[:n:n], slots, to.Slots[past:])
}

// daysLike is which part of the days of two monitors is the same.
func (m *merger) daysLike(mine, theirs string) float64 {
	a, b := m.days[0].of(mine), m.days[1].of(theirs)
	if len(a) != len(b) {
		return 0
	}
	same, all := 0, 0
	for c := range a {
		span := cover(a[c].Span(), b[c].Span())
		for d := span.First; d < span.End; d++ {
			all++
			if sameDay(&a[c], &b[c], d) {
				same++
			}
		}
	}
	return float64(same) / float64(max(all, 1))
}

// figure writes what is known of some days.
func figure(l *ledger.Ledger, span calendar.Span) string {
	e := l.At(span.First)
	switch {
	case span.Days() == 1 && e.State == ledger.Missing:
		return ""
	case span.Days() == 1 && e.State == ledger.Partial:
		return e.Energy.String() + ", a part of the day"
	case span.Days() == 1:
		return e.Energy.String()
	}
	return total(l, span)
}

// total writes what the known days of a span come to.
func total(l *ledger.Ledger, span calendar.Span) string {
	sum, days := energy.Energy(0), 0
	for d := span.First; d < span.End; d++ {
		if e := l.At(d); e.State != ledger.Missing {
			sum += e.Energy
			days++
		}
	}
	if days == 0 {
		return ""
	}
	return sum.String() + " in " + strconv.Itoa(days) + " days"
}

// inAll writes what columns hold.
func inAll(columns []ledger.Ledger) string {
	var said []string
	for i := range columns {
		l := &columns[i]
		said = append(said, strings.TrimSpace(l.Name+" "+total(l, l.Span())))
	}
	return strings.Join(said, ", ")
}
