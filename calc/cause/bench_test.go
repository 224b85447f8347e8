package cause

import "testing"

// It runs at every keystroke, once for each instrument.
func BenchmarkWeigh(b *testing.B) {
	two := []float64{12, 20}
	year := []float64{12, 20, 31, 18, 12, 15, 20, 22, 14, 12, 18, 25}
	for _, c := range []struct {
		name string
		seen Seen
	}{{"two bills", bills(sound, two...)}, {"a year", bills(sound, year...)}, {"five years", bills(sound, append(append(append(append(year, year...), year...), year...), year...)...)}} {
		b.Run(c.name, func(b *testing.B) {
			for b.Loop() {
				Weigh(c.seen)
			}
		})
	}
}
