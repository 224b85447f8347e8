package correct

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"splittally/calc/calendar"
	"splittally/calc/energy"
)

// months draws two to eight months of 1 to 100,000 kWh with errors to 40 %.
func months(t *rapid.T) []month {
	var out []month
	for range rapid.IntRange(2, 8).Draw(t, "months") {
		r := energy.Energy(rapid.Int64Range(1e9, 1e14).Draw(t, "reference"))
		out = append(out, month{
			r: r, w: energy.Energy(float64(r) * rapid.Float64Range(0.6, 1.4).Draw(t, "ratio")),
			monitor: 2, class: rapid.Float64Range(0, 2).Draw(t, "class"),
			noise: r.KilowattHours() * rapid.Float64Range(0, 0.05).Draw(t, "noise"),
			read:  rapid.Float64Range(0, 1).Draw(t, "read"),
		})
	}
	return out
}

// days draws a history whose months hold what the bills indicate.
func days(months []month) []Reading {
	var out []Reading
	for i, m := range months {
		for k, e := range m.w.Share(30) {
			out = append(out, Reading{Day: calendar.Day(20000 + 30*i + k), Energy: e})
		}
	}
	return out
}

// Correcting what was corrected changes nothing any more, and the corrected
// days add up to what the meter counted, within the rounding of each day.
func TestCorrectingTwiceChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		drawn := months(t)
		in := input(drawn...)
		in.History = days(drawn)
		once, ok := FromPeriods(in)
		if !ok {
			t.Fatal("no correction")
		}
		var sum, meter energy.Energy
		again := append([]month(nil), drawn...)
		for i := range again {
			again[i].w = 0
			meter += again[i].r
		}
		for k, d := range once.Days {
			again[k/30].w += d.Corrected
			sum += d.Corrected
		}
		if off := (sum - meter).Abs(); off > energy.Energy(len(once.Days)/2+1) {
			t.Fatalf("the days add up to %d µWh too much", off)
		}
		twice, ok := FromPeriods(input(again...))
		rounding := float64(len(once.Days)) / float64(meter) // of the days, to the microwatt-hour
		if !ok || math.Abs(twice.Factor-1) > rounding || twice.Significant && twice.Expanded > rounding {
			t.Fatalf("factor %.15g", twice.Factor)
		}
		if s := twice.Settings[0]; !s.New.Equal(s.Old) {
			t.Fatalf("%s became %s", s.Old, s.New)
		}
		// And each left out is what it was, within 30 halves of 1 µWh of 1 kWh or more.
		for i, j := range twice.Judged {
			if math.Abs(j.After-once.Judged[i].After) > 1e-5*(1+math.Abs(j.After)) {
				t.Fatalf("left out: %g became %g", once.Judged[i].After, j.After)
			}
		}
	})
}

func TestOrderOfPeriodsDoesNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		drawn := months(t)
		if i := rapid.IntRange(-1, len(drawn)-2).Draw(t, "guess"); i >= 0 {
			drawn[i].guessEnd, drawn[i+1].guessStart = true, true
		}
		in := input(drawn...)
		want, ok := FromPeriods(in)
		seed := rapid.Uint64().Draw(t, "seed")
		rand.New(rand.NewPCG(seed, 1)).Shuffle(len(in.Periods), func(i, j int) {
			in.Periods[i], in.Periods[j] = in.Periods[j], in.Periods[i]
		})
		got, same := FromPeriods(in)
		if d := cmp.Diff(want, got, cmpopts.EquateApprox(1e-12, 0)); d != "" || ok != same {
			t.Fatalf("(-in order +shuffled):\n%s", d)
		}
	})
}

// A gain common to all bills changes the factor and nothing else: each bill
// left out stays as far off, and as well known, as it was.
func TestACommonGainDropsOut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		drawn := months(t)
		times := energy.Energy(rapid.IntRange(2, 5).Draw(t, "gain"))
		louder := append([]month(nil), drawn...)
		for i := range louder {
			louder[i].w *= times
			louder[i].noise *= float64(times)
		}
		a, _ := FromPeriods(input(drawn...))
		b, ok := FromPeriods(input(louder...))
		if !ok || math.Abs(b.Factor*float64(times)/a.Factor-1) > 1e-12 {
			t.Fatalf("factor %g of %g", b.Factor, a.Factor)
		}
		for i := range a.Judged {
			if math.Abs(a.Judged[i].After-b.Judged[i].After) > 1e-9 || math.Abs(a.Judged[i].Expanded/b.Judged[i].Expanded-1) > 1e-9 && a.Judged[i].Expanded > 1e-9 {
				t.Fatalf("%+v became %+v", a.Judged[i], b.Judged[i])
			}
		}
	})
}
