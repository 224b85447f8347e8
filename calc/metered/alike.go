package metered

import (
	"math"
	"slices"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/uncertainty"
)

// Hours are tried by quarters, over the last date of a bill and the day after it;
// midnight is the middle one.
const (
	perHour  = 4
	midnight = 24 * perHour
	quarters = 2 * midnight
)

// scatters are how far reads may lie about their usual hour, as standard
// deviations in hours.
var scatters = [...]float64{0.25, 0.5, 1, 1.5, 2, 3}

const (
	// A register shows whole steps; what it hides of a read is anything up to one,
	// whose standard deviation is a good quarter of it.
	hidden = 0.29
	// worse is by how much the likelihood of another hour may be less, as a
	// logarithm, for it to be held possible: half of the 95 % quantile of χ² with
	// one degree of freedom.
	worse = 1.92
	// sureBy is by how much likelier reads at one time of day must be than reads at
	// any hour: a hundred times, for two numbers that are fitted. With fewer bills
	// than fewLinks the reads of anything may look alike. (Choices.)
	sureBy   = 4.6
	fewLinks = 4
)

// alike finds the usual hour of a chain's reads, and how sure it is that there is
// one. The energy between a read and its midnight is that which the record has up
// to the usual hour, give or take what it has in the scatter of hours, and what
// the register hides; the one at the first read is free.
func (s *sheet) alike(c chain) Finding {
	upTo := make([][]float64, len(c.days))
	for k, day := range c.days {
		upTo[k] = s.upTo(c, k, day)
	}
	best, start := math.Inf(-1), 0.0
	var likely [quarters + 1]float64
	for i := range likely {
		likely[i] = math.Inf(-1)
		for _, sd := range scatters {
			l, at := c.likelihood(upTo, i, sd)
			likely[i] = max(likely[i], l)
			if l > best {
				best, start = l, at
			}
		}
	}
	apart, _ := energy.FromKilowattHours(start)
	f := Finding{Kind: InDay, Reads: s.reads(c, apart)}
	hours := make([]float64, len(f.Reads))
	for k, r := range f.Reads {
		hours[k] = r.Hour
	}
	f.Hour, f.Early, f.Late = uncertainty.Median(hours), slices.Min(hours), slices.Max(hours)
	f.From, f.Till = f.Hour, f.Hour
	for i, l := range likely {
		if l >= best-worse {
			f.From, f.Till = min(f.From, float64(i)/perHour), max(f.Till, float64(i)/perHour)
		}
	}
	any := max(c.anyHour(upTo, 0), c.anyHour(upTo, midnight))
	f.Sure = len(c.links) >= fewLinks && best-any >= sureBy
	return f
}

// upTo gives, by quarter hours, the energy from the midnight after a day to the
// hour, in kWh: below zero before it.
func (s *sheet) upTo(c chain, k int, day calendar.Day) []float64 {
	out := make([]float64, quarters+1)
	for half, d := range []calendar.Day{day, day + 1} {
		total := -c.low[k].KilowattHours()
		if half == 1 {
			total = c.high[k].KilowattHours()
		}
		part := out[half*midnight : half*midnight+midnight+1]
		for i := range part {
			part[i] = total * float64(i) / midnight
		}
		if slots := s.record.On(d); len(slots) > 0 {
			clear(part)
			for _, slot := range slots {
				long := float64(slot.To - slot.From)
				for i := range part {
					part[i] += slot.Energy.KilowattHours() * min(1, max(0, (float64(i)*60/perHour-float64(slot.From))/long))
				}
			}
		}
		if half == 0 {
			for i := range part {
				part[i] -= total
			}
		}
	}
	return out
}

// likelihood of the reads at an hour with a scatter, as a logarithm but for a
// constant; start is the energy between the first read and its midnight.
func (c chain) likelihood(upTo [][]float64, at int, scatter float64) (l, start float64) {
	wide := max(1, int(scatter*perHour))
	low, high := max(0, at-wide), min(quarters, at+wide)
	return c.fit(func(k int) (mean, sd float64) {
		power := (upTo[k][high] - upTo[k][low]) * perHour / float64(high-low)
		return upTo[k][at], power * scatter
	})
}

// anyHour is the same for reads at any hour of the day that begins at a quarter.
func (c chain) anyHour(upTo [][]float64, from int) float64 {
	l, _ := c.fit(func(k int) (mean, sd float64) {
		day := upTo[k][from : from+midnight+1]
		squares := 0.0
		for _, x := range day {
			mean += x / float64(len(day))
			squares += x * x / float64(len(day))
		}
		return mean, math.Sqrt(max(0, squares-mean*mean))
	})
	return l
}

// fit holds what the bills are ahead at each read against a mean and a standard
// deviation, with what is ahead at the first one free.
func (c chain) fit(of func(k int) (mean, sd float64)) (l, start float64) {
	step := hidden * c.slack.KilowattHours()
	var sum, off float64
	means, weights := make([]float64, len(c.ahead)), make([]float64, len(c.ahead))
	for k, ahead := range c.ahead {
		mean, sd := of(k)
		means[k], weights[k] = mean-ahead.KilowattHours(), 1/(sd*sd+step*step)
		sum += weights[k]
		off += weights[k] * means[k]
	}
	start = off / sum
	for k := range means {
		l -= (weights[k]*(means[k]-start)*(means[k]-start) - math.Log(weights[k])) / 2
	}
	return l - math.Log(sum)/2, start
}
