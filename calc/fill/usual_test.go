package fill

import (
	"math"
	"math/rand/v2"
	"testing"

	"splittally/calc/calendar"
	"splittally/calc/ledger"
)

// What Between says of a stretch of one interval to three days on real homes:
// nine times in ten or more it is within two standard uncertainties.
func TestBetweenOnRealHomes(t *testing.T) {
	held, n := 0, 0
	for i, h := range realHours(t) {
		r := rand.New(rand.NewPCG(12, uint64(i)))
		per, own := 1440/h.step, 0
		for done := 0; done < 60; {
			from := r.IntN(len(h.days) - 60)
			length := int(math.Exp(r.Float64() * math.Log(float64(3*per))))
			start := (from+10)*per + r.IntN(40*per-length)
			lost, truth, whole := map[int]float64{}, 0.0, true
			for k := start; k < start+length; k++ {
				day := h.days[k/per]
				if whole = day != nil; !whole {
					break
				}
				lost[k], truth = 1, truth+day[k%per]
			}
			if !whole {
				continue
			}
			done++
			u, ok := UsualOf(h.ledger(from, from+60, lost))
			if !ok {
				t.Fatal("no hours")
			}
			ms := int64(h.step) * 60_000
			begin := int64(h.first)*dayLength + int64(start)*ms
			kWh, standard := u.Between(begin, begin+int64(length)*ms)
			if math.Abs(kWh-truth) <= 2*standard+1e-9 {
				own++
			}
		}
		t.Logf("%-12s %.1f %%", h.name, 100*float64(own)/60)
		held, n = held+own, n+60
	}
	t.Logf("all homes: %.1f %%", 100*float64(held)/float64(n))
	if 100*held < 90*n || 100*held > 99*n {
		t.Errorf("%d of %d held", held, n)
	}
}

// A stretch that was covered has nothing missing, and Expect gives what it
// usually brings all the same; outside the ledger there is nothing.
func TestExpect(t *testing.T) {
	l := hourly(40, func(_, h int) float64 { return usualDay(h) }, in(-1, 0, 0))
	u, ok := UsualOf(l)
	if !ok {
		t.Fatal("no hours")
	}
	from := int64(20)*dayLength + 18*hourLength
	if kWh, standard := u.Expect(from, from+4*hourLength); math.Abs(kWh-6) > 0.1 || standard <= 0 || standard > 1 {
		t.Errorf("an evening: %g ± %g kWh, want 6", kWh, standard)
	}
	if kWh, standard := u.Between(from, from+4*hourLength); kWh != 0 || standard != 0 {
		t.Errorf("a covered evening lacks %g ± %g kWh", kWh, standard)
	}
	if kWh, _ := u.Between(90*dayLength, 91*dayLength); kWh != 0 {
		t.Errorf("a day beyond the ledger: %g kWh", kWh)
	}
	if kWh, _ := u.Expect(-3*dayLength, -dayLength); kWh != 0 {
		t.Errorf("days before the ledger: %g kWh", kWh)
	}
	if _, ok := UsualOf(ledger.Ledger{Days: []ledger.Entry{{State: ledger.Measured}}}); ok {
		t.Error("a ledger without slots has usual hours")
	}
	if d := dayOf(-1); d != calendar.Day(-1) {
		t.Errorf("day of the last millisecond before 1970 = %d", d)
	}
}
