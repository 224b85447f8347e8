package cause

import (
	"fmt"
	"math"
)

// unlike is how many times the stated doubt of filled days they may be off, if
// the home was used otherwise than on the measured days (a choice).
const unlike = 4

// FilledName names the doubt of filled days in a budget.
const FilledName = "Filled days"

// fill: the days that were filled were unlike the measured ones: somebody was
// away, or had guests.
func fill() kind {
	return kind{
		id:     Fill,
		name:   "The missing days were unlike the others",
		remedy: "Find the figures of the missing days, or note what was different on them.",
		forms: func(f *frame) []form {
			fo := form{weight: 1, how: fillHow}
			for p := range f.n() {
				for _, part := range f.Periods[p].Compared.Indicated.Budget {
					if part.Name == FilledName && part.Standard != 0 {
						fo.effects = append(fo.effects, effect{by: f.alone(p, 1), sd: unlike * math.Abs(f.standard(part))})
					}
				}
			}
			if len(fo.effects) == 0 {
				return nil
			}
			return []form{fo}
		},
	}
}

func fillHow(o outcome) string {
	sum := 0.0
	for _, size := range o.sizes {
		sum += size
	}
	if math.Abs(sum) < 0.5 {
		return "What was used on the missing days was near what was filled in, as far as the figures show."
	}
	if sum < 0 {
		return fmt.Sprintf("More was used on the missing days than was filled in: about %.0f kWh.", -sum)
	}
	return fmt.Sprintf("Less was used on the missing days than was filled in: about %.0f kWh.", sum)
}
