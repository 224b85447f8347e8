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

// Choices of this package, set on the trial records that are marked tuned: they
// are round because the outcome hardly depends on them.
const (
	shapeFade = 0.95 // how much less a day counts for p for each day that it is away
	priorDays = 5.0  // how many days the guesses below are worth against what the record shows
	hourFade  = 0.3  // correlation of n from an hour to the next, for want of days
	hourSwing = 0.8  // standard deviation of an hour over its mean, for want of days
	hourFloor = 0.05 // least standard deviation of n, over the mean hour
	unseen    = 0.45 // standard deviation of the usual hour about guess, as a part of it
	modelDays = 80.0 // how many days the model of the covariance of n is worth
	priorHour = 0.3  // how many days the mean hour is worth for the usual one
)

// mostlyCovered is the part of a day that has to be covered for the day to serve
// as a known one.
const mostlyCovered = 0.9

// learnShape gives the shape of the days of rec. ok is false if it tells the
// hours of no day.
func (rec *record) learnShape() (s *shape, ok bool) {
	n := len(rec.hours)
	mean, covered := 0.0, 0.0
	for t := range rec.hours {
		if b := &rec.hours[t]; b.fine {
			for h := range b.got {
				mean, covered = mean+b.kWh[h], covered+b.got[h]
			}
		}
	}
	if covered == 0 {
		return nil, false
	}
	mean /= covered
	s = &shape{usual: make([][perDay]float64, n), weight: make([][perDay]float64, n)}
	s.unsure = unseen * mean
	s.smooth(rec, mean)
	s.learnSpread(rec, mean)
	return s, true
}

// guess is what an hour of the clock brings over the mean one where the record
// tells nothing of it.
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
		s.level += total / float64(len(rec.hours))
	}
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

// rest is what one day's hours have beyond the usual.
type rest struct {
	r    [perDay]float64
	sum  float64
	seen [perDay]bool
}

// enoughDays is how many mostly covered days make a shape worth the name; if
// there are fewer, days that are half covered help.
const enoughDays = 10

// rests gives what the days that can teach something have beyond the usual.
func (s *shape) rests(rec *record) (all []rest) {
	for _, least := range [2]float64{mostlyCovered, 0.5} {
		if len(all) >= enoughDays {
			break
		}
		all = all[:0]
		for t := range rec.hours {
			b := &rec.hours[t]
			if !b.fine || b.covered() < least {
				continue
			}
			d := rest{}
			scale := s.scale(t)
			for h := range d.r {
				if d.seen[h] = b.got[h] >= 0.5; d.seen[h] {
					d.r[h] = (b.kWh[h]/b.got[h] - s.usual[t][h]) / scale
					d.sum += d.r[h]
				}
			}
			all = append(all, d)
		}
	}
	return all
}

// learnSpread sets load, spread and within.
func (s *shape) learnSpread(rec *record, mean float64) {
	all := s.rests(rec)
	var p, v, n [perDay]float64
	for t := range rec.hours {
		for h := range p {
			p[h] += s.usual[t][h] / float64(len(rec.hours))
		}
	}
	// β by least squares, drawn towards the usual share.
	usual := usualSpread * s.level
	square := priorDays * usual * usual
	for h := range p {
		s.load[h] = p[h] / s.level * square
	}
	for i := range all {
		square += all[i].sum * all[i].sum
		for h, r := range all[i].r {
			s.load[h] += r * all[i].sum
		}
	}
	prior := 0.0
	for h := range p {
		s.load[h] /= square
		v[h], n[h] = priorDays*math.Pow(hourSwing*p[h], 2), priorDays
		prior += v[h]
	}
	var next, here float64 // sums of products of n with the next hour, and with itself
	for i := range all {
		d := &all[i]
		for h := range d.r {
			if !d.seen[h] {
				continue
			}
			d.r[h] -= s.load[h] * d.sum
			v[h], n[h] = v[h]+d.r[h]*d.r[h], n[h]+1
			here += d.r[h] * d.r[h]
			if h > 0 && d.seen[h-1] {
				next += d.r[h] * d.r[h-1]
			}
		}
	}
	for h := range v {
		v[h] = v[h]/n[h] + math.Pow(hourFloor*mean, 2)
	}
	// That n adds up to nothing takes about 1/23 from the correlation.
	fade := (next+hourFade*prior)/(here+prior) + 1.0/(perDay-1)
	fade = math.Max(0, math.Min(0.95, fade))
	s.within = withinHour(fade)
	s.setSpread(v, fade)
	for h := range v {
		for k, row := 0, s.spread.Row(h); k <= h; k++ {
			sum, count := modelDays*row[k], modelDays
			for i := range all {
				if d := &all[i]; d.seen[h] && d.seen[k] {
					sum, count = sum+d.r[h]*d.r[k], count+1
				}
			}
			row[k] = sum / count
		}
	}
}

// setSpread sets spread to the covariance of hours with correlation fade from
// each to the next, given that they add up to nothing, so that the variances
// are v.
func (s *shape) setSpread(v [perDay]float64, fade float64) {
	s.own = v
	var sum [perDay]float64
	total := 0.0
	for range 3 {
		total = 0
		for h := range sum {
			sum[h] = 0
			for k := range v {
				sum[h] += math.Sqrt(s.own[h]*s.own[k]) * math.Pow(fade, float64(apart(h, k)))
			}
			total += sum[h]
		}
		for h := range v {
			s.own[h] *= v[h] / (s.own[h] - sum[h]*sum[h]/total)
		}
	}
	total = 0
	for h := range sum {
		sum[h] = 0
		for k := range v {
			sum[h] += math.Sqrt(s.own[h]*s.own[k]) * math.Pow(fade, float64(apart(h, k)))
		}
		total += sum[h]
	}
	s.spread = matrix.New(perDay)
	for h := range v {
		for k, row := 0, s.spread.Row(h); k <= h; k++ {
			row[k] = math.Sqrt(s.own[h]*s.own[k])*math.Pow(fade, float64(h-k)) - sum[h]*sum[k]/total
		}
	}
}

// withinHour gives κ²: the mean power over one part of an hour differs from
// that over the rest with a standard deviation of κ times that of the hour. For
// power whose correlation fades exponentially, which makes hours follow one
// another with the given correlation, κ² is (1 − fade)/(1/4 + fade) to a tenth,
// whatever the part is. The half-hours of four homes had 0.5 to 1.9 where this
// gives 0.6 to 1.7.
func withinHour(fade float64) float64 { return (1 - fade) / (0.25 + fade) }

// told is what the covered hours of a day tell of all of it.
type told struct {
	kWh      float64         // of the day
	variance float64         // of the error of kWh, without that of the usual hours
	weights  [perDay]float64 // of the hours in what they tell
	lean     [perDay]float64 // by which kWh moves with the usual hours
}

// tell gives what the covered hours of day t tell. ok is false if they tell
// next to nothing.
func (s *shape) tell(b *byHour, t int) (o told, ok bool) {
	scale := s.scale(t)
	if b.leastPart() >= mostlyCovered {
		return s.tellEach(b, scale), true
	}
	var at [perDay]int
	n := 0
	for h := range b.got {
		if b.got[h] > 0 {
			at[n] = h
			n++
		}
	}
	if n == 0 {
		return o, false
	}
	k := matrix.New(n)
	r, right := make([]float64, n), make([]float64, n)
	for i, h := range at[:n] {
		row := k.Row(i)
		for j, g := range at[:i+1] {
			row[j] = s.spread.Row(h)[g]
		}
		lost := 1 - b.got[h]/b.all[h]
		row[i] += s.within*lost*lost*s.own[h] + 1e-9*s.own[h]
		r[i] = b.kWh[h]/b.got[h] - s.usual[t][h]
		right[i] = s.load[h]
	}
	if !k.Factor() {
		return o, false
	}
	w := k.Solved(right)
	information := matrix.Dot(w, right)
	if information <= 0 {
		return o, false
	}
	o.variance = scale * scale / information
	more := matrix.Dot(w, r) / information
	for h := range b.all {
		o.lean[h] = b.all[h]
		o.kWh += b.all[h] * (s.usual[t][h] + s.load[h]*more)
	}
	for i, h := range at[:n] {
		o.weights[h] = w[i] / information
		o.lean[h] -= o.weights[h]
	}
	unseen := s.unseen(t, o.lean)
	o.variance += unseen * unseen
	return o, true
}

// tellEach takes every hour of a day, all of them covered for the most part, to
// run on as it was. The usual hours have no say.
func (s *shape) tellEach(b *byHour, scale float64) (o told) {
	for h, all := range b.all {
		if all == 0 {
			continue
		}
		lost := 1 - b.got[h]/all
		o.kWh += b.kWh[h] / (1 - lost)
		o.variance += s.within * lost * lost * s.own[h] * scale * scale
		o.weights[h] = 1
	}
	return o
}

// unseen gives by how much a day's estimate may be off, in kWh, because of
// hours that were hardly ever seen. That is the same for all days.
func (s *shape) unseen(t int, lean [perDay]float64) float64 {
	sum := 0.0
	for h, x := range lean {
		sum += x * guess(h) * priorHour / (s.weight[t][h] + priorHour)
	}
	return sum * s.unsure
}

// together gives the variance that the sum of days has because what they are
// filled by errs alike: twice the covariances of their pairs. days ascend; lean
// is by how much each one's estimate moves with the usual hours.
func (s *shape) together(days []int, leans [][perDay]float64) float64 {
	var run [perDay]float64
	sum, last, unseen := 0.0, 0, 0.0
	for i, t := range days {
		fade := math.Pow(shapeFade, float64(t-last))
		last = t
		same := s.unseen(t, leans[i])
		sum += 2 * unseen * same
		unseen += same
		var own [perDay]float64
		scale := s.scale(t)
		for h, x := range leans[i] {
			run[h] *= fade
			own[h] = x * scale * math.Sqrt(s.weight[t][h]) / (s.weight[t][h] + priorHour)
		}
		for h, x := range own {
			for k, y := range run {
				sum += 2 * x * y * s.spread.Row(max(h, k))[min(h, k)]
			}
		}
		for h, x := range own {
			run[h] += x
		}
	}
	return math.Max(0, sum)
}
