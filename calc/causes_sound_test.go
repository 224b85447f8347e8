package calc_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"splittally/calc"
	"splittally/calc/compare"
)

// verdicts gives that of an instrument as a whole, and then those of its bills
// if there are several.
func verdicts(inst calc.Instrument) (all []compare.Verdict) {
	if inst.IsPooled {
		all = append(all, inst.Pooled.Total.Verdict)
	}
	for _, r := range inst.Results {
		if r.Compares() {
			all = append(all, r.Compared.Verdict)
		}
	}
	return all
}

func differs(v compare.Verdict) bool { return v == compare.DifferHigh || v == compare.DifferLow }

// soundOnly works n scenes of sound instruments with 1 to 24 bills.
func soundOnly(homes []household, n int, seed uint64) []outcome {
	return inParallel(n, func(i int) outcome {
		bills := 1 + i%24
		var long []household
		for _, h := range homes {
			if h.days() > 33*bills+2*margin {
				long = append(long, h)
			}
		}
		s := drawOf(long, seed+uint64(i), bills, 1)
		s.nothing(true)
		return s.sound(s.write())
	})
}

// calm says that the summary finds nothing to explain.
func (o outcome) calm() bool { return strings.HasPrefix(o.weighed.Words, "Nothing needs explaining") }

// contradicts says that the summary calls off what the verdict calls a difference.
func (o outcome) contradicts() bool {
	return len(o.verdicts) > 0 && differs(o.verdicts[0]) && o.calm()
}

// Of sound instruments no fault is asserted, however many bills there are, and
// the summary of the causes agrees with the verdict.
func judgeSound(t *testing.T, homes []household, n int, seed uint64) {
	t.Helper()
	all := soundOnly(homes, n, seed)
	var b strings.Builder
	for _, c := range [][2]int{{1, 1}, {2, 4}, {5, 8}, {9, 12}, {13, 18}, {19, 24}, {1, 24}} {
		rows := only(all, func(o outcome) bool { return o.bills >= c[0] && o.bills <= c[1] })
		fmt.Fprintf(&b, "%2d to %2d bills: %4d, a fault asserted %.1f %%, chance open %.1f %%, verdict differs %.1f %%, one of the bills differs though nothing needs explaining %.1f %%\n", c[0], c[1], len(rows),
			rate(rows, outcome.wrong), rate(rows, outcome.open), rate(rows, func(o outcome) bool { return differs(o.verdicts[0]) }),
			rate(rows, func(o outcome) bool { return slices.ContainsFunc(o.verdicts, differs) && o.calm() }))
	}
	t.Log("\n" + b.String())
	for _, o := range first(only(all, outcome.wrong), *causesMissed) {
		t.Log(o.String())
	}
	for _, o := range only(all, outcome.contradicts) {
		t.Errorf("the verdict is %s, but %q: %s", o.verdicts[0], o.weighed.Words, o)
	}
	atLeast(t, "nothing to explain", rate(all, outcome.calm), 80)
	atMost(t, "a fault asserted of sound instruments", all, outcome.wrong, 1)
}

func TestSoundRealHomes(t *testing.T) {
	judgeSound(t, recordedHomes(t), max(96, 2*ofEach()), 30_000_000+*causesSeed)
}

func TestSoundMadeUpHomes(t *testing.T) {
	judgeSound(t, madeUpHomes(20, 900, 6), max(96, 2*ofEach()), 31_000_000+*causesSeed)
}
