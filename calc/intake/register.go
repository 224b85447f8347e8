package intake

import (
	"slices"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/ledger"
	"splittally/calc/remark"
)

// climb is how a run of figures looks as reads of a register.
type climb struct {
	reads  int
	falls  int
	again  int           // the falls that begin again near zero, from far above
	step   energy.Energy // the middle one of the rises
	strong bool          // it can hardly be anything else
	towers bool          // the reads are large against their steps
	least  energy.Energy // the smallest read
	zero   bool          // begins near zero, as a running total of a month does
	maybe  bool          // it rises all the way, so it might be
	gap    int           // the usual number of days between reads
	back   bool          // it falls all the way: the register runs backwards

	rolled, reset, fell []calendar.Day // where it falls, by how that is explained
}

// registerReads says whether figures are to be taken as reads of a register.
// It is asked whenever they look like it; provisionally they are if the
// evidence is strong.
func (a *attempt) registerReads(figures []figure) bool {
	if slices.ContainsFunc(figures, func(f figure) bool { return f.span.Days() != 1 }) {
		return false
	}
	k := climbOf(figures)
	why := "The figures rise from line to line."
	if k.reads == 0 {
		if k = backwards(figures); k.back {
			why = "The figures fall from line to line, as if a register ran backwards."
		}
	}
	told := a.p.register && k.reads >= 2 && k.falls == k.again && k.step > 0
	if !k.maybe && !told {
		return false
	}
	if !a.asked("register") {
		provisional := "daily"
		if k.strong || told {
			provisional = "start"
			if a.p.atEnd && !a.p.atStart || k.zero && !a.p.atStart {
				provisional = "end"
			}
		}
		a.ask("register", "Are these running totals of a register, or the energy of each day?", why, provisional,
			remark.Choice{ID: "start", Label: "A register, read as the day begins: a day's energy is the next day's read less its own"},
			remark.Choice{ID: "end", Label: "A register, read as the day ends: a day's energy is its own read less the day's before"},
			remark.Choice{ID: "daily", Label: "The energy of each day"})
	}
	return a.taken("register") != "daily"
}

// fromRegister makes days of the differences of reads.
func (a *attempt) fromRegister(l *ledger.Ledger, figures []figure) {
	shift := calendar.Day(0)
	atEnd := a.taken("register") == "end"
	if atEnd {
		shift = 1
	}
	k := climbOf(figures)
	k.back = k.reads == 0 && backwards(figures).back
	reads := a.oneRead(figures, atEnd)
	if atEnd && k.zero && len(reads) > 0 {
		// A running total that began with its first day.
		put(l, &reads[0])
	}
	for i := 1; i < len(reads); i++ {
		a.registered(l, &reads[i-1], &reads[i], shift, &k)
	}
	a.tellFalls(&k)
	if !atEnd && len(reads) > 0 {
		if l := &a.lines[reads[len(reads)-1].line-1]; l.Use == Used {
			l.Why = "closes the day before"
		}
	}
}

// oneRead gives the reads of which each day has one: where there are several,
// the first of the day, or the last if registers are read as days end.
func (a *attempt) oneRead(figures []figure, last bool) []figure {
	var reads []figure
	var differing []calendar.Day
	equal := true
	for i := 1; i < len(figures); i++ {
		if x, y := &figures[i-1], &figures[i]; x.known && y.known && x.span == y.span && x.energy != y.energy {
			equal = false
		}
	}
	if equal {
		figures = a.once(figures)
	}
	for _, f := range figures {
		n := len(reads) - 1
		switch {
		case !f.known:
		case n < 0 || reads[n].span != f.span:
			reads = append(reads, f)
		default:
			differing = append(differing, f.span.First)
			if last {
				reads[n] = f
			}
		}
	}
	if len(differing) > 0 {
		which := "first"
		if last {
			which = "last"
		}
		a.notice("several-reads", "Of several reads on a day the "+which+" was taken: "+list(slices.Compact(differing))+".")
	}
	return reads
}

// tellFalls tells where a register fell.
func (a *attempt) tellFalls(k *climb) {
	if len(k.rolled) > 0 {
		a.notice("register-rolled-over", "The register rolled over: "+list(k.rolled)+".")
	}
	if len(k.reset) > 0 {
		a.notice("register-reset", "The running total began again: "+list(k.reset)+".")
	}
	if len(k.fell) > 0 {
		a.notice("register-reset", "The register fell, so what was used is not known: "+list(k.fell)+".")
	}
}

// usualGap gives the usual number of days between reads, at least 1.
func (k *climb) usualGap() int { return max(1, k.gap) }

// rollOver gives the read at which a register that shows e begins again at
// zero: the next power of ten, in whatever unit it counts.
func rollOver(e energy.Energy) energy.Energy {
	top := energy.Energy(1)
	for top <= e {
		top *= 10 // mostEnergy keeps e far below the last power of ten
	}
	return top
}

// registered enters the energy between two reads.
func (a *attempt) registered(l *ledger.Ledger, from, to *figure, shift calendar.Day, k *climb) {
	line := from.line
	if shift > 0 {
		line = to.line
	}
	f := figure{
		span: calendar.Span{First: from.span.First + shift, End: to.span.First + shift}, line: line,
		amount: amount{known: true, energy: to.energy - from.energy, rounding: rootSum(from.rounding, to.rounding)},
	}
	if f.energy < 0 && !k.back {
		usual := k.step * energy.Energy((f.span.Days()+k.usualGap()-1)/k.usualGap())
		switch top := rollOver(from.energy); {
		case from.energy > top-top/10 && to.energy >= 0 && to.energy < top/10 && f.energy+top <= 5*usual:
			f.energy += top
			k.rolled = append(k.rolled, f.span.First)
		case shift > 0 && to.energy/3 <= k.step && to.energy >= 0 && f.span.Days() == 1:
			f.energy, f.rounding = to.energy, to.rounding
			k.reset = append(k.reset, f.span.First)
		default:
			f.known = false
			k.fell = append(k.fell, f.span.First)
		}
	}
	put(l, &f)
}
