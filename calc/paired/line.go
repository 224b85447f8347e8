package paired

import (
	"math"
	"slices"

	"splittally/calc/matrix"
	"splittally/calc/uncertainty"
)

// line is the usual difference of a day, in kWh, as a sum of terms.
type line struct {
	terms  []term
	slopes []float64
	power  float64 // distances grow as the meter's day to this power
}

// term is what one coefficient is multiplied with.
type term struct {
	of func(row) float64
}

// How many days each term wants, beside the one in proportion to the meter's day.
const (
	daysForOffset = 10
	daysForDrift  = 30
	daysForCut    = 14
)

func (l line) at(r row) float64 {
	sum := 0.0
	for i, t := range l.terms {
		sum += l.slopes[i] * t.of(r)
	}
	return sum
}

// spread is how a day's distance from the line grows with the meter's day.
func (s *sheet) spread(x float64) float64 { return spread(x, s.line.power) }

func spread(x, power float64) float64 {
	const smallest = 0.1 // kWh: a day with next to nothing scatters as well
	x = max(smallest, math.Abs(x))
	switch power {
	case 0:
		return 1
	case 0.5:
		return math.Sqrt(x)
	}
	return x
}

// lay fits the line, and with it whether days are cut apart.
func (s *sheet) lay() {
	terms := []term{{func(r row) float64 { return r.x }}}
	if len(s.rows) >= daysForOffset {
		terms = append(terms, term{func(row) float64 { return 1 }})
	}
	if len(s.rows) >= daysForDrift {
		begin, long := s.rows[0].day, float64(s.rows[len(s.rows)-1].day-s.rows[0].day)
		terms = append(terms, term{func(r row) float64 { return (float64(r.day-begin)/long - 0.5) * r.x }})
	}
	first, _ := s.fit(terms, 0.5)
	s.line, s.scatter = s.fit(terms, s.likeliest(first))
	s.layCut(terms)
}

// To what part the scatter must fall for days to be called cut apart, and how
// unlikely the part of a day must be by chance.
const (
	cutPart = 0.75
	cutRare = 0.001
)

// layCut tries whether the instrument's days begin later or earlier than the
// meter's: then a day has a part of the next day, or of the one before, and lacks
// as much of its own.
func (s *sheet) layCut(terms []term) {
	if len(s.rows) < daysForCut {
		return
	}
	usual := s.scatter * s.spread(s.middling())
	for _, way := range []struct {
		sign float64
		of   func(row) float64
	}{{1, func(r row) float64 { return r.next }}, {-1, func(r row) float64 { return r.last }}} {
		l, scatter := s.fit(append(terms[:len(terms):len(terms)], term{way.of}), s.line.power)
		part := l.slopes[len(l.slopes)-1]
		left := scatter * spread(s.middling(), l.power)
		if !(left < cutPart*usual) || part <= 0 || part > 1.2 || s.cut.Known && left >= s.cut.Scatter*usual {
			continue
		}
		e := s.partOf(l, way.of, part, scatter)
		if e.P > cutRare {
			continue
		}
		s.line, s.scatter = l, scatter
		s.cut = Cut{Known: true, Estimate: e, Scatter: left / usual}
		s.cut.Value *= way.sign
	}
}

// partOf gives the part of a day with its uncertainty, all else on the line taken
// as known.
func (s *sheet) partOf(l line, of func(row) float64, part, scatter float64) Estimate {
	x, u := make([]float64, len(s.rows)), make([]float64, len(s.rows))
	for i, r := range s.rows {
		w := 1 / spread(r.x, l.power)
		x[i], u[i] = w*of(r), (r.d-l.at(r))*w
		if math.Abs(u[i]) > biweight*scatter {
			x[i], u[i] = 0, 0
		}
	}
	return s.estimate(part, s.rows, score{weight: x, u: u, squares: matrix.Dot(x, x), free: func(v []float64) { without(v, x) }})
}

// fit lays a line of these terms, and gives the standard deviation of distances
// over their spread.
func (s *sheet) fit(terms []term, power float64) (l line, scatter float64) {
	l = line{terms: terms, power: power, slopes: make([]float64, len(terms))}
	l.slopes[0] = s.medianRatio()
	return l, s.iterate(&l)
}

// likeliest gives the power by which the distances from a line grow.
func (s *sheet) likeliest(l line) (power float64) {
	least := math.Inf(1)
	for _, p := range []float64{0, 0.5, 1} {
		l.power = p
		if unlikely := s.unlikely(l); unlikely < least {
			least, power = unlikely, p
		}
	}
	return power
}

// medianRatio gives the middle of all days' relative errors.
func (s *sheet) medianRatio() float64 {
	var all []float64
	for _, r := range s.rows {
		if r.x > 0 {
			all = append(all, r.d/r.x)
		}
	}
	return uncertainty.Median(all)
}

// biweight is from how many standard deviations on a day counts for nothing:
// Tukey's constant, with which 5 % of efficiency is lost for normal errors (from
// memory).
const biweight = 4.685

// iterate fits the slopes by reweighted least squares.
func (s *sheet) iterate(l *line) (sd float64) {
	x, wide := make([]float64, len(l.terms)), s.wides(l.power)
	sd = s.deviation(*l, wide)
	for range 12 {
		m, right := matrix.New(len(x)), make([]float64, len(x))
		for k, r := range s.rows {
			w := 1 / wide[k]
			u := (r.d - l.at(r)) * w / (biweight * max(sd, 1e-12))
			if math.Abs(u) >= 1 {
				continue
			}
			w *= w * (1 - u*u) * (1 - u*u)
			for i, t := range l.terms {
				x[i] = t.of(r)
			}
			m.AddSquare(x, w)
			for i := range x {
				right[i] += w * x[i] * r.d
			}
		}
		for i := range x { // what nothing decides stays nothing
			m.Row(i)[i] += 1e-9 * (m.Row(i)[i] + 1e-9)
		}
		if !m.Factor() {
			break
		}
		m.Solve(right)
		m.SolveTransposed(right)
		l.slopes = right
		before := sd
		if sd = s.deviation(*l, wide); math.Abs(sd-before) < 1e-4*sd {
			break
		}
	}
	return sd
}

// wides gives the spread of every day.
func (s *sheet) wides(power float64) []float64 {
	out := make([]float64, len(s.rows))
	for i, r := range s.rows {
		out[i] = spread(r.x, power)
	}
	return out
}

// deviation is the standard deviation of the distances over their spread, by the
// median.
func (s *sheet) deviation(l line, wide []float64) float64 {
	off := make([]float64, len(s.rows))
	for i, r := range s.rows {
		off[i] = math.Abs(r.d-l.at(r)) / wide[i]
	}
	slices.Sort(off)
	return uncertainty.MedianDeviation * (off[(len(off)-1)/2] + off[len(off)/2]) / 2
}

// unlikely is the negative logarithm of the likelihood of the distances, were they
// of a Laplace distribution, but for a constant.
func (s *sheet) unlikely(l line) float64 {
	mean, logs := 0.0, 0.0
	for _, r := range s.rows {
		wide := spread(r.x, l.power)
		mean += math.Abs(r.d-l.at(r)) / wide / float64(len(s.rows))
		logs += math.Log(wide)
	}
	return float64(len(s.rows))*math.Log(mean+1e-12) + logs
}
