package tariff_test

import (
	"strings"
	"testing"

	"splittally/calc/tariff"
)

// An agreement proves nothing of what the scenes leave out.
func TestSlowScenesAreVaried(t *testing.T) {
	met := map[string]int{}
	count := func(what string, is bool) {
		met[what] += 0 // what is never met is listed too
		if is {
			met[what]++
		}
	}
	for seed := uint64(1); seed <= 1000; seed++ {
		s, u := scene(seed, false)
		c := reckon(s, u, 2, assumed)
		count("hours not known", c.vague)
		count("shares given", c.vague && u.Shares != nil)
		count("energy carried over", c.carry.Sign() > 0)
		count("part of the energy netted", c.carry.Sign() == 0 && !c.scale.IsInt())
		count("power not known", len(c.bill.skipped) > 0)
		count("inclusive", s.Inclusive != "")
		count("cut digits", s.Half == "down")
		again, isMissing := clockChanges(u.Import)
		count("a day of 25 hours", again)
		count("a day of 23 hours", isMissing)
		for i, r := range s.Rows {
			if r.Kind != string(tariff.Netting) { // it has no amount of its own
				count(strings.TrimSuffix(r.Kind+" per "+r.Per, " per "), amountsTo(c, i))
			}
			held := c.stretch(tariff.Row{From: r.From, To: r.To, Since: r.Since, Until: r.Until})
			count("row for some of the days", held.Sign() > 0 && !held.IsInt())
			count("adjusted", r.Basis == "adjusted" && !u.LossFactor.IsZero())
			count("on rows named", r.On != "")
			for _, b := range r.Bands {
				count("holidays", strings.Contains(b.Days, "holidays"))
				count("over midnight", overMidnight(b.Hours))
			}
		}
	}
	for what, n := range met {
		if n < 10 {
			t.Errorf("%s: %d times in 1000 scenes", what, n)
		}
	}
}

func amountsTo(c *slow, row int) bool { return c.sum([]int{row}).Sign() != 0 }

func overMidnight(text string) bool {
	for _, h := range spans(text) {
		if h.to <= h.from {
			return true
		}
	}
	return false
}

// clockChanges finds an hour that runs twice, and the hour that nobody has
// where the slot before and the slot behind are there.
func clockChanges(slots []tariff.Slot) (again, isMissing bool) {
	for i, s := range slots {
		again = again || s.Again
		for _, c := range changes[:3] {
			skipped := s.From == c.missing+c.by && isSunday(s.First, c.springMonth, c.springSunday)
			isMissing = isMissing || i > 0 && skipped && slots[i-1].To == c.missing
		}
	}
	return again, isMissing
}
