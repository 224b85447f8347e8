package intake

import (
	"slices"

	"splittally/calc/energy"
)

// climbOf looks at figures in order of time.
func climbOf(figures []figure) climb {
	k, rises, first, last := stepsOf(figures)
	least, biggest := k.least, energy.Energy(0)
	for _, r := range rises {
		biggest = max(biggest, energy.Energy(r))
	}
	if k.reads < 3 || len(rises) == 0 || biggest == 0 || first < 0 {
		return climb{}
	}
	k.step = energy.Energy(middle(rises))
	k.again = beginsAgain(figures, k.step, biggest)
	if k.falls*8 > k.reads && (k.falls > 1 || k.again == 0) {
		return climb{}
	}
	k.zero = first/3 <= k.step
	// Reads are large against their steps. A total of a week can be so too, by
	// chance, in a text of three lines; in eight it can't.
	k.towers = least/5 > biggest
	if k.falls > 0 {
		k.towers = middleRead(figures)/5 > k.step && k.reads > 3
	}
	// Of all orders of ten figures fewer than one in a thousand fall only once.
	grown := k.falls == 0 && k.reads >= 8 && last/3 > first || k.falls == 1 && k.reads >= 10
	k.gap = gapOf(figures)
	// Reads of few weeks or months can be the totals of these, if a home uses as much.
	totals := k.gap > 5 && k.reads < 8 && least/energy.Energy(k.gap) < 100*energy.KilowattHour
	k.strong = k.towers && (k.reads >= 5 || least > 400*energy.KilowattHour) && !totals || grown
	k.maybe = k.strong || k.falls == 0 && k.reads >= 6 && rises[0] > 0
	// A register falls only to begin again; what falls a little and is no more
	// than a home may use in a day is the energy of days, until it is answered.
	k.strong = k.strong && (k.falls == k.again || least > 100*energy.KilowattHour)
	return k
}

// stepsOf counts the known figures and their falls, and gives their rises, the
// first and the last of them.
func stepsOf(figures []figure) (k climb, rises []int, first, last energy.Energy) {
	for i := range figures {
		f := &figures[i]
		switch {
		case !f.known:
			continue
		case k.reads == 0:
			first, k.least = f.energy, f.energy
		case f.energy < last:
			k.falls++
		default:
			rises = append(rises, int(f.energy-last))
		}
		k.least = min(k.least, f.energy)
		last = f.energy
		k.reads++
	}
	return k, rises, first, last
}

// gapOf gives the usual number of days from one figure to the next, at least 1.
func gapOf(figures []figure) int {
	var gaps []int
	for i := 1; i < len(figures); i++ {
		gaps = append(gaps, int(figures[i].span.First-figures[i-1].span.First))
	}
	return max(1, middle(append(gaps, 1)))
}

// backwards says how figures look as reads of a register that runs backwards,
// as some do while more is fed in than taken.
func backwards(figures []figure) climb {
	turned := slices.Clone(figures)
	var most energy.Energy
	for i := range turned {
		most = max(most, turned[i].energy)
	}
	for i := range turned {
		turned[i].energy = most - turned[i].energy
	}
	k := climbOf(turned)
	if k.falls > 0 || k.reads < 4 || (most-turned[len(turned)-1].energy)/5 < turned[len(turned)-1].energy {
		return climb{}
	}
	k.back, k.strong, k.zero = true, true, false
	return k
}

// beginsAgain counts the falls from a read that is large against the rises to
// one near zero: the register was reset, or rolled over.
func beginsAgain(figures []figure, step, biggest energy.Energy) int {
	n := 0
	before := energy.Energy(0)
	for i := range figures {
		f := &figures[i]
		if !f.known {
			continue
		}
		if f.energy < before && before/5 > biggest && f.energy >= 0 && f.energy/3 <= step {
			n++
		}
		before = f.energy
	}
	return n
}

// middleRead gives the middle one of the known figures.
func middleRead(figures []figure) energy.Energy {
	var reads []int
	for i := range figures {
		if figures[i].known {
			reads = append(reads, int(figures[i].energy))
		}
	}
	return energy.Energy(middle(reads))
}
