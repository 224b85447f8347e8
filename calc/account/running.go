package account

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/figure"
	"splittally/calc/sorted"
	"splittally/calc/tariff"
)

// RunningInput is what is known of a period that has begun.
type RunningInput struct {
	Period int // index in the case
	Span   calendar.Span
	// Usage is what was used so far, as slots of the instrument; its Span is
	// that of the whole period. Without Import the Days are taken.
	Usage tariff.Usage
	// Days are the days of the instrument that have a figure: of the period, and
	// of some weeks before it, in any order.
	Days []DayUse
	// Factor turns the instrument's energy into the meter's, such as
	// correct.Correction.Factor; 0 is read as 1. FactorDoubt is its standard
	// uncertainty, absolute.
	Factor      decimal.Decimal
	FactorDoubt float64
	// FilledDoubt is the standard uncertainty of the filled days, in kWh.
	FilledDoubt float64
	Confidence  float64 // a fraction; 0 is read as 0.95
}

// DayUse is the energy of a day.
type DayUse struct {
	Day      calendar.Day
	Energy   energy.Energy
	Measured bool // else filled
}

// RunTo says what a period that has begun comes to: so far, and at its end if
// use goes on as on the last measured days.
//
// The days to come, and days so far without any figure, are taken as the mean of
// like days, see project. The bill so far prices the days up to the last one
// with a figure: charges per day so far, charges per period whole.
func RunTo(t tariff.Tariff, in RunningInput) Running {
	if in.Factor.IsZero() {
		in.Factor = decimal.NewFromInt(1)
	}
	if in.Confidence == 0 {
		in.Confidence = 0.95
	}
	in.Days = slices.Clone(in.Days)
	sorted.Stable(in.Days, func(a, b DayUse) int { return cmp.Compare(a.Day, b.Day) })
	w := &course{t: t, in: in, out: Running{Period: in.Period, Span: in.Span, Through: in.Span.First - 1}}
	w.soFar()
	w.toCome()
	w.words()
	return w.out
}

// course is the work on a running period.
type course struct {
	t      tariff.Tariff
	in     RunningInput
	out    Running
	usage  tariff.Usage   // so far, by the meter
	rest   []calendar.Day // without a figure
	gaps   int            // how many of them are before the last figure
	coming projection
	future []tariff.Slot
}

// soFar prices what was used up to the last day with a figure.
func (w *course) soFar() {
	known := map[calendar.Day]bool{}
	w.usage = w.in.Usage
	w.usage.Span = w.in.Span
	bare := len(w.usage.Import) == 0
	for _, d := range w.in.Days {
		if !w.in.Span.Has(d.Day) || known[d.Day] {
			continue
		}
		known[d.Day] = true
		w.out.Through = d.Day
		if bare {
			w.usage.Import = append(w.usage.Import, tariff.Slot{First: d.Day, Last: d.Day, To: dayMinutes, Energy: d.Energy})
		}
	}
	w.usage = scaled(w.usage, times(kWh(w.usage), w.in.Factor))
	w.out.EnergySoFar = kWh(w.usage).Decimal()
	for d := w.in.Span.First; d < w.in.Span.End; d++ {
		if known[d] {
			continue
		}
		w.rest = append(w.rest, d)
		if d < w.out.Through {
			w.gaps++
		}
	}
	w.out.Left = len(w.rest) - w.gaps
	until := w.usage
	until.Span.End = w.out.Through + 1
	w.out.ToDate = w.t.Price(until)
}

func times(e energy.Energy, factor decimal.Decimal) energy.Energy {
	return energy.Energy(decimal.NewFromInt(int64(e)).Mul(factor).RoundBank(0).IntPart())
}

// toCome prices the whole period with the days to come, and within the interval.
func (w *course) toCome() {
	w.coming = project(w.in.Days, w.out.Through, w.rest)
	w.out.Like = w.coming.like
	if w.coming.like < leastLike && len(w.rest) > 0 {
		return
	}
	factor := w.in.Factor.InexactFloat64()
	var rest energy.Energy
	shape, perHour := shapesOf(w.usage.Import), 1
	if w.t.NeedsPower { // windows of 15 minutes can be the shortest that count
		perHour = 4
	}
	for _, d := range w.rest {
		e := times(w.coming.use[d], w.in.Factor)
		rest += e
		w.future = append(w.future, shape.slots(d, e, perHour)...)
	}
	w.out.Projected = w.t.Price(w.with(w.future))
	total := kWh(w.usage) + rest
	w.out.Energy = total.Decimal()
	common := w.in.FactorDoubt / factor * total.KilowattHours()
	standard := math.Sqrt(square(w.coming.standard*factor) + square(common) + square(w.in.FilledDoubt*factor))
	w.out.EnergyDoubt = widen(standard, w.coming.standard*factor, w.coming.dof, w.in.Confidence)
	w.out.Low, w.out.High = w.ends(rest)
	w.next()
}

// with gives the usage so far and some slots to come.
func (w *course) with(future []tariff.Slot) tariff.Usage {
	u := w.usage
	u.Import = append(slices.Clone(u.Import), future...)
	sorted.Stable(u.Import, func(a, b tariff.Slot) int {
		return cmp.Or(cmp.Compare(a.First, b.First), cmp.Compare(a.From, b.From))
	})
	return u
}

// ends prices the projected energy less and more what it is in doubt by. The
// days to come take the doubt as far as they can, what is left the days so far.
// Where shares are assumed, the ends hold the least and most of them.
func (w *course) ends(rest energy.Energy) (low, high decimal.Decimal) {
	doubt, err := energy.FromKilowattHours(w.out.EnergyDoubt)
	if err != nil {
		return w.out.Projected.Total, w.out.Projected.Total
	}
	at := func(off energy.Energy) tariff.Priced {
		part := w.with(scaled(tariff.Usage{Import: w.future}, max(rest+off, 0)).Import)
		return w.t.Price(scaled(part, max(kWh(w.usage)+rest+off, 0)))
	}
	less, more := at(-doubt), at(doubt)
	low, high = less.Total, more.Total
	if less.IsAssumed || more.IsAssumed {
		low, high = less.Least, more.Most
	}
	// With a price below zero more energy can cost less.
	return decimal.Min(low, high, w.out.Projected.Total), decimal.Max(low, high, w.out.Projected.Total)
}

// next looks for the first line of energy that the bill has not yet: tiers alone
// come later. The bill grows with the days, so the day is bisected.
func (w *course) next() {
	now := energyLines(w.t.Price(w.usage))
	until := func(n int) tariff.Priced {
		var slots []tariff.Slot
		for _, s := range w.future {
			if s.First <= w.rest[n] {
				slots = append(slots, s)
			}
		}
		return w.t.Price(w.with(slots))
	}
	fresh := func(p tariff.Priced) string {
		for _, l := range p.Lines {
			if l.Unit == "kWh" && !now[place{row: l.Row, nth: nthOf(p, l)}] {
				return l.Name
			}
		}
		return ""
	}
	low, high := 0, len(w.rest)-1
	if high < 0 || fresh(until(high)) == "" {
		return
	}
	for low < high {
		if middle := (low + high) / 2; fresh(until(middle)) != "" {
			high = middle
		} else {
			low = middle + 1
		}
	}
	w.out.Next = Next{Known: true, Name: fresh(until(low)), Day: w.rest[low]}
}

func energyLines(p tariff.Priced) map[place]bool {
	has := map[place]bool{}
	for _, l := range p.Lines {
		has[place{row: l.Row, nth: nthOf(p, l)}] = true
	}
	return has
}

// nthOf gives which of its row's lines a line is.
func nthOf(p tariff.Priced, line tariff.Line) (nth int) {
	for _, l := range p.Lines {
		if l.Row == line.Row && l.Name == line.Name {
			return nth
		}
		if l.Row == line.Row {
			nth++
		}
	}
	return nth
}

// words tell what the projection rests on.
func (w *course) words() {
	say := func(parts ...string) { w.out.Words = append(w.out.Words, strings.Join(parts, "")) }
	if w.coming.like < leastLike && len(w.rest) > 0 {
		say("There are ", figure.Counted(w.coming.like, "measured day", "measured days"), "; from 5 on the rest of the period is projected.")
		return
	}
	if w.out.Left > 0 {
		say("The ", figure.Counted(w.out.Left, "day", "days"), " to come are taken as the mean of like days, weekdays and weekends apart, among the last ",
			figure.Counted(w.coming.like, "measured day", "measured days"), ".")
	}
	if w.gaps > 0 {
		say(figure.Counted(w.gaps, "day", "days"), " so far without a figure ", isAre(w.gaps), " taken likewise.")
	}
	if factor := w.in.Factor.Round(4); !factor.Equal(decimal.NewFromInt(1)) {
		say("The monitor’s energy is multiplied by ", factor.String(), ", as the bills so far ask for.")
	}
	if w.t.NeedsPower && len(w.rest) > 0 {
		say("The highest power so far is taken for the whole period; a higher one would add to the bill.")
	}
	if w.out.Next.Known {
		say("At this pace “", w.out.Next.Name, "” is reached on ", w.out.Next.Day.Long(), ".")
	}
}

func isAre(n int) string {
	if n == 1 {
		return "is"
	}
	return "are"
}
