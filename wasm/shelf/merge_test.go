package shelf

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"splittally/calc"
	"splittally/calc/billing"
	"splittally/calc/document"
)

// merge merges documents; who wins has the last place too.
func merge(base, mine, theirs document.Flat, mineWins bool) document.Flat {
	return merged(base, mine, theirs, mineWins, mineWins)
}

// mergedCase merges cases and makes one of what comes out.
func mergedCase(t tester, base, mine, theirs calc.Case, wins bool) calc.Case {
	t.Helper()
	c, ok := caseOf(merge(flat(base), flat(mine), flat(theirs), wins))
	if !ok {
		t.Fatal("what is merged is no case")
	}
	return c
}

// kWh gives the energies of the bills of a case.
func kWh(c calc.Case) string {
	var all []string
	for _, p := range c.Periods {
		all = append(all, p.KWh)
	}
	return strings.Join(all, " ")
}

// with changes one bill.
func with(c calc.Case, at int, change func(*billing.Period)) calc.Case {
	c.Periods = append([]billing.Period(nil), c.Periods...)
	change(&c.Periods[at])
	return c
}

func less(c calc.Case, at int) calc.Case {
	c.Periods = append(append([]billing.Period(nil), c.Periods[:at]...), c.Periods[at+1:]...)
	return c
}

func more(c calc.Case, kWh string) calc.Case {
	c.Periods = append(append([]billing.Period(nil), c.Periods...), billing.Period{KWh: kWh})
	return c
}

func TestMerge(t *testing.T) {
	three := bills("1", "2", "3")
	setKWh := func(text string) func(*billing.Period) { return func(p *billing.Period) { p.KWh = text } }
	for _, c := range []struct {
		name         string
		mine, theirs calc.Case
		want         string
	}{
		{"nothing changed", three, three, "1 2 3"},
		{"two bills", with(three, 0, setKWh("10")), with(three, 2, setKWh("30")), "10 2 30"},
		{"one bill, mine wins", with(three, 0, setKWh("10")), with(three, 0, setKWh("11")), "10 2 3"},
		{"taken away before one that is changed", less(three, 0), with(three, 2, setKWh("30")), "2 30"},
		{"taken away and changed", less(three, 1), with(three, 1, setKWh("20")), "1 20 3"},
		{"both take it away", less(three, 1), less(three, 1), "1 3"},
		{"each takes another", less(three, 0), less(three, 2), "2"},
		{"added and changed", more(three, "4"), with(three, 2, setKWh("30")), "1 2 30 4"},
		{"added and taken away", more(three, "4"), less(three, 1), "1 3 4"},
		{"both add the same", more(three, ""), more(three, ""), "1 2 3 "},
		{"both add", more(three, "5"), more(three, "4"), "1 2 3 4 5"},
		{"emptied", with(three, 1, setKWh("")), three, "1  3"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := kWh(mergedCase(t, three, c.mine, c.theirs, true)); got != c.want {
				t.Errorf("%q, want %q", got, c.want)
			}
			if got := kWh(mergedCase(t, three, c.theirs, c.mine, false)); got != c.want {
				t.Errorf("seen from the other side: %q, want %q", got, c.want)
			}
		})
	}
}

func TestMergeWithoutABase(t *testing.T) {
	mine, theirs := titled("a"), titled("b")
	mine.Note, theirs.Monitors = "only here", []calc.Monitor{{Name: "only there"}}
	got := mergedCase(t, calc.Case{}, mine, theirs, false)
	want := calc.Case{Title: "b", Note: "only here", Monitors: []calc.Monitor{{Name: "only there"}}}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

func TestMergeIsTheSameFromBothSides(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		base := drawCase(t)
		x, y := base, base
		for range rapid.IntRange(0, 4).Draw(t, "mine") {
			x = drawEdit(t, x)
		}
		for range rapid.IntRange(0, 4).Draw(t, "theirs") {
			y = drawEdit(t, y)
		}
		b, f, g := flat(base), flat(x), flat(y)
		wins := rapid.Bool().Draw(t, "wins")
		one, other := merge(b, f, g, wins), merge(b, g, f, !wins)
		if d := changesOf(one, other); len(d) > 0 {
			t.Fatal(d)
		}
		if _, ok := caseOf(one); !ok {
			t.Fatal("it is no case")
		}
		if d := changesOf(merge(b, f, b, wins), f); len(d) > 0 {
			t.Fatal("with nothing from the other side:", d)
		}
		if d := changesOf(merge(b, f, f, wins), f); len(d) > 0 {
			t.Fatal("with the same on the other side:", d)
		}
	})
}

func TestAlign(t *testing.T) {
	three := flat(bills("1", "2", "3")).Node()
	list := func(c calc.Case) []int {
		was, _ := three.Get("periods")
		is, _ := flat(c).Node().Get("periods")
		return align(was.Items, is.Items)
	}
	for _, c := range []struct {
		is   calc.Case
		want []int
	}{
		{bills("1", "2", "3"), []int{0, 1, 2}},
		{less(bills("1", "2", "3"), 0), []int{-1, 0, 1}},
		{less(bills("1", "2", "3"), 1), []int{0, -1, 1}},
		{more(less(bills("1", "2", "3"), 0), "9"), []int{-1, 0, 1}},
		{with(bills("1", "2", "3"), 1, func(p *billing.Period) { *p = billing.Period{KWh: "x"} }), []int{0, 1, 2}},
		{calc.Case{}, []int{-1, -1, -1}},
	} {
		if diff := cmp.Diff(c.want, list(c.is)); diff != "" {
			t.Errorf("%v:\n%s", c.is.Periods, diff)
		}
	}
}
