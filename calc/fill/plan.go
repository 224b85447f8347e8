package fill

import (
	"math"
	"slices"

	"splittally/calc/matrix"
)

// plan is one method carried out on one gap.
type plan struct {
	method   Method
	kWh      []float64 // of each day of the gap, as if all of it were missing
	standard float64   // uncertainty of the sum, each day counted by its share
	freedom  float64
	trial    Trial
}

// mostMissing bounds the gap that the simple methods are tried on. A longer one
// comes from a mistyped year.
const mostMissing = 400

// plans carries out every method that needs no other instrument, Near first.
func (rec *record) plans() []plan {
	near, places := rec.near()
	all := []plan{near}
	if len(rec.gap) > mostMissing || !slices.Contains(rec.known, true) {
		return all
	}
	variance := rec.last.variance()
	for _, s := range simples {
		p := plan{method: s.method, kWh: make([]float64, len(rec.gap)), freedom: near.freedom}
		s.fill(rec, rec.gap, 0, p.kWh)
		for i, t := range rec.gap {
			if o := rec.tell(i); o != nil {
				p.kWh[i] = o.weigh(p.kWh[i], variance, rec.kWh[t])
			}
		}
		p.trial = newTrial(s.method, rec.try(s.fill, places, variance))
		// What the model expects of a sum that is not its own best guess.
		p.standard = math.Hypot(near.standard, rec.sum(p.kWh)-rec.sum(near.kWh))
		all = append(all, p)
	}
	return all
}

// near carries out Near and gives the places at which it was tried.
func (rec *record) near() (plan, []place) {
	m := rec.model()
	places := rec.places(m.at)
	p := plan{method: Near, kWh: make([]float64, len(rec.gap)), freedom: m.freedom()}
	variance := m.estimate(rec.gap, rec.share, p.kWh)
	misses, variances := make([]float64, len(places)), make([]float64, len(places))
	if len(places) > 0 {
		r := m.rehearse(len(rec.kWh))
		for i, c := range places {
			misses[i], variances[i] = r.blank(append(c.at, c.hidden...), rec.share, rec.toldAt(c))
		}
	}
	variance *= m.strain(misses, variances, rec.gap[len(rec.gap)-1]-rec.gap[0]+1)
	p.trial, p.standard = newTrial(Near, misses), math.Sqrt(variance)
	return p, places
}

// sum adds up the days of the gap, each by its share.
func (rec *record) sum(kWh []float64) float64 { return matrix.Dot(rec.share, kWh) }

// model gives the model of the known days near the gap.
func (rec *record) model() *model {
	at, y := rec.nearby()
	if m := rec.last; m == nil || !slices.Equal(m.at, at) {
		var noise []float64
		if rec.noise != nil {
			noise = make([]float64, len(at))
			for i, t := range at {
				noise[i] = rec.noise[t]
			}
		}
		rec.last = newModel(at, y, noise, len(rec.kWh))
	}
	return rec.last
}

// only gives rec with no more than the days which of its gap to fill. The
// others stay unknown.
func (rec *record) only(which []int) *record {
	if len(which) == len(rec.gap) {
		return rec
	}
	part := *rec
	part.gap, part.share, part.tells = nil, nil, nil
	for _, i := range which {
		part.gap, part.share, part.tells = append(part.gap, rec.gap[i]), append(part.share, rec.share[i]), append(part.tells, rec.tell(i))
	}
	return &part
}
