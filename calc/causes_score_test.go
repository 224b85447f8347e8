package calc_test

import (
	"flag"
	"fmt"
	"math"
	"slices"
	"strings"
	"sync"
	"testing"

	"splittally/calc"
	"splittally/calc/cause"
	"splittally/calc/compare"
)

var causesSeed = flag.Uint64("causes-seed", 0, "added to the seeds, for scenes that nobody looked at")

// outcome is what became of one scene with a cause in it.
type outcome struct {
	injection
	seed    uint64
	variant string
	bills   int
	hourToo bool   // the reads were at another hour than is assumed, besides
	beside  string // what is true of a second monitor, "" without one
	// effect is what the cause does to the error, in standard uncertainties of
	// the figure: of the pooled error if it lasts, else of the period hit worst.
	// With one bill the two are the same.
	effect   float64
	weighed  cause.Weighed
	verdicts []compare.Verdict // of a scene without a cause
}

// clear says that the cause does at least twice the standard uncertainty.
func (o outcome) clear() bool { return o.effect >= 2 }

// open says that the cause is first, or not told apart from the first.
func (o outcome) open() bool { return slices.Contains(o.set(), o.id) }

// set gives the causes that are not told apart.
func (o outcome) set() []cause.ID {
	var ids []cause.ID
	for _, e := range o.weighed.Causes[:min(o.weighed.Open, len(o.weighed.Causes))] {
		ids = append(ids, e.ID)
	}
	return ids
}

// asserted gives the cause that is asserted, or "".
func (o outcome) asserted() cause.ID {
	if !o.weighed.Asserted || len(o.weighed.Causes) == 0 {
		return ""
	}
	return o.weighed.Causes[0].ID
}

// wrong says that a cause is asserted that is not there.
func (o outcome) wrong() bool {
	a := o.asserted()
	return a != "" && a != o.id && !(a == cause.Hour && o.hourToo)
}

func (o outcome) right() bool { return o.asserted() == o.id }

// String is a line for the study of single cases.
func (o outcome) String() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%-9s seed %d, %s, %q beside, %d bills, effect %.1f u, open %v, asserted %q:", o.id, o.seed, o.variant, o.beside, o.bills, o.effect, o.set(), o.asserted())
	for i, e := range o.weighed.Causes {
		if i < 4 || e.ID == o.id {
			fmt.Fprintf(&b, " %s %.3f (ln %.1f, fit %.3f)", e.ID, e.Probability, e.LogEvidence, e.Fit)
		}
	}
	return b.String()
}

// scenes gives the scene of an injection and a seed with and without its cause.
func scenes(homes []household, in injection, seed uint64) (with, without *scene) {
	with, without = draw(homes, seed, in.atLeast), draw(homes, seed, in.atLeast)
	in.put(with, true)
	in.put(without, false)
	return with, without
}

// try works one scene twice, for the effect and for the causes.
func try(homes []household, in injection, seed uint64) outcome {
	with, without := scenes(homes, in, seed)
	return with.weighed(without, in)
}

// weighed works a scene with its cause and without.
func (s *scene) weighed(without *scene, in injection) outcome {
	o := outcome{injection: in, seed: s.seed, variant: s.variant, bills: len(s.bills), hourToo: s.hourToo}
	if s.beside != nil {
		o.beside = s.beside.trouble
	}
	f, g := calc.Work(s.write()), calc.Work(without.write())
	if len(f.Instruments) == 0 || len(g.Instruments) == 0 {
		return o
	}
	o.effect, o.weighed = effect(f.Instruments[0], g.Instruments[0], in.lasting), f.Instruments[0].Causes
	return o
}

// effect compares the errors with the cause and without it.
func effect(with, without calc.Instrument, lasting bool) float64 {
	if lasting && with.IsPooled && without.IsPooled {
		w, o := with.Pooled.Total, without.Pooled.Total
		return math.Abs(w.Percent.Sub(o.Percent).InexactFloat64()) / w.Standard
	}
	worst := 0.0
	for p, w := range with.Results {
		if o := without.Results[p]; w.Compares() && o.Compares() {
			worst = max(worst, math.Abs(w.Compared.Percent.Sub(o.Compared.Percent).InexactFloat64())/w.Compared.Standard)
		}
	}
	return worst
}

// tryAll works n scenes of every injection.
func tryAll(homes []household, n int, seed uint64) []outcome {
	return inParallel(n*len(injections), func(i int) outcome { return try(homes, injections[i/n], seed+*causesSeed+uint64(i)) })
}

// inParallel works out n results on two threads.
func inParallel[T any](n int, one func(i int) T) []T {
	all := make([]T, n)
	next := make(chan int)
	var busy sync.WaitGroup
	for range 2 {
		busy.Go(func() {
			for i := range next {
				all[i] = one(i)
			}
		})
	}
	for i := range all {
		next <- i
	}
	close(next)
	busy.Wait()
	return all
}

// count counts the outcomes for which a statement holds.
func count(all []outcome, holds func(outcome) bool) int {
	n := 0
	for _, o := range all {
		if holds(o) {
			n++
		}
	}
	return n
}

func only(all []outcome, holds func(outcome) bool) []outcome {
	var out []outcome
	for _, o := range all {
		if holds(o) {
			out = append(out, o)
		}
	}
	return out
}

// rate is a share of outcomes in percent; 100 of none.
func rate(all []outcome, holds func(outcome) bool) float64 {
	if len(all) == 0 {
		return 100
	}
	return 100 * float64(count(all, holds)) / float64(len(all))
}

// ofEach is how many scenes are tried of each kind in the trials that are not
// about single causes.
func ofEach() int {
	if testing.Short() {
		return min(*causesOfEach, 12)
	}
	return max(1, *causesOfEach/2)
}

// chance is how far a share of n cases may lie from a true one of so many
// percent: two standard deviations.
func chance(percent float64, n int) float64 {
	return 2 * math.Sqrt(percent*(100-percent)/float64(max(1, n)))
}

// atMost holds the share of cases for which a statement holds to a limit in
// percent, as far as chance allows with so few.
func atMost(t *testing.T, what string, all []outcome, holds func(outcome) bool, limit float64) {
	t.Helper()
	if part := rate(all, holds); part > limit+chance(limit, len(all)) {
		t.Errorf("%s: %.1f %% of %d, want at most %g", what, part, len(all), limit)
	}
}
