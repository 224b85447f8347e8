package fill

import (
	"math"

	"splittally/calc/calendar"
	"splittally/calc/matrix"
)

// shape says how the energy of a day falls on its hours. Given the energy Y of
// day t, hour h brings
//
//	e = p(t,h) + β(h)·(Y − P(t)) + n(h),   P = Σ p
//
// p is the usual hour of days near in time, weekdays and weekends apart as far
// as the record shows them to differ; β says where a larger day has its more;
// n, which adds up to nothing over the day, is what one day has otherwise than
// another. All are learned from the days whose hours the record tells.
type shape struct {
	usual  [][perDay]float64 // p by day, in kWh, the day itself left out
	weight [][perDay]float64 // of how many days p is the mean
	load   [perDay]float64   // β, which adds up to 1
	spread matrix.Lower      // covariance of n on a day of the mean level
	own    [perDay]float64   // variance of the hour for itself, on such a day
	level  float64           // mean of P
	within float64           // see withinHour
	unsure float64           // standard deviation, in kWh, of an hour that was never seen
}

// Choices of this package. On the homes that hours_homes_test.go calls tuned on,
// the error is within 2 % of its least for shapeFade from 0.90 to 0.97 and for
// modelDays of 80 and more. unseen was set on all homes of the trials: three are
// too few to say how unlike each other the evenings of homes are. The others are
// guesses that a week of whole days outweighs.
const (
	shapeFade = 0.95 // how much less a day counts for p for each day that it is away
	priorDays = 5.0  // how many days the guesses below are worth against what the record shows
	hourFade  = 0.3  // correlation of n from an hour to the next, for want of days
	hourSwing = 0.8  // standard deviation of an hour over its mean, for want of days
	hourFloor = 0.05 // least standard deviation of n, over the mean hour
	unseen    = 0.45 // standard deviation of the usual hour about guess, as a part of it
	modelDays = 80.0 // how many days the model of the covariance of n is worth against what they show
	priorHour = 0.3  // how many days the mean hour is worth for the usual one
)

// mostlyCovered is the part of a day that has to be covered for the day to serve
// as a known one.
const mostlyCovered = 0.9

// learnShape gives the shape of the days of rec. ok is false if it tells the
// hours of no day.
func (rec *record) learnShape() (s *shape, ok bool) {
	n := len(rec.hours)
	mean, size, covered := 0.0, 0.0, 0.0
	for t := range rec.hours {
		if b := &rec.hours[t]; b.fine {
			for h, got := range b.got {
				mean, size, covered = mean+b.kWh[h], size+math.Abs(b.kWh[h]), covered+got
			}
		}
	}
	if covered == 0 {
		return nil, false
	}
	mean, size = mean/covered, math.Max(leastSize, size/covered)
	s = &shape{usual: make([][perDay]float64, n), weight: make([][perDay]float64, n)}
	s.unsure = unseen * size
	s.smooth(rec, mean)
	s.learnSpread(rec, size)
	return s, true
}

// leastSize keeps the arithmetic going where nothing is used at all: 1 mWh an
// hour.
const leastSize = 1e-6

// guess is what an hour of the clock brings over the mean one, where the record
// tells nothing of it: the usual course of homes, in four steps (from the trial
// records, no source).
func guess(hour int) float64 {
	switch {
	case hour < 6:
		return 0.55
	case hour < 17:
		return 1.05
	case hour < 22:
		return 1.5
	}
	return 0.83
}

// smooth sets usual and weight.
func (s *shape) smooth(rec *record, mean float64) {
	differ := rec.weekendShape()
	var sum, weight [perDay]float64
	pass := func(t int) {
		b := &rec.hours[t]
		end := rec.weekend(t)
		for h := range sum {
			s.usual[t][h] += sum[h]
			s.weight[t][h] += weight[h]
			if b.fine && b.got[h] >= 0.5 {
				x, w := b.kWh[h]/b.got[h], b.got[h]/b.all[h]
				if end {
					x -= differ[h]
				}
				sum[h] += w * x
				weight[h] += w
			}
			sum[h] *= shapeFade
			weight[h] *= shapeFade
		}
	}
	for t := range rec.hours {
		pass(t)
	}
	sum, weight = [perDay]float64{}, [perDay]float64{}
	fine := 0.0
	for t := len(rec.hours) - 1; t >= 0; t-- {
		pass(t)
		total, end := 0.0, rec.weekend(t)
		for h := range sum {
			s.usual[t][h] = (s.usual[t][h] + priorHour*guess(h)*mean) / (s.weight[t][h] + priorHour)
			if end {
				s.usual[t][h] += differ[h]
			}
			total += s.usual[t][h]
		}
		if rec.hours[t].fine {
			s.level, fine = s.level+total, fine+1
		}
	}
	s.level /= fine
}

// weekend says whether day t of the record is a Saturday or a Sunday.
func (rec *record) weekend(t int) bool {
	w := (rec.first + calendar.Day(t)).Weekday()
	return w == 0 || w == 6
}

// weekendShape gives how much more the hours of weekends bring than those of
// other days, drawn towards nothing by as much as chance alone would make of
// it (the estimator of James and Stein, from memory).
func (rec *record) weekendShape() (differ [perDay]float64) {
	var sum, square, n [2][perDay]float64
	for t := range rec.hours {
		b := &rec.hours[t]
		k := 0
		if rec.weekend(t) {
			k = 1
		}
		for h := range b.got {
			if b.fine && b.got[h] >= 0.5 {
				x := b.kWh[h] / b.got[h]
				sum[k][h], square[k][h], n[k][h] = sum[k][h]+x, square[k][h]+x*x, n[k][h]+1
			}
		}
	}
	chance, size := 0.0, 0.0
	for h := range differ {
		if n[0][h] < 3 || n[1][h] < 3 {
			continue
		}
		var v [2]float64
		for k := range v {
			m := sum[k][h] / n[k][h]
			v[k] = (square[k][h]/n[k][h] - m*m) / (n[k][h] - 1)
		}
		differ[h] = sum[1][h]/n[1][h] - sum[0][h]/n[0][h]
		chance, size = chance+v[0]+v[1], size+differ[h]*differ[h]
	}
	keep := 0.0
	if size > chance {
		keep = 1 - chance/size
	}
	for h := range differ {
		differ[h] *= keep
	}
	return differ
}

// scale is the usual level of day t over the mean: use in winter strays further
// than in summer.
func (s *shape) scale(t int) float64 {
	sum := 0.0
	for _, x := range s.usual[t] {
		sum += x
	}
	if s.level <= 0 {
		return 1
	}
	return math.Max(0.2, sum/s.level)
}
