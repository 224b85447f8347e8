package cause

import (
	"fmt"
	"math"
)

// saidWrong is how far the hour of a read may be from what was said, as a
// standard deviation in hours (a choice: clocks left on the wrong time, half a
// day taken for the other half).
const saidWrong = 5

// hour: the meter was read at another hour than was said. An hour that nobody
// said is a doubt in the budget already, so that then this says no more than
// chance does, and is never told from it.
var hour = kind{
	id: Hour, side: InBill,
	name:   "The meter was read at another hour",
	remedy: "Ask the utility at what hour the meter is read, and type it into the bill’s details.",
	forms: func(f *frame) []form {
		fo := form{weight: 1, how: hourHow}
		for _, r := range f.reads() {
			if !r.hourKnown {
				continue
			}
			// An hour later adds an hour of use to the period that ends there.
			by := make([]float64, f.n())
			if r.ends >= 0 {
				by[r.ends] = -f.meanDay(r.ends) / 24
			}
			if r.begins >= 0 {
				by[r.begins] = f.meanDay(r.begins) / 24
			}
			fo.effects = append(fo.effects, effect{by: by, bill: true, sd: saidWrong})
		}
		return []form{fo}
	},
}

func hourHow(o outcome) string {
	if len(o.effects) > 0 {
		worst := 0.0
		for _, size := range o.sizes {
			if math.Abs(size) > math.Abs(worst) {
				worst = size
			}
		}
		if math.Abs(worst) < 1 {
			return "The reads were within an hour of what was said."
		}
		return fmt.Sprintf("A read may have been taken %.0f hours away from the hour that was said.", math.Abs(worst))
	}
	return "A read away from midnight moves up to half a day’s use from one bill to the next."
}
