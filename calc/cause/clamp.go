package cause

import (
	"fmt"
	"math"

	"splittally/calc/figure"
	"splittally/calc/ledger"
)

// How uneven the legs of a home are, in percent of its energy: the standard
// deviation of a leg's share, and how far it moves from bill to bill, in homes
// that are steady and in others (common practice, no source).
const shareSD = 10

var shareMoves = [2]float64{2.5, 8}

// clamp: a clamp is missing, is turned round, or sits on the wrong conductor,
// so that the monitor counts a leg not at all, against the others, or twice.
func clamp() kind {
	return kind{
		id:     Clamp,
		name:   "A clamp is missing, turned round or on the wrong conductor",
		remedy: "Have an electrician look at the clamps: each round its own leg, arrow the same way, closed, its plug seated.",
		forms: func(f *frame) []form {
			if fo, ok := f.turnedRound(); ok {
				return []form{fo}
			}
			var out []form
			for _, legs := range f.legCounts() {
				part := 100 / float64(legs)
				for _, moves := range shareMoves {
					out = append(out,
						f.clamped(-part, 1, moves, "A leg is not counted: its clamp is missing, open, or not plugged in."),
						f.clamped(-2*part, 2, moves, "A leg is taken off instead of added: its clamp is turned round."),
						f.clamped(0, 2, moves, "A leg is counted twice and another not at all: two clamps sit on the same one."))
				}
			}
			return out
		},
	}
}

// legCounts says how many legs the home may have.
func (f *frame) legCounts() []int {
	switch f.Legs {
	case 0:
		return []int{2, 3}
	case 1:
		return nil
	}
	return []int{f.Legs}
}

// clamped is a monitor that reads mean percent of the meter's energy too high,
// give or take times the unevenness of the legs.
func (f *frame) clamped(mean, times, moves float64, words string) form {
	fo := form{weight: 1, effects: []effect{{
		by: f.ofPeriods(func(p int) float64 { return f.r[p] / 100 }), mean: mean, sd: times * shareSD, days: inProportion,
	}}}
	if f.n() > 1 {
		for p := range f.n() {
			fo.effects = append(fo.effects, effect{by: f.alone(p, f.r[p]/100), sd: times * moves})
		}
	}
	fo.how = func(o outcome) string {
		return words + " On the whole it reads " + figure.Percent(figure.Fixed(o.sizes[0], 0)) + "."
	}
	return fo
}

// little is the part of all legs' energy below which a leg's own sign, or its
// lack of energy, says nothing (a choice).
const little = 0.02

// cutDay is how much of a day a read cuts off, in days: a standard deviation.
const cutDay = 0.4

// turnedRound takes a leg whose own readings are negative for one that is
// turned round: the readings themselves say what they should be.
func (f *frame) turnedRound() (form, bool) {
	all, size := f.legs()
	leg := 0
	for i, kWh := range all {
		if kWh < -little*size {
			leg = i + 1
		}
	}
	if leg == 0 {
		return form{}, false
	}
	fo := form{weight: 1, add: make([]float64, f.n()), steady: true, effects: f.anySlope()}
	more := make([]float64, f.n()) // what is added has the accuracy of the rest
	for p, period := range f.Periods {
		if len(period.Legs) < leg || period.LegDays == 0 {
			continue
		}
		days := f.days(p)
		mend := -2 * period.Legs[leg-1]
		fo.add[p] = mend * days / float64(period.LegDays)
		more[p] = math.Sqrt(max(0, math.Pow(f.w[p]+fo.add[p], 2)-math.Pow(f.w[p], 2)))
		if missing := days - float64(period.LegDays); missing > 0 {
			fo.effects = append(fo.effects, effect{by: f.alone(p, 1), sd: ledger.DailySpread * math.Abs(mend) / float64(period.LegDays) * math.Sqrt(missing)})
		}
	}
	fo.effects = append(fo.effects, f.mayRun(fo.add)...)
	fo.effects = append(fo.effects, effect{by: more, sd: f.accurate()})
	for _, r := range f.reads() { // whole days are mended, whatever the hour of the read
		by := make([]float64, f.n())
		if r.ends >= 0 {
			by[r.ends] = fo.add[r.ends] / f.days(r.ends)
		}
		if r.begins >= 0 {
			by[r.begins] = -fo.add[r.begins] / f.days(r.begins)
		}
		fo.effects = append(fo.effects, effect{by: by, sd: cutDay})
	}
	fo.how = func(outcome) string {
		return fmt.Sprintf("The readings of leg %d are below zero: its clamp is turned round, and what it carries is taken off.", leg)
	}
	return fo, true
}

// accurate is the standard uncertainty of the monitor's stated accuracy, as a
// part of its figure.
func (f *frame) accurate() float64 {
	for _, source := range f.sources {
		if source.name == f.Accuracy {
			return math.Abs(f.promised(source)) / 100
		}
	}
	return 0
}

// legs adds up the energy of each leg, and its size whatever its sign.
func (f *frame) legs() (all []float64, size float64) {
	for _, period := range f.Periods {
		for len(all) < len(period.Legs) {
			all = append(all, 0)
		}
		for i, kWh := range period.Legs {
			all[i] += kWh
			size += math.Abs(kWh)
		}
	}
	return all, size
}
