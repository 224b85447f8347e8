package link

import "math/bits"

// guesser guesses the next figure of a column: from the figures before it, or
// from the one of the column beside it, whichever did better of late.
type guesser struct {
	seen          int64
	mean, last    int64
	own, beside   int64 // what both were off by, of late
	sumOwn, other int64 // of the rows that both columns have, of late
	guesses       [2]int64
}

// next guesses.
func (g *guesser) next(other int64, isBeside bool) int64 {
	g.guesses[0] = g.mean/4*3 + g.last/4
	if g.seen < 2 {
		g.guesses[0] = g.mean
	}
	if !isBeside {
		return g.guesses[0]
	}
	g.guesses[1] = other
	if g.other > 0 && g.sumOwn > 0 && other > 0 {
		high, low := bits.Mul64(uint64(other), uint64(g.sumOwn))
		if high < uint64(g.other) {
			q, _ := bits.Div64(high, low, uint64(g.other))
			g.guesses[1] = int64(q & (1<<62 - 1))
		}
	}
	if g.beside <= g.own {
		return g.guesses[1]
	}
	return g.guesses[0]
}

// saw takes up what the figure was.
func (g *guesser) saw(value, other int64, isBeside bool) {
	g.own += gap(value, g.guesses[0])/8 - g.own/8
	if isBeside {
		g.beside += gap(value, g.guesses[1])/8 - g.beside/8
		g.sumOwn += value - g.sumOwn/16
		g.other += other - g.other/16
	}
	g.seen++
	g.mean += (value - g.mean) / min(g.seen, 10)
	g.last = value
}
