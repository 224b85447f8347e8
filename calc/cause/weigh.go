package cause

import (
	"math"
	"slices"

	"splittally/calc/compare"
	"splittally/calc/uncertainty"
)

// weighed is a cause with its forms held against the figures.
type weighed struct {
	kind
	evidence float64 // natural logarithm
	best     outcome
}

// Weigh holds every cause against what was seen. It is pure; equal inputs give
// equal results.
func Weigh(s Seen) Weighed {
	if len(s.Periods) == 0 {
		return Weighed{}
	}
	f := newFrame(s)
	var all []weighed
	total := math.Inf(-1)
	for _, k := range kinds {
		w, ok := k.weigh(f)
		if !ok {
			continue
		}
		all = append(all, w)
		total = addLogs(total, w.evidence)
	}
	if math.IsInf(total, -1) || math.IsNaN(total) {
		return Weighed{}
	}
	slices.SortStableFunc(all, func(a, b weighed) int {
		switch {
		case a.evidence > b.evidence:
			return -1
		case a.evidence < b.evidence:
			return 1
		}
		return 0
	})
	out := Weighed{Done: true, Fit: all[0].best.fit}
	for _, w := range all {
		if w.evidence > all[0].evidence-math.Log(Apart) {
			out.Open++
		}
	}
	for _, w := range all {
		out.Causes = append(out.Causes, w.explain(f, total))
	}
	out.Asserted = out.Open == 1 && all[0].id != Other && out.Fit > unlikely
	out.Decide = decide(out.Causes[:out.Open])
	out.Words = out.words()
	return out
}

// unlikely is the chance of remainders below which no cause is asserted, though
// it be better than all others.
const unlikely = 0.01

// weigh holds the forms of a cause against the figures. ok is false if it
// cannot have acted.
func (k kind) weigh(f *frame) (w weighed, ok bool) {
	w = weighed{kind: k, evidence: math.Inf(-1)}
	weights, most := 0.0, math.Inf(-1)
	for _, fo := range k.forms(f) {
		o := fo.weighAmong(f)
		if math.IsInf(o.evidence, -1) || math.IsNaN(o.evidence) {
			continue
		}
		weights += fo.weight
		here := o.evidence + math.Log(fo.weight)
		w.evidence = addLogs(w.evidence, here)
		if here > most {
			most, w.best = here, o
		}
	}
	w.evidence -= math.Log(weights)
	return w, weights > 0
}

// weighAmong holds a form against the figures, with the other instruments sound
// or in trouble themselves. The outcome is that of the likelier.
func (fo form) weighAmong(f *frame) outcome {
	if len(f.Others) == 0 {
		return fo.weigh(f)
	}
	best := outcome{evidence: math.Inf(-1)}
	total := math.Inf(-1)
	for _, t := range troubles {
		g := *f
		g.others = t
		o := fo.weigh(&g)
		o.evidence += math.Log(t.weight)
		total = addLogs(total, o.evidence)
		if o.evidence > best.evidence {
			best = o
		}
	}
	best.evidence = total
	return best
}

// addLogs gives ln(eᵃ + eᵇ).
func addLogs(a, b float64) float64 {
	if a < b {
		a, b = b, a
	}
	if math.IsInf(b, -1) {
		return a
	}
	return a + math.Log1p(math.Exp(b-a))
}

// explain puts a weighed cause into words and figures. total is the evidence of
// all causes.
func (w weighed) explain(f *frame, total float64) Explanation {
	o := w.best
	e := Explanation{
		ID: w.id, Side: w.side, Name: w.name, How: o.how(o), Remedy: w.remedy, Sets: w.sets,
		Probability: math.Exp(w.evidence - total), LogEvidence: w.evidence, Fit: o.fit,
		Check: checkFor(w.id),
	}
	for p := range f.n() {
		e.Remaining = append(e.Remaining, Remaining{
			Period:  f.Periods[p].Index,
			Percent: 100 * o.left[p] / f.r[p], Expanded: f.k() * 100 * o.standard[p] / f.r[p],
		})
	}
	if len(o.effects) == 1 || w.id == Gain || w.id == Clamp {
		e.HasSize = true
		e.Size = compare.Estimate{Known: true, Value: o.sizes[0], Standard: o.doubts[0], DoF: math.Inf(1), Expanded: f.k() * o.doubts[0]}
	}
	e.For, e.Against = o.evidences(w.id, e.Remaining)
	return e
}

// k is the factor of a normal distribution at the confidence of the case.
func (f *frame) k() float64 { return uncertainty.Coverage(f.Confidence, math.Inf(1)) }
