package cause

import (
	"fmt"
	"math"

	"splittally/calc/figure"
)

// How uneven the legs of a home are, in percent of its energy: the standard
// deviation of a leg's share, and how far it moves from bill to bill, in homes
// that are steady and in others (common practice, no source).
const shareSD = 10

var shareMoves = [2]float64{2.5, 8}

// clamp: a clamp is missing, is turned round, or sits on the wrong conductor,
// so that the monitor counts a leg not at all, against the others, or twice.
var clamp = kind{
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
		by: f.ofPeriods(func(p int) float64 { return f.r[p] / 100 }), mean: mean, sd: times * shareSD,
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

// turnedRound takes a leg whose own readings are negative for one that is
// turned round: the readings themselves say what they should be.
func (f *frame) turnedRound() (form, bool) {
	sum, size := 0.0, 0.0
	leg := 0
	for i, s := range f.Shares {
		sum += s
		size += math.Abs(s)
		if s < 0 {
			leg = i + 1
		}
	}
	if leg == 0 || sum <= 0 {
		return form{}, false
	}
	return form{
		weight: 1, scale: f.ofPeriods(func(int) float64 { return size / sum }),
		how: func(outcome) string {
			return fmt.Sprintf("The readings of leg %d are below zero: its clamp is turned round, and what it carries is taken off.", leg)
		},
	}, true
}
