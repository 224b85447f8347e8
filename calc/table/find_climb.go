package table

import (
	"math"
	"slices"
)

// climb is how a run of values looks as reads of a register.
type climb struct {
	rises, falls, resets int
	step, middle         float64 // the middle one of the rises, and of the values
	strong               bool    // it can hardly be anything else
	never                bool    // it never falls
}

// climbs looks at values in the order of time.
func (col *column) climbs() climb {
	var k climb
	var rises, values []float64
	before, small := math.NaN(), 0
	for _, v := range col.values {
		if math.IsNaN(v) {
			continue
		}
		values = append(values, v)
		switch d := v - before; {
		case d > 0:
			rises = append(rises, d)
		case d < 0 && v >= 0 && v <= before/20:
			k.resets++
		case d < 0:
			k.falls++
			if -d*1000 < v {
				small++
			}
		}
		before = v
	}
	k.rises = len(rises)
	if k.rises == 0 || len(values) < 5 {
		return k
	}
	k.step, k.middle = middleOf(rises), middleOf(values)
	k.never = k.falls == 0 && k.resets == 0
	towers := k.middle > 20*k.step
	// Of all orders of twelve figures almost none only rises.
	long := k.rises >= 20 || k.rises >= 12 && len(values) == k.rises+1
	k.strong = k.never && (towers && (k.rises >= 5 || k.middle > 1000*k.step) || long) ||
		k.falls == 0 && k.resets*10 <= k.rises && k.rises >= 12 ||
		k.falls == small && k.falls*20 <= k.rises && towers
	return k
}

// middleOf gives the middle one of some numbers; it puts them in order.
func middleOf(v []float64) float64 {
	if len(v) == 0 {
		return 0
	}
	slices.Sort(v)
	return v[len(v)/2]
}
