package calc_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"splittally/calc/cause"
)

// both puts two causes into one scene.
type both struct{ one, other injection }

func (b both) name() string { return string(b.one.id) + " + " + string(b.other.id) }

// try works a scene with the two causes. It has the ID of the first.
func (b both) try(homes []household, seed uint64) outcome {
	in := injection{b.one.id, max(b.one.atLeast, b.other.atLeast), b.one.lasting && b.other.lasting, func(s *scene, on bool) {
		b.one.put(s, on)
		first := s.variant
		b.other.put(s, on)
		s.variant = first + " and " + s.variant
	}}
	return try(homes, in, seed)
}

// has says that a cause is one of the two.
func (b both) has(id cause.ID) bool { return id == b.one.id || id == b.other.id }

// twos are the pairs that are tried: those that people have at once.
func twos() []both {
	of := func(id cause.ID) injection {
		return injections[slices.IndexFunc(injections, func(in injection) bool { return in.id == id })]
	}
	return []both{
		{of(cause.Gain), of(cause.Offset)},
		{of(cause.Gain), of(cause.Losses)},
		{of(cause.Dates), of(cause.Gain)},
	}
}

// No cause is a mixture of two, but the first of the list must not be a third
// that is not there.
func TestTwoCausesAtOnce(t *testing.T) {
	var b strings.Builder
	fmt.Fprintf(&b, "%-16s %5s %6s %6s %6s %6s\n", "true causes", "clear", "first", "found", "one", "third")
	for k, two := range twos() {
		all := inParallel(max(40, ofEach()), func(i int) outcome {
			return two.try(madeUp, 10_000_000+1_000_000*uint64(k)+uint64(i)+*causesSeed)
		})
		clear := only(all, outcome.clear)
		third := func(o outcome) bool {
			return o.asserted() != "" && !two.has(o.asserted()) && !(o.asserted() == cause.Hour && o.hourToo)
		}
		fmt.Fprintf(&b, "%-16s %5d %5.1f%% %5.1f%% %5.1f%% %5.1f%%\n", two.name(), len(clear),
			rate(clear, func(o outcome) bool { return len(o.weighed.Causes) > 0 && two.has(o.weighed.Causes[0].ID) }),
			rate(clear, func(o outcome) bool { return slices.ContainsFunc(o.set(), two.has) }),
			rate(clear, func(o outcome) bool { return two.has(o.asserted()) }), rate(clear, third))
		for _, o := range first(only(clear, third), *causesMissed) {
			t.Log(o.String())
		}
		atMost(t, two.name()+": a third cause asserted", clear, third, 5)
	}
	t.Log("\n" + b.String())
}

func first(all []outcome, n int) []outcome { return all[:min(n, len(all))] }
