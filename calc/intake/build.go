package intake

import (
	"slices"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/ledger"
	"splittally/calc/remark"
)

// figure is one known or marked amount of a column with its days.
type figure struct {
	span calendar.Span
	line int // from 1
	row  int
	amount
}

// column gives the figures of a column in order of their days; those of a day
// stay in the order of the text.
func (a *attempt) column(c int) []figure {
	out := make([]figure, 0, len(a.placed))
	for pi := range a.placed {
		pl := &a.placed[pi]
		if a.p.blocks && a.p.rows[pl.row].figures[c] == absent {
			continue // the row is another table's
		}
		out = append(out, figure{pl.span, a.p.rows[pl.row].line + 1, pl.row, pl.gave[c]})
	}
	arrange(out, func(f *figure) int { return int(f.span.First) })
	return out
}

// build makes the ledgers, one a column.
func (a *attempt) build() {
	if len(a.placed) == 0 {
		return
	}
	several := a.severalADay()
	for c, col := range a.p.columns {
		l := ledger.Ledger{Name: col.name}
		figures := a.column(c)
		if a.merged != "" && c == 0 {
			l.Name = a.merged
		}
		switch {
		case len(figures) == 0 || a.derived[c]:
			continue
		case several:
			a.fromIntervals(&l, c, figures)
		default:
			if a.units[c].unit.IsPower() && !a.units[c].energy {
				meanPowers(figures)
			}
			a.fromDays(&l, figures)
		}
		if len(l.Days) > 0 && (len(a.problems) == 0 || l.Count(l.Span(), ledger.Missing) < len(l.Days)) {
			a.ledgers = append(a.ledgers, l)
			a.tellAbsent(l, figures)
			a.tellOdd(l)
		}
	}
}

// meanPowers turns the mean power of each day into its energy.
func meanPowers(figures []figure) {
	for i := range figures {
		hours := energy.Energy(24 * max(1, figures[i].span.Days())) // mostPower and the longest span keep the product in range
		figures[i].energy *= hours
		figures[i].rounding *= hours
	}
}

// fromDays makes a ledger of figures that are of days or longer.
func (a *attempt) fromDays(l *ledger.Ledger, figures []figure) {
	if a.registerReads(figures) {
		a.fromRegister(l, figures)
		return
	}
	figures = a.withoutTotals(a.once(figures))
	figures = a.settleSpans(figures)
	for i := range figures {
		put(l, &figures[i])
	}
	a.settleZeros(l)
}

// put enters one figure. A total over several days is shared among them; what
// rounding hid of it is shared so that the days' roundings add up, as
// independent ones do, to the total's.
func put(l *ledger.Ledger, f *figure) {
	n := f.span.Days()
	if !f.known {
		for d := f.span.First; d < f.span.End; d++ {
			if l.At(d).State == ledger.Missing {
				l.Put(d, ledger.Entry{Line: f.line})
			}
		}
		return
	}
	if n == 1 {
		l.Put(f.span.First, ledger.Entry{State: ledger.Measured, Energy: f.energy, Rounding: f.rounding, Line: f.line})
		return
	}
	for i, part := range f.energy.Share(n) {
		l.Put(f.span.First+calendar.Day(i), ledger.Entry{
			State: ledger.Spread, Energy: part, Rounding: rootShare(f.rounding, n), Total: f.span, Line: f.line,
		})
	}
}

// once settles days that have several figures. Equal ones count once; others
// are asked about.
func (a *attempt) once(figures []figure) []figure {
	out := make([]figure, 0, len(figures))
	var repeated []int
	var differing []calendar.Day
	for fi := range figures {
		f := &figures[fi]
		n := len(out)
		switch {
		case n == 0 || out[n-1].span != f.span:
			out = append(out, *f)
			continue
		case !f.known:
		case !out[n-1].known:
			out[n-1] = *f
		case out[n-1].energy == f.energy:
			repeated = append(repeated, f.line)
			if l := &a.lines[f.line-1]; l.Use == Used {
				l.Why = "counted once: it repeats " + lineList([]int{out[n-1].line})
			}
		default:
			differing = append(differing, f.span.First)
		}
	}
	if len(repeated) > 0 {
		a.notice("repeated-days", "Days that are given twice with the same figure were counted once: "+lineList(repeated)+".")
	}
	if len(differing) == 0 {
		return out
	}
	return a.doubled(figures, slices.Compact(differing), len(out))
}

// doubled asks what to do with days that have figures that differ. Where most
// days have two they are likely parts; else a later line likely mends an
// earlier one (common practice, no source).
func (a *attempt) doubled(figures []figure, days []calendar.Day, distinct int) []figure {
	provisional := "last"
	if 2*len(days) > distinct {
		provisional = "add"
	}
	taken := provisional
	if !a.asked("doubled-days") {
		taken = a.ask("doubled-days", "What of days that are given more than once with different figures?",
			"Given more than once: "+list(days)+".", provisional,
			remark.Choice{ID: "add", Label: "Add the figures of a day"},
			remark.Choice{ID: "first", Label: "Take the first"}, remark.Choice{ID: "last", Label: "Take the last"})
	} else {
		taken = a.taken("doubled-days")
	}
	var out []figure
	for fi := range figures {
		f := &figures[fi]
		n := len(out)
		switch {
		case n == 0 || out[n-1].span != f.span:
			out = append(out, *f)
		case !f.known:
		case !out[n-1].known || taken == "last":
			out[n-1] = *f
		case taken == "add":
			out[n-1].energy = plus(out[n-1].energy, f.energy)
			out[n-1].rounding = rootSum(out[n-1].rounding, f.rounding)
		}
	}
	if taken == "add" {
		a.notice("rows-summed", "Several figures of a day were added: "+list(days)+".")
	}
	return out
}

// asked says whether a question is noted already, for another column.
func (a *attempt) asked(name string) bool {
	return slices.ContainsFunc(a.questions, func(q remark.Question) bool { return q.ID == a.id(name) })
}

// taken gives the choice that a noted question rests on.
func (a *attempt) taken(name string) string {
	for _, q := range a.questions {
		if q.ID == a.id(name) {
			return q.Taken
		}
	}
	return ""
}

// settleZeros asks about days of no energy among days with some: a monitor
// that lost its connection often shows 0. Until it is answered they are kept as
// given.
func (a *attempt) settleZeros(l *ledger.Ledger) {
	var zeros []calendar.Day
	normal := 0
	for i := range l.Days {
		e := &l.Days[i]
		if e.State != ledger.Measured {
			continue
		}
		if e.Energy == 0 {
			zeros = append(zeros, l.First+calendar.Day(i))
		} else if e.Energy > energy.KilowattHour {
			normal++
		}
	}
	if len(zeros) == 0 || normal < 3 || 2*len(zeros) > normal {
		return
	}
	if !a.asked("zeros") {
		a.ask("zeros", "Was nothing used on "+list(zeros)+", or was nothing measured?",
			"The figure is 0 among days with ordinary use.", "zero",
			remark.Choice{ID: "zero", Label: "Nothing was used: keep the zeros"},
			remark.Choice{ID: "missing", Label: "Nothing was measured: take the days as missing"})
	}
	if a.taken("zeros") == "missing" {
		for _, d := range zeros {
			l.Put(d, ledger.Entry{Line: l.At(d).Line})
		}
		return
	}
	a.notice("zeros-suspicious", "A figure of 0 stands among days with ordinary use: "+list(zeros)+".")
}
