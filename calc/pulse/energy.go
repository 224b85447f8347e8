package pulse

import (
	"github.com/shopspring/decimal"

	"splittally/calc/energy"
	"splittally/calc/rhythm"
)

// energyOf gives the energy of n pulses, rounded once: to a whole µWh, half
// away from zero.
func energyOf(n decimal.Decimal, each ratio) (energy.Energy, bool) {
	if !each.known() {
		return 0, false
	}
	micro := n.Mul(each.num).Mul(million).DivRound(each.den, 0)
	e, _, err := energy.FromDecimal(micro, 1)
	return e, err == nil
}

// wattHours leaves the exact world.
func wattHours(e energy.Energy) float64 { return float64(e) / float64(energy.WattHour) }

// last gives the watts by the last interval alone.
func (s *sheet) last(r *run) {
	from, to := -1, -1
	for i, u := range r.Rhythm.Uses {
		if u == rhythm.Counted {
			from, to = to, i
		}
	}
	if from < 0 || to >= len(r.Marks.Marks) {
		return
	}
	n := 1
	for _, m := range r.Rhythm.Missing {
		if m.After == from {
			n += m.Count
		}
	}
	a, b := r.Marks.Marks[from].At, r.Marks.Marks[to].At
	for _, at := range r.Marks.Breaks {
		if at > a && at < b {
			return
		}
	}
	if b > a {
		r.Last = 3600 * s.each.float() * float64(n) / (b - a)
	}
}
