package main

import "math/rand/v2"

// The year begins on 2024-03-01, a Friday, and has 365 days: 525,600 minutes, of
// which 2,448 are lost in 84 gaps.
const (
	begin    = 1709251200 // 2024-03-01 00:00, by a local clock that is never changed
	days     = 365
	perDay   = 1440
	gapCount = 84
	gapTotal = 2448
)

// gaps returns the lost minutes as pairs of the first lost and the first that
// is there again, in order. Each is two minutes long or more (a mean power may
// hold over one), none is about an hour long (that could be a clock set on),
// and none touches the edge of a day (so that the advance of a register over it
// belongs to one day).
func gaps() [][2]int {
	rng := rand.New(rand.NewPCG(84, gapTotal))
	all := make([][2]int, gapCount)
	left := gapTotal
	for i := range all {
		length := 2 + rng.IntN(50)
		if i == gapCount-1 {
			length = left
		}
		left -= length
		day := 1 + i*(days-2)/gapCount + rng.IntN(4)
		from := day*perDay + 10 + rng.IntN(perDay-20-length)
		all[i] = [2]int{from, from + length}
	}
	return all
}

// A home is an invented home, minute by minute or second by second.
type home struct {
	rng    *rand.Rand
	kettle int // steps that it goes on boiling
	hour   int
	fridge int
}

func newHome() *home { return &home{rng: rand.New(rand.NewPCG(2024, 3))} }

// usual is the load by hour of the day, in sixths of 10 W.
var usual = [24]int{14, 12, 11, 11, 11, 13, 22, 41, 52, 44, 38, 36, 47, 44, 36, 35, 41, 66, 98, 104, 92, 71, 44, 23}

// next is the load of the next step, of so many seconds, in units of 6 W: a
// tenth of a watt-hour a minute.
func (h *home) next(at, step int) int64 {
	h.hour = at / 3600 % 24
	load := 20 + usual[h.hour]
	if at/60%53 < 19 {
		load += 17 // the refrigerator
	}
	if h.kettle > 0 {
		h.kettle--
		load += 350
	} else if h.rng.IntN(200*60/step) == 0 && h.hour > 5 {
		h.kettle = (2 + h.rng.IntN(4)) * 60 / step
	}
	return int64(load + h.rng.IntN(25))
}
