package fill

import "math"

// plan is one method carried out on one gap.
type plan struct {
	method   Method
	kWh      []float64 // of each day of the gap, as if all of it were missing
	standard float64   // uncertainty of the sum, each day counted by its share
	freedom  float64
	trial    Trial
}

// plans carries out every method that needs no other instrument, Near first.
func (rec *record) plans() []plan {
	at, y := rec.nearby()
	m := newModel(at, y, len(rec.kWh))
	places := rec.places(at)
	near := plan{method: Near, kWh: make([]float64, len(rec.gap)), freedom: m.freedom()}
	variance := m.estimate(rec.gap, rec.share, near.kWh)
	misses, variances := make([]float64, len(places)), make([]float64, len(places))
	if len(places) > 0 {
		m.prepare()
		position := make([]int, len(rec.kWh))
		for i, t := range at {
			position[t] = i
		}
		for i, p := range places {
			var out []int
			for _, days := range [2][]int{p.at, p.hidden} {
				for _, t := range days {
					out = append(out, position[t])
				}
			}
			misses[i], variances[i] = m.blank(out, rec.share)
		}
	}
	variance *= m.strain(misses, variances, rec.gap[len(rec.gap)-1]-rec.gap[0]+1)
	near.trial = newTrial(Near, misses)
	near.standard = math.Sqrt(variance)
	all := []plan{near}
	for _, s := range simples {
		p := plan{method: s.method, kWh: make([]float64, len(rec.gap)), freedom: near.freedom}
		s.fill(rec, rec.gap, 0, p.kWh)
		p.trial = newTrial(s.method, rec.try(s.fill, places))
		// What the model expects of a sum that is not its own best guess.
		p.standard = math.Hypot(near.standard, rec.sum(p.kWh)-rec.sum(near.kWh))
		all = append(all, p)
	}
	return all
}

// sum adds up the days of the gap, each by its share.
func (rec *record) sum(kWh []float64) float64 { return dot(rec.share, kWh) }

// only gives rec with no more than the days which of its gap to fill. The
// others stay unknown.
func (rec *record) only(which []int) *record {
	part := *rec
	part.gap, part.share = nil, nil
	for _, i := range which {
		part.gap, part.share = append(part.gap, rec.gap[i]), append(part.share, rec.share[i])
	}
	return &part
}
