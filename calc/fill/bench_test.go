package fill

import (
	"math/rand/v2"
	"testing"

	"splittally/calc/calendar"
	"splittally/calc/ledger"
)

// gappy takes n days at random out of every 30 of a made-up home's record.
func gappy(days, n int, seed uint64) ledger.Ledger {
	l := madeUp(1, days, seed)[0].daily
	r := rand.New(rand.NewPCG(seed, 1))
	for start := 0; start+30 <= days; start += 30 {
		for range n {
			l.Days[start+r.IntN(30)] = ledger.Entry{}
		}
	}
	return l
}

// Two monitors, each of two periods of 31 days: what one keystroke asks for.
func BenchmarkKeystroke(b *testing.B) {
	own := []ledger.Ledger{gappy(62, 4, 1), gappy(62, 4, 2)}
	for b.Loop() {
		for i, l := range own {
			for p := range 2 {
				first := l.First + calendar.Day(31*p)
				if _, err := Fill(Request{Ledger: l, Others: own[1-i : 2-i], Span: calendar.Span{First: first, End: first + 31}}); err != nil {
					b.Fatal(err)
				}
			}
		}
	}
}

// Three years of one monitor in 36 periods, each with gaps.
func BenchmarkThreeYears(b *testing.B) {
	l := gappy(1080, 4, 3)
	for b.Loop() {
		for p := range 36 {
			first := l.First + calendar.Day(30*p)
			if _, err := Fill(Request{Ledger: l, Span: calendar.Span{First: first, End: first + 30}}); err != nil {
				b.Fatal(err)
			}
		}
	}
}
