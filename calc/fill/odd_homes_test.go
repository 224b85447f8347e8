package fill

import (
	"math/rand/v2"
	"testing"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/ledger"
)

// On real homes the look-out for implausible days rings at most once a year,
// and it finds the slips that people make when they copy figures.
func TestOddOnRealHomes(t *testing.T) {
	slips := []struct {
		kind   ledger.OddKind
		factor float64
		least  int // per cent found, over all homes
	}{{ledger.TenTimes, 10, 85}, {ledger.Tenth, 0.1, 65}, {ledger.ThousandTimes, 1000, 99}, {ledger.Thousandth, 0.001, 99}, {ledger.Zero, 0, 99}}
	found, tries := make([]int, len(slips)), 0
	alarms, days := 0, 0
	for i, h := range realHomes(t) {
		n, odd := h.daily.Count(h.daily.Span(), ledger.Measured), ledger.Odd(h.daily)
		alarms, days = alarms+len(odd), days+n
		t.Logf("%-12s %d in %d days", h.name, len(odd), n)
		if len(odd) > n/365+1 {
			t.Errorf("%s: %d implausible days in %d, first %q", h.name, len(odd), n, odd[0].Text)
		}
		r := rand.New(rand.NewPCG(4, uint64(i)))
		for done := 0; done < 100; {
			l := piece(h.daily, 62, r)
			d := l.First + calendar.Day(r.IntN(62))
			e := l.At(d)
			if e.State != ledger.Measured {
				continue
			}
			for j, s := range slips {
				slip := e
				slip.Energy = energy.Energy(float64(e.Energy) * s.factor)
				l.Put(d, slip)
				for _, o := range ledger.Odd(l) {
					if o.Day == d {
						found[j]++
					}
				}
			}
			done++
		}
		tries += 100
	}
	t.Logf("all homes: %.2f a year", 365*float64(alarms)/float64(days))
	for j, s := range slips {
		t.Logf("%-15s found %5.1f %%", s.kind, 100*float64(found[j])/float64(tries))
		if 100*found[j] < s.least*tries {
			t.Errorf("%s: found %d of %d, want %d %%", s.kind, found[j], tries, s.least)
		}
	}
}

// piece cuts a piece of the given number of days out of a record.
func piece(l ledger.Ledger, days int, r *rand.Rand) ledger.Ledger {
	first := l.First + calendar.Day(r.IntN(len(l.Days)-days+1))
	var p ledger.Ledger
	for d := first; d < first+calendar.Day(days); d++ {
		p.Put(d, l.At(d))
	}
	return p
}
