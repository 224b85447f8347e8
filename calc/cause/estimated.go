package cause

import (
	"fmt"
	"math"
)

// A guessed read is off by this part of a period's energy, as a standard
// deviation, with equal weight for both (a choice).
var guessOff = [2]float64{0.05, 0.2}

// estimated: a read was a guess. What it took from one bill it gave to the next,
// when the meter was read.
func estimated() kind {
	return kind{
		id:     Estimated,
		name:   "A read was estimated and caught up with later",
		remedy: "Look for a mark such as E at the reads, mark the bill as estimated, and judge the two bills together.",
		forms: func(f *frame) []form {
			var marked, inner []read
			for _, r := range f.reads() {
				switch {
				case r.marked:
					marked = append(marked, r)
				case r.ends >= 0 && r.begins >= 0:
					inner = append(inner, r)
				}
			}
			var out []form
			if len(marked) > 0 {
				fo := form{weight: 1, how: guessedHow(marked)}
				for _, r := range marked {
					fo.effects = append(fo.effects, f.guessed(r, guessOff[1]))
				}
				return append(out, fo)
			}
			for _, r := range inner {
				for _, off := range guessOff {
					out = append(out, form{weight: 1, effects: []effect{f.guessed(r, off)}, how: guessedHow([]read{r})})
				}
			}
			return out
		},
	}
}

// guessed is a read that was too high by θ kWh.
func (f *frame) guessed(r read, off float64) effect {
	e := effect{bill: true, by: make([]float64, f.n())}
	for _, side := range []struct {
		p    int
		sign float64
	}{{r.ends, -1}, {r.begins, 1}} {
		if side.p >= 0 {
			e.by[side.p] = side.sign
			e.sd = max(e.sd, off*math.Abs(f.r[side.p]))
		}
	}
	return e
}

func guessedHow(reads []read) func(outcome) string {
	return func(o outcome) string {
		k := 0
		for i := range o.sizes {
			if math.Abs(o.sizes[i]) > math.Abs(o.sizes[k]) {
				k = i
			}
		}
		r, size := reads[k], o.sizes[k]
		if math.Abs(size) < 0.5 {
			return "No read was off by as much as a kilowatt-hour, as far as the figures show."
		}
		much := "high"
		if size < 0 {
			much = "low"
		}
		switch {
		case r.ends < 0:
			return fmt.Sprintf("The read that begins bill %d was about %.0f kWh too %s.", o.Periods[r.begins].Index+1, math.Abs(size), much)
		case r.begins < 0:
			return fmt.Sprintf("The read that ends bill %d was about %.0f kWh too %s.", o.Periods[r.ends].Index+1, math.Abs(size), much)
		}
		return fmt.Sprintf("The read that ends bill %d was about %.0f kWh too %s; bill %d made up for it.",
			o.Periods[r.ends].Index+1, math.Abs(size), much, o.Periods[r.begins].Index+1)
	}
}
