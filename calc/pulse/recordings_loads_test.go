//go:build !js

package pulse_test

import (
	"math"
	"math/rand/v2"
)

// piece is a part of a load's history: so many seconds long, its pace in pulses
// per second going straight from one value to another. A pulse is a fixed
// energy, so the pace is the power in units of that energy a second.
type piece struct{ long, from, to float64 }

// upTo is the energy of the first t seconds, in pulses: ∫ pace dt.
func (p piece) upTo(t float64) float64 {
	return p.from*t + (p.to-p.from)*t*t/(2*p.long)
}

// when is the time at which the piece has used the energy e: upTo turned round.
func (p piece) when(e float64) float64 {
	bend := (p.to - p.from) / (2 * p.long)
	return 2 * e / (p.from + math.Sqrt(p.from*p.from+4*bend*e))
}

// pulsesOf gives the times of a load's pulses; the first comes after a part of
// a pulse's energy, as counting begins anywhere between two.
func pulsesOf(load []piece, part float64) []float64 {
	var at []float64
	begin, next := 0.0, part
	for _, p := range load {
		all := p.upTo(p.long)
		for next < all {
			at = append(at, begin+p.when(next))
			next++
		}
		next -= all
		begin += p.long
	}
	return at
}

// paces a meter's lamp may have, in pulses per second, at a step's far side too.
const leastPace, mostPace = 0.018, 20

// loadOf makes a load of about pace for so many seconds.
func loadOf(kind string, pace, seconds float64, r *rand.Rand) []piece {
	switch kind {
	case "wander":
		return wandering(pace, seconds, r)
	case "drift":
		to := pace * (1 + between(r, 0.1, 0.3)*sign(r))
		middle := (pace + to) / 2 * between(r, 0.97, 1.03)
		half := seconds * between(r, 0.3, 0.7)
		return within([]piece{{half, pace, middle}, {seconds - half, middle, to}})
	case "steps":
		return within(stepping(pace, seconds, r))
	case "cycling":
		return within(cycling(pace, seconds, r))
	}
	return []piece{{seconds, pace, pace}}
}

// wandering is a home in which nothing is switched: the power is never quite
// still, here by 0.3 to 1 % with a memory of some intervals.
func wandering(pace, seconds float64, r *rand.Rand) []piece {
	spread := between(r, 0.003, 0.01)
	step := 2 / pace
	level := r.NormFloat64()
	var load []piece
	for done := 0.0; done < seconds; done += step {
		next := 0.7*level + math.Sqrt(1-0.49)*r.NormFloat64()
		load = append(load, piece{step, pace * (1 + spread*level), pace * (1 + spread*next)})
		level = next
	}
	return load
}

// stepping is something switched one to three times, each time by a tenth at least.
func stepping(pace, seconds float64, r *rand.Rand) []piece {
	n := 2 + r.IntN(3)
	var load []piece
	for i := range n {
		load = append(load, piece{seconds / float64(n) * between(r, 0.8, 1.2), pace, pace})
		factor := math.Exp(between(r, math.Log(1.12), math.Log(2.5)))
		if i%2 == 0 == (r.IntN(2) == 0) {
			factor = 1 / factor
		}
		pace *= factor
	}
	return load
}

// cycling is a thermostat: a load of 0.3 to 1.5 times the rest goes on and off.
func cycling(pace, seconds float64, r *rand.Rand) []piece {
	more := between(r, 0.3, 1.5)
	low := pace / (1 + more/2)
	on, off := between(r, 4, 12)/pace, between(r, 4, 12)/pace
	var load []piece
	for done, is := 0.0, r.IntN(2) == 0; done < seconds; is = !is {
		long, now := off, low
		if is {
			long, now = on, low*(1+more)
		}
		load = append(load, piece{long, now, now})
		done += long
	}
	return load
}

// within keeps a load's pace where a meter's is.
func within(load []piece) []piece {
	for i := range load {
		load[i].from = min(max(load[i].from, leastPace), mostPace)
		load[i].to = min(max(load[i].to, leastPace), mostPace)
	}
	return load
}

func between(r *rand.Rand, low, high float64) float64 { return low + (high-low)*r.Float64() }

func sign(r *rand.Rand) float64 { return float64(2*r.IntN(2) - 1) }

func pick[T any](r *rand.Rand, of []T) T { return of[r.IntN(len(of))] }
