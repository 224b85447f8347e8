package cause

import (
	"fmt"
	"math"
	"slices"
)

// How far reads may be from the hour that is taken, as standard deviations in
// hours: all of them alike (a meter that reports at another hour), and each for
// itself, where its hour was said (a choice).
const (
	allHours = 9
	ownHours = 4
)

// hour: the meter was read at another hour than was said. An hour that nobody
// said is a doubt in the budget already; then this says little more than chance
// does, and is seldom told from it.
func hour() kind {
	return kind{
		id:     Hour,
		name:   "The meter was read at another hour",
		remedy: "Ask the utility at what hour the meter is read, and type it into the bill’s details.",
		forms: func(f *frame) []form {
			if !slices.ContainsFunc(f.Periods, func(p Period) bool { return !p.Midnights }) {
				return nil
			}
			return append([]form{f.movedHours(true), f.movedHours(false)}, f.readsAt()...)
		},
	}
}

// movedHours moves the reads later, or earlier. An hour later adds an hour of
// the day after to the period that ends there.
func (f *frame) movedHours(later bool) form {
	fo := form{weight: 1, how: hourHow}
	all := make([]float64, f.n())
	for _, r := range f.reads() {
		by := make([]float64, f.n())
		if r.ends >= 0 {
			by[r.ends] = -f.hourOf(r.ends, true, later)
		}
		if r.begins >= 0 {
			by[r.begins] = f.hourOf(r.begins, false, later)
		}
		for p := range by {
			all[p] += by[p]
		}
		if r.hourKnown {
			fo.effects = append(fo.effects, effect{by: by, bill: true, sd: ownHours})
		}
	}
	fo.effects = append(fo.effects, effect{by: all, bill: true, sd: allHours})
	return fo
}

// hourOf is an hour's energy at the end or start of a period: of the very day
// there, if it is known.
func (f *frame) hourOf(p int, end, later bool) float64 {
	period := f.Periods[p]
	d := period.Before
	switch {
	case end && later:
		d = period.After
	case end:
		d = period.Days[len(period.Days)-1]
	case later:
		d = period.Days[0]
	}
	if d.Known {
		return d.Energy.KilowattHours() / 24
	}
	return f.meanDay(p) / 24
}

func hourHow(o outcome) string {
	last := len(o.sizes) - 1
	all, worst := o.sizes[last], 0.0
	for _, size := range o.sizes[:last] {
		if math.Abs(size) > math.Abs(worst) {
			worst = size
		}
	}
	switch {
	case math.Abs(worst) >= 1:
		return fmt.Sprintf("A read may have been taken %.0f hours from the hour that was taken for it.", math.Abs(worst+all))
	case math.Abs(all) >= 1:
		return fmt.Sprintf("The reads may have been taken %.0f hours from the hour that was taken for them.", math.Abs(all))
	}
	return "The reads were within an hour of what was taken for them, as far as the figures show."
}
