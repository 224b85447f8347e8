package changes

import (
	"fmt"
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

// stretch is days that differ together: one, or those of a total over several.
type stretch struct {
	column int
	span   calendar.Span
}

// readings merges the days of a monitor, or of the meter. My text stays as it is
// unless a day is taken.
func (m *merger) readings(mine, theirs string, x, y document.Node) document.Node {
	path := mine + ".readings"
	a, b := m.days[0].of(mine), m.days[1].of(theirs)
	if text(x) == text(y) || text(y) == "" && len(a) == 0 {
		return x
	}
	if len(a) != len(b) || len(a) == 0 {
		i := Item{Key: "field " + path, Where: m.where(path), What: what(path), Mine: inAll(a), Theirs: inAll(b)}
		if len(a)+len(b) == 0 {
			i.Mine, i.Theirs = lines(text(x)+"\n"), lines(text(y)+"\n")
		}
		if m.wants(i) {
			m.renew(0, mine)
			m.renew(1, theirs)
			return y
		}
		return x
	}
	out, taken := make([]ledger.Ledger, len(a)), false
	for c := range a {
		out[c] = a[c]
		out[c].Days, out[c].Slots = slices.Clone(a[c].Days), slices.Clone(a[c].Slots)
		stretches := differing(c, a[c], b[c])
		for _, i := range m.dayItems(path, stretches, a, b) {
			if m.wants(i.Item) {
				taken = true
				for _, s := range i.stretches {
					takeDays(&out[c], b[c], s.span)
				}
			}
		}
	}
	if !taken {
		return x
	}
	sheet, needs := link.Sheet(mine, out)
	m.renew(0, mine)
	for id, choice := range needs {
		m.needed[id] = choice
	}
	return document.Node{Text: sheet}
}

// dayItem is an item and the days it takes.
type dayItem struct {
	Item
	stretches []stretch
}

// dayItems tells days that differ one by one, or all together if they are many.
func (m *merger) dayItems(path string, all []stretch, a, b []ledger.Ledger) (items []dayItem) {
	if len(all) == 0 {
		return nil
	}
	c := all[0].column
	column := ""
	if len(a) > 1 {
		if column = ", " + a[c].Name; a[c].Name == "" {
			column = ", column " + strconv.Itoa(c+1)
		}
	}
	whole := calendar.Span{First: all[0].span.First, End: all[len(all)-1].span.End}
	key := "days " + path + " " + strconv.Itoa(c) + " "
	if len(all) > manyDays {
		i := Item{Key: key + "all", Where: m.where(path), What: fmt.Sprintf("%d days, %s%s", len(all), whole, column)}
		i.Mine, i.Theirs = total(a[c], whole), total(b[c], whole)
		return []dayItem{{i, all}}
	}
	for _, s := range all {
		i := Item{Key: key + s.span.First.String(), Where: m.where(path), What: daysOf(s.span) + column}
		i.Mine, i.Theirs = figure(a[c], s.span), figure(b[c], s.span)
		if i.Mine == i.Theirs {
			i.What += ", its hours"
		}
		items = append(items, dayItem{i, []stretch{s}})
	}
	return items
}

func daysOf(span calendar.Span) string {
	if span.Days() == 1 {
		return span.First.Long()
	}
	return span.String()
}

// differing gives the days at which two columns differ.
func differing(column int, a, b ledger.Ledger) (all []stretch) {
	span := cover(a.Span(), b.Span())
	for d := span.First; d < span.End; d++ {
		if sameDay(a, b, d) {
			continue
		}
		s := calendar.Span{First: d, End: d + 1}
		for grown := true; grown; {
			grown = false
			for k := s.First; k < s.End; k++ {
				for _, e := range []ledger.Entry{a.At(k), b.At(k)} {
					if wide := cover(s, e.Total); e.State == ledger.Spread && wide != s {
						s, grown = wide, true
					}
				}
			}
		}
		all = append(all, stretch{column, s})
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
func sameDay(mine, theirs ledger.Ledger, d calendar.Day) bool {
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
func takeDays(to *ledger.Ledger, from ledger.Ledger, span calendar.Span) {
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
			if sameDay(a[c], b[c], d) {
				same++
			}
		}
	}
	return float64(same) / float64(max(all, 1))
}

// figure writes what is known of some days.
func figure(l ledger.Ledger, span calendar.Span) string {
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
func total(l ledger.Ledger, span calendar.Span) string {
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
	return fmt.Sprintf("%s in %d days", sum, days)
}

// inAll writes what columns hold.
func inAll(columns []ledger.Ledger) string {
	var said []string
	for _, l := range columns {
		said = append(said, strings.TrimSpace(l.Name+" "+total(l, l.Span())))
	}
	return strings.Join(said, ", ")
}
