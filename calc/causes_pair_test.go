package calc_test

import (
	"testing"

	"splittally/calc/cause"
)

// pair is one scene with a second monitor beside the first, and without it.
type pair struct{ alone, beside outcome }

// tryBeside works n scenes of every injection, all with a second monitor, both
// ways.
func tryBeside(homes []household, n int, seed uint64) []pair {
	return inParallel(n*len(injections), func(i int) pair {
		in := injections[i/n]
		at := seed + 1000*uint64(i) // far enough for a scene with two of them
		for draw(homes, at, in.atLeast).beside == nil {
			at++
		}
		with, without := scenes(homes, in, at)
		p := pair{beside: with.weighed(without, in)}
		with.beside, without.beside = nil, nil
		p.alone = with.weighed(without, in)
		p.alone.beside = p.beside.beside
		return p
	})
}

// A second monitor helps to tell the causes: more of them are asserted, the true
// one is in the open set as often, and no more wrong ones are asserted than are
// allowed without it.
func TestSecondMonitorHelps(t *testing.T) {
	all := tryBeside(madeUp, max(6, ofEach()/5), 3_000_000+*causesSeed)
	var alone, beside []outcome
	for _, p := range all {
		alone, beside = append(alone, p.alone), append(beside, p.beside)
	}
	t.Logf("\nthe first monitor alone\n%s\nwith the second beside\n%s\n%s", confusion(alone), confusion(beside), byVariant(beside))
	for _, trouble := range []string{"sound", "off by a gain", "off by a power"} {
		of := func(o outcome) bool { return o.beside == trouble && (o.clear() || o.id == cause.Chance) }
		a, b := only(alone, of), only(beside, of)
		t.Logf("%-15s %d clear: found %.1f → %.1f %%, alone %.1f → %.1f %%, wrong %.1f → %.1f %%", trouble, len(b),
			rate(a, outcome.open), rate(b, outcome.open), rate(a, outcome.right), rate(b, outcome.right), rate(a, outcome.wrong), rate(b, outcome.wrong))
	}
	logMissed(t, beside)
	a, b := only(alone, outcome.clear), only(beside, outcome.clear)
	t.Logf("open on the mean: %.2f → %.2f", meanOpen(a), meanOpen(b))
	atMost(t, "a wrong cause asserted", b, outcome.wrong, 3)
	atMost(t, "a wrong cause asserted, of all", beside, outcome.wrong, 3)
	atLeast(t, "found", rate(b, outcome.open), max(90, rate(a, outcome.open)-3))
	atLeast(t, "asserted", rate(b, outcome.right), rate(a, outcome.right))
}

func meanOpen(all []outcome) float64 {
	open := 0
	for _, o := range all {
		open += o.weighed.Open
	}
	return float64(open) / float64(max(1, len(all)))
}
