package correct

import (
	"math/rand/v2"
	"testing"

	"splittally/calc/calendar"
	"splittally/calc/energy"
)

// It runs at every keystroke, for each monitor.
func BenchmarkSixMonths(b *testing.B) {
	in := trial(rand.New(rand.NewPCG(1, 2)), 6, 1.02, 1)
	for d := range 180 {
		in.History = append(in.History, Reading{
			Day: calendar.Day(20000 + d), Energy: energy.Energy(10+d%7) * kWh, Rounding: kWh / 20,
		})
	}
	for b.Loop() {
		if _, ok := FromPeriods(in); !ok {
			b.Fatal("no correction")
		}
	}
}
