package fill

import (
	"math"

	"splittally/calc/matrix"
)

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

// learnSpread sets load, spread and within. size is the mean size of an hour.
func (s *shape) learnSpread(rec *record, size float64) {
	all := s.rests(rec)
	var p [perDay]float64
	for t := range rec.hours {
		for h := range p {
			if rec.hours[t].fine {
				p[h] += s.usual[t][h]
			}
		}
	}
	s.learnLoad(all, p, size)
	var v, n [perDay]float64
	prior, days := 0.0, float64(max(1, rec.fineDays()))
	for h := range p {
		v[h], n[h] = priorDays*math.Pow(hourSwing*p[h]/days, 2), priorDays
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
		v[h] = v[h]/n[h] + math.Pow(hourFloor*size, 2)
	}
	// That n adds up to nothing takes about 1/23 from the correlation.
	fade := 1.0 / (perDay - 1)
	if here+prior > 0 {
		fade += (next + hourFade*prior) / (here + prior)
	}
	fade = math.Max(0, math.Min(0.95, fade))
	s.within = withinHour(fade)
	s.setSpread(v, fade)
	s.drawSpread(all)
}

// learnLoad sets load by least squares, drawn towards the usual share p of each
// hour.
func (s *shape) learnLoad(all []rest, p [perDay]float64, size float64) {
	usual := usualSpread * perDay * size
	square := priorDays * usual * usual
	total, least := 0.0, math.Inf(1)
	for _, x := range p {
		total, least = total+x, math.Min(least, x)
	}
	for h, x := range p {
		if least < 0 || total == 0 { // fed into the grid: shares mean nothing
			x, total = 1, perDay
		}
		s.load[h] = x / total * square
	}
	for i := range all {
		square += all[i].sum * all[i].sum
		for h, r := range all[i].r {
			s.load[h] += r * all[i].sum
		}
	}
	for h := range p {
		s.load[h] /= square
	}
}

// setSpread sets spread to the covariance of hours with correlation fade from
// each to the next, given that they add up to nothing, so that the variances
// are v.
func (s *shape) setSpread(v [perDay]float64, fade float64) {
	var power [perDay]float64
	for h := range power {
		power[h] = math.Pow(fade, float64(h))
	}
	var root, sum [perDay]float64
	total := 0.0
	add := func() {
		total = 0
		for h := range root {
			root[h] = math.Sqrt(s.own[h])
		}
		for h := range sum {
			sum[h] = 0
			for k := range v {
				sum[h] += root[h] * root[k] * power[apart(h, k)]
			}
			total += sum[h]
		}
	}
	s.own = v
	for range 3 { // what is taken away depends on what is there
		add()
		for h := range v {
			s.own[h] *= v[h] / (s.own[h] - sum[h]*sum[h]/total)
		}
	}
	add()
	s.spread = matrix.New(perDay)
	for h := range v {
		for k, row := 0, s.spread.Row(h); k <= h; k++ {
			row[k] = root[h]*root[k]*power[h-k] - sum[h]*sum[k]/total
		}
	}
}

// drawSpread draws spread from that model towards what the days show.
func (s *shape) drawSpread(all []rest) {
	sum, lack := matrix.New(perDay), matrix.New(perDay)
	for i := range all {
		d := &all[i]
		whole := true
		for h, x := range d.r { // 0 where nothing was seen
			whole = whole && d.seen[h]
			row := sum.Row(h)
			for k := range row {
				row[k] += x * d.r[k]
			}
		}
		for h := 0; h < perDay && !whole; h++ {
			for k, row := 0, lack.Row(h); k <= h; k++ {
				if !d.seen[h] || !d.seen[k] {
					row[k]++
				}
			}
		}
	}
	for h := range perDay {
		row, shown, unseen := s.spread.Row(h), sum.Row(h), lack.Row(h)
		for k := range row {
			row[k] = (modelDays*row[k] + shown[k]) / (modelDays + float64(len(all)) - unseen[k])
		}
	}
}

// withinHour gives κ²: the mean power over one part of an hour differs from
// that over the rest with a standard deviation of κ times that of the hour. For
// power whose correlation fades exponentially, which makes hours follow one
// another with the given correlation, κ² is (1 − fade)/(1/4 + fade) to a tenth,
// whatever the part is. The half-hours of four homes and the quarter-hours of a
// shop had 0.1 to 1.9 where this gives 0.2 to 1.7.
func withinHour(fade float64) float64 { return (1 - fade) / (0.25 + fade) }
