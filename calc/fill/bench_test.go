package fill

import (
	"fmt"
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

// hourlyYear is a year of hours of a made-up home. Every hour lacks some
// seconds, one day in ten an hour or more, and one in thirty is missing.
func hourlyYear() ledger.Ledger {
	daily := madeUp(1, 365, 5)[0].daily
	r := seeded(3)
	l := ledger.Ledger{First: daily.First}
	for i, e := range daily.Days {
		if r.IntN(30) == 0 {
			l.Days = append(l.Days, ledger.Entry{})
			continue
		}
		from, to := 0, 0
		if r.IntN(10) == 0 {
			from = r.IntN(23)
			to = from + 1 + r.IntN(24-from)
		}
		day := ledger.Entry{State: ledger.Partial}
		for h := range 24 {
			if h >= from && h < to {
				continue
			}
			short := int32(r.IntN(20000))
			s := ledger.Slot{Day: l.First + calendar.Day(i), From: 60 * h, To: 60*h + 60, Short: short}
			s.Energy = measured(e.Energy.KilowattHours() / 24 * (0.5 + r.Float64()) * (1 - float64(short)/3.6e6)).Energy
			day.Energy, day.Hours = day.Energy+s.Energy, day.Hours+1-float64(short)/3.6e6
			l.Slots = append(l.Slots, s)
		}
		l.Days = append(l.Days, day)
	}
	return l
}

// A year of hours of one monitor, in 12 periods and as one.
func BenchmarkFillYear(b *testing.B) {
	l := hourlyYear()
	for _, length := range []int{30, 360} {
		b.Run(fmt.Sprintf("in periods of %d days", length), func(b *testing.B) {
			for b.Loop() {
				for first := 0; first+length <= 365; first += length {
					s := span(int(l.First)+first, int(l.First)+first+length)
					if _, err := Fill(Request{Ledger: l, Span: s}); err != nil {
						b.Fatal(err)
					}
				}
			}
		})
	}
}
