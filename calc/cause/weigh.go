package cause

import (
	"cmp"
	"math"
	"slices"

	"splittally/calc/compare"
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
	fs := frames(s)
	f := fs[0]
	all, total, sound := weighAll(fs)
	if math.IsInf(total, -1) || math.IsNaN(total) {
		return Weighed{}
	}
	out := Weighed{Done: true, Fit: all[0].best.fit}
	for _, w := range all {
		if w.evidence > all[0].evidence-math.Log(Apart) {
			out.Open++
		}
		out.Causes = append(out.Causes, w.explain(f, total, sound))
	}
	// Where all verdicts are that the two agree, nothing is accused.
	out.Asserted = out.Open == 1 && all[0].id != Other && out.Fit > unlikely && (all[0].id == Chance || !s.agree())
	if s.Verdict != compare.Agree || !out.sound() && !s.agree() { // else there is nothing to decide
		out.Decide = f.decide(out.Causes[:out.Open])
	}
	out.Words = out.words(s)
	return out
}

// weighAll weighs every cause that can have acted, the likeliest first. total is
// the evidence of all, sound that of chance.
func weighAll(fs []*frame) (all []weighed, total, sound float64) {
	total = math.Inf(-1)
	for _, k := range kinds() {
		w, ok := k.weigh(fs)
		if !ok {
			continue
		}
		all = append(all, w)
		total = addLogs(total, w.evidence)
		if w.id == Chance {
			sound = w.evidence
		}
	}
	slices.SortStableFunc(all, func(a, b weighed) int { return cmp.Compare(b.evidence, a.evidence) })
	return all, total, sound
}

// unlikely is the chance of remainders below which no cause is asserted, though
// it be better than all others.
const unlikely = 0.01

// weigh holds the forms of a cause against the figures. ok is false if it
// cannot have acted.
func (k kind) weigh(frames []*frame) (w weighed, ok bool) {
	w = weighed{kind: k, evidence: math.Inf(-1)}
	weights, best := 0.0, held{evidence: math.Inf(-1)}
	for _, fo := range k.forms(frames[0]) {
		weights += fo.weight
		all, likeliest := fo.among(frames)
		if math.IsInf(all, -1) || math.IsNaN(all) {
			continue
		}
		w.evidence = addLogs(w.evidence, all+math.Log(fo.weight))
		if likeliest.evidence+math.Log(fo.weight) > best.evidence {
			best = likeliest
			best.evidence += math.Log(fo.weight)
		}
	}
	if math.IsInf(w.evidence, -1) {
		return w, false
	}
	w.evidence -= math.Log(weights)
	w.best = best.outcome()
	return w, true
}

// among holds a form against the figures with the other instruments sound, and
// in trouble themselves. It gives the evidence, and the likeliest of them.
func (fo form) among(frames []*frame) (evidence float64, best held) {
	evidence, best.evidence = math.Inf(-1), math.Inf(-1)
	for _, f := range frames {
		h := fo.hold(f)
		h.evidence += math.Log(f.weight)
		evidence = addLogs(evidence, h.evidence)
		if h.evidence > best.evidence {
			best = h
		}
	}
	return evidence, best
}

// frames gives the frames to weigh against: with the others sound and with them
// in trouble, if there are others, and with the checks of the legs as good as
// stated and poor, if there are checks.
func frames(s Seen) []*frame {
	f := newFrame(s)
	f.weight = 1
	out := []*frame{f}
	if len(s.Others) > 0 {
		out = out[:0]
		for _, t := range troubles {
			g := *f
			g.others, g.weight = t, t.weight
			out = append(out, &g)
		}
	}
	if f.legChecks > 0 { // with others in trouble as well it would be rare
		g := *out[0]
		g.poor, g.weight = poor, g.weight*poorPart
		out[0].weight *= 1 - poorPart
		out = append(out, &g)
	}
	return out
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
// all causes, sound that of chance.
func (w weighed) explain(f *frame, total, sound float64) Explanation {
	o := w.best
	e := Explanation{
		ID: w.id, Name: w.name, How: o.how(o), Remedy: w.remedy, Sets: w.sets,
		Probability: math.Exp(w.evidence - total), LogEvidence: w.evidence - sound, Fit: o.fit,
		Check: f.checkFor(w.id),
	}
	for p := range f.n() {
		e.Remaining = append(e.Remaining, Remaining{
			Period:  f.Periods[p].Index,
			Percent: 100 * o.left[p] / f.r[p], Expanded: f.k() * 100 * o.standard[p] / f.r[p],
		})
	}
	e.For, e.Against = o.evidences(w.id, e.Remaining)
	return e
}
