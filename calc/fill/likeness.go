package fill

import (
	"math"

	"splittally/calc/matrix"
)

// likeness says how alike the days of a home are, as the covariance of two
// days some days apart, in units of the variance of a day. The parts sum to 1:
//
//	c(h) = chance·[h = 0] + near·nearFade^h + slow·0.97^h + week·0.98^h·[7 divides h]
type likeness struct {
	chance   float64 // what a day shares with no other
	near     float64 // what it shares with its neighbours, fading within days
	nearFade float64
	slow     float64 // what it shares with its season, fading within weeks
	week     float64 // what it shares with the same weekday
}

// The fading of the slow and the weekly part for each day of distance.
const (
	slowFade = 0.97
	weekFade = 0.98
)

// temperaments are the kinds of homes that are told apart. The numbers were
// set on the trial records that coverage_test.go calls tuned on; they are round
// because the outcome hardly depends on them. It measures how far they carry on
// homes that they were not set on.
var temperaments = [...]likeness{
	{chance: 0.35, near: 0.30, nearFade: 0.6, slow: 0.25, week: 0.10}, // a bit of everything
	{chance: 0.15, near: 0.45, nearFade: 0.7, slow: 0.35, week: 0.05}, // weather: days follow their neighbours
	{chance: 0.80, near: 0.05, nearFade: 0.6, slow: 0.15},             // every day for itself
	{chance: 0.15, near: 0.15, nearFade: 0.6, slow: 0.30, week: 0.40}, // life by the week
}

// covariance gives c(0) to c(most).
func (l likeness) covariance(most int) []float64 {
	c := make([]float64, most+1)
	near, slow, week := l.near, l.slow, l.week
	for h := range c {
		c[h] = near + slow
		if h%7 == 0 {
			c[h] += week
		}
		near, slow, week = near*l.nearFade, slow*slowFade, week*weekFade
	}
	c[0] += l.chance
	return c
}

// fit is one temperament fitted to the known days of a record: the mean μ by
// generalised least squares and the variance of a day by restricted maximum
// likelihood.
type fit struct {
	weight   float64      // how likely this temperament is, given the days
	cov      []float64    // by distance in days
	factor   matrix.Lower // Cholesky factor L of the covariance K of the known days
	one      []float64    // L⁻¹·1
	oneOne   float64      // 1ᵀK⁻¹1
	mean     float64      // μ
	variance float64      // of a day
	pull     []float64    // K⁻¹(y − μ)
}

// model tells missing days from known ones. It is a mixture of temperaments,
// each weighted by its likelihood.
type model struct {
	at   []int     // the known days it rests on, ascending
	y    []float64 // their energy, kWh
	fits []fit
}

// usualSpread is the standard deviation of a home's days over their mean, for
// want of anything better when only one day is known. Households have 0.2 to
// 0.6 (from the trial records; no source).
const usualSpread = 0.4

// unlikely is the weight below which a temperament is left out.
const unlikely = 0.03

// newModel fits the temperaments to days at, of which there is one at least.
// noise is the variance of the error of each y; nil if they have none. most is
// the greatest distance in days that will be asked for.
func newModel(at []int, y, noise []float64, most int) *model {
	m := &model{at: at, y: y}
	scale := scatter(y, noise)
	logs := make([]float64, 0, len(temperaments))
	for _, l := range temperaments {
		f := fit{cov: l.covariance(most)}
		if log, ok := f.learn(at, y, noise, scale); ok {
			m.fits = append(m.fits, f)
			logs = append(logs, log)
		}
	}
	best, sum := math.Inf(-1), 0.0
	for _, l := range logs {
		best = max(best, l)
	}
	kept := m.fits[:0]
	for i, f := range m.fits {
		if f.weight = math.Exp(logs[i] - best); f.weight >= unlikely {
			sum += f.weight
			kept = append(kept, f)
		}
	}
	m.fits = kept
	for i := range m.fits {
		m.fits[i].weight /= sum
	}
	return m
}

// scatter gives the variance of days whose figures y have errors of variance
// noise.
func scatter(y, noise []float64) float64 {
	if noise == nil {
		return 1
	}
	level := 0.0
	for _, x := range y {
		level += math.Abs(x) / float64(len(y))
	}
	usual := usualSpread * usualSpread * level * level
	sum, square, error, weight := 0.0, 0.0, 0.0, 0.0
	for i, x := range y {
		w := 1 / (usual + noise[i])
		sum, square, error, weight = sum+w*x, square+w*x*x, error+w*noise[i], weight+w
	}
	return max(usual/100, (square-sum*sum/weight-error)/weight)
}

// learn fits f and gives its restricted log likelihood. The variance of a day is
// about scale, if there is noise.
func (f *fit) learn(at []int, y, noise []float64, scale float64) (log float64, ok bool) {
	n := len(at)
	f.factor = matrix.New(n)
	for i, t := range at {
		for j, r := 0, f.factor.Row(i); j <= i; j++ {
			r[j] = f.cov[t-at[j]]
		}
		if noise != nil {
			f.factor.Row(i)[i] += noise[i] / scale
		}
	}
	if !f.factor.Factor() {
		return 0, false
	}
	f.one, f.pull = make([]float64, n), make([]float64, n)
	level := 0.0
	for i := range f.one {
		f.one[i], f.pull[i] = 1, y[i]
		level += math.Abs(y[i])
	}
	f.factor.Solve(f.one)
	f.factor.Solve(f.pull)
	f.oneOne = matrix.Dot(f.one, f.one)
	f.mean = matrix.Dot(f.one, f.pull) / f.oneOne
	for i := range f.pull {
		f.pull[i] -= f.mean * f.one[i]
	}
	// The usual spread stands in for one n-th of a day: all there is for one
	// day, nothing to speak of for many.
	usual := usualSpread * level / float64(n)
	f.variance = (matrix.Dot(f.pull, f.pull) + usual*usual/float64(n)) / (float64(n-1) + 1/float64(n))
	f.factor.SolveTransposed(f.pull)
	log = -0.5 * math.Log(f.oneOne)
	if f.variance > 0 {
		log -= 0.5 * float64(n-1) * math.Log(f.variance)
	}
	return log - f.factor.LogDet()/2, true
}

// variance gives the variance of a day.
func (m *model) variance() float64 {
	v := 0.0
	for _, f := range m.fits {
		v += f.weight * f.variance
	}
	return v
}

// estimate gives the missing days at in kWh, and the variance of the error of
// their sum, each day counted by its share.
func (m *model) estimate(at []int, share, kWh []float64) (variance float64) {
	clear(kWh)
	sums, vars := make([]float64, len(m.fits)), make([]float64, len(m.fits))
	total := 0.0
	for i := range m.fits {
		f := &m.fits[i]
		for j, t := range at {
			x := f.mean
			for k, s := range m.at {
				x += f.cov[apart(t, s)] * f.pull[k]
			}
			kWh[j] += f.weight * x
			sums[i] += share[j] * x
		}
		vars[i] = f.variance * f.doubt(m.at, at, share)
		total += f.weight * sums[i]
	}
	for i, f := range m.fits {
		variance += f.weight * (vars[i] + (sums[i]-total)*(sums[i]-total))
	}
	return variance
}

// doubt gives the variance of the error of the sum of the days gap, in units
// of the variance of a day.
//
// A day that is missing in part, by hours that nobody knows, has share·(1−share) on top: use comes in lumps,
// so that the missing hours are not simply their share of the day. On the trial
// records that makes the variance of a part about its share of the variance of
// the day, as they have it.
func (f *fit) doubt(known, gap []int, share []float64) float64 {
	among, count := 0.0, 0.0
	for i, t := range gap {
		count += share[i]
		among += share[i] * f.cov[0] // that is share² + share·(1−share)
		for j := i - 1; j >= 0 && t-gap[j] <= unrelated; j-- {
			among += 2 * share[i] * share[j] * f.cov[t-gap[j]]
		}
	}
	cross := make([]float64, len(known))
	for i, t := range known {
		for j, s := range gap {
			cross[i] += share[j] * f.cov[apart(t, s)]
		}
	}
	f.factor.Solve(cross)
	lost := count - matrix.Dot(f.one, cross) // by not knowing the mean
	return max(0, among-matrix.Dot(cross, cross)+lost*lost/f.oneOne)
}

// unrelated is the distance in days beyond which days have nothing in common.
const unrelated = 400

func apart(a, b int) int {
	if a < b {
		return b - a
	}
	return a - b
}
