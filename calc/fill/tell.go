package fill

import (
	"math"
	"sort"

	"splittally/calc/matrix"
)

// told is what the covered hours of a day tell of all of it.
type told struct {
	kWh      float64         // of the day
	variance float64         // of the error of kWh, without what all days share
	weights  [perDay]float64 // of the hours in what they tell
	lean     [perDay]float64 // by which kWh moves with the usual hours
	unseen   float64         // by how much kWh may be off because hours were hardly ever seen, the same way on all days
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
	o.unseen = s.unseen(t, o.lean)
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
// hours that were hardly ever seen.
func (s *shape) unseen(t int, lean [perDay]float64) float64 {
	sum := 0.0
	for h, x := range lean {
		sum += x * guess(h) * priorHour / (s.weight[t][h] + priorHour)
	}
	return sum * s.unsure
}

// together gives the variance that the sum of days has because the usual hours
// that they are filled by err alike: twice the covariances of their pairs. days ascend; lean
// is by how much each one's estimate moves with the usual hours.
func (s *shape) together(days []int, leans [][perDay]float64) float64 {
	var run [perDay]float64
	sum, last := 0.0, 0
	for i, t := range days {
		fade := math.Pow(shapeFade, float64(t-last))
		last = t
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

// ofHours gives the uncertainty that comes from hours alone: what days that
// stand for themselves may miss, and what all days may miss together because
// the usual hours are not known exactly.
func (rec *record) ofHours(s solution) plan {
	p := plan{freedom: rec.freedom()}
	if rec.shape == nil {
		return p
	}
	day := 0.0
	if rec.last != nil {
		day = rec.last.variance()
	}
	var days []int
	var leans [][perDay]float64
	unseen := 0.0
	for i, t := range rec.slight {
		o := rec.slights[i]
		p.standard += o.variance
		unseen += o.unseen
		days, leans = append(days, t), append(leans, o.lean)
	}
	for i, t := range rec.gap {
		o := rec.tell(i)
		if o == nil || s.used[i] == Ratio {
			continue
		}
		unseen += o.unseen // whatever the days around say, for they lack the same hours
		lean := o.lean
		for h := range lean {
			lean[h] *= day / (day + o.variance) // the days around have a say too
		}
		days, leans = append(days, t), append(leans, lean)
	}
	sort.Sort(&byDay{days, leans})
	p.standard = math.Sqrt(p.standard + rec.shape.together(days, leans) + unseen*unseen)
	return p
}

// freedom gives the degrees of freedom of what hours tell.
func (rec *record) freedom() float64 {
	return math.Max(1, min(mostFreedom, float64(rec.fineDays())/2))
}

// fineDays counts the days that tell their hours.
func (rec *record) fineDays() int {
	n := 0
	for t := range rec.hours {
		if rec.hours[t].fine {
			n++
		}
	}
	return n
}

// byDay sorts days with their leans.
type byDay struct {
	days  []int
	leans [][perDay]float64
}

func (b *byDay) Len() int           { return len(b.days) }
func (b *byDay) Less(i, j int) bool { return b.days[i] < b.days[j] }
func (b *byDay) Swap(i, j int) {
	b.days[i], b.days[j] = b.days[j], b.days[i]
	b.leans[i], b.leans[j] = b.leans[j], b.leans[i]
}
