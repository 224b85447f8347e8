package calc_test

import (
	"flag"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"splittally/calc"
	"splittally/calc/cause"
)

var (
	causesOfEach = flag.Int("causes", 60, "scenes with each cause; 1000 for a table that settles something")
	causesMissed = flag.Int("causes-missed", 0, "log so many scenes whose cause was missed or wrongly asserted, with each cause")
)

// wanted is what is promised of the causes, in percent.
type wanted struct {
	found float64 // of clear scenes, the true cause is first or not told from the first
	each  float64 // the same of every cause by itself
	wrong float64 // another cause is asserted
	alone float64 // the true cause is asserted: not telling apart must not be a way out
}

// judgeCauses works the scenes, logs the tables and holds them to the promise.
func judgeCauses(t *testing.T, homes []household, seed uint64, w wanted) {
	t.Helper()
	n := *causesOfEach
	if testing.Short() {
		n = min(n, 12) // too few for each cause by itself
		w.each = 50
	}
	all := tryAll(homes, n, seed)
	clear := only(all, outcome.clear)
	for _, s := range []string{confusion(all), opened(all), byBands(all), byVariant(all), reliability(all)} {
		t.Log("\n" + s)
	}
	logMissed(t, all)
	idle := only(all, func(o outcome) bool { return !o.weighed.Done })
	t.Logf("%d scenes of which nothing could be compared", len(idle))
	if part := 100 * float64(len(idle)) / float64(len(all)); part > 2 {
		t.Errorf("in %.1f %% of the scenes no cause was weighed, the first %s", part, idle[0])
	}
	atLeast(t, "found", rate(clear, outcome.open), w.found)
	atLeast(t, "asserted alone", rate(clear, outcome.right), w.alone)
	for _, in := range injections {
		rows := only(clear, func(o outcome) bool { return o.id == in.id })
		if len(rows) >= 10 {
			atLeast(t, "found of "+string(in.id), rate(rows, outcome.open), w.each)
		}
	}
	if part := rate(clear, outcome.wrong); part > w.wrong {
		t.Errorf("clear scenes: a wrong cause asserted in %.1f %%, want at most %g", part, w.wrong)
	}
	if part := rate(all, outcome.wrong); part > w.wrong {
		t.Errorf("all scenes: a wrong cause asserted in %.1f %%, want at most %g", part, w.wrong)
	}
	if o := only(all, func(o outcome) bool { return o.asserted() == cause.Other }); len(o) > 0 {
		t.Errorf("that none of the causes explains it was asserted as a cause: %s", o[0])
	}
}

func atLeast(t *testing.T, what string, percent, want float64) {
	t.Helper()
	if percent < want {
		t.Errorf("%s in %.1f %% of the clear scenes, want at least %g", what, percent, want)
	}
}

// logMissed logs single scenes to study.
func logMissed(t *testing.T, all []outcome) {
	t.Helper()
	for _, in := range injections {
		shown := 0
		for _, o := range all {
			if o.id == in.id && (o.wrong() || o.clear() && !o.open()) && shown < *causesMissed {
				shown++
				t.Log(o.String())
			}
		}
	}
}

// The promise: where a cause does at least twice the standard uncertainty of
// the figure, it is ranked first or declared not to be told apart from the first
// in 90 of 100 scenes, and a wrong cause is asserted in at most 3.
func TestCausesOfRealHomes(t *testing.T) {
	if testing.Short() {
		t.Skip("long; the made-up homes are tried")
	}
	judgeCauses(t, recordedHomes(t), 1_000_000, wanted{found: 90, each: 80, wrong: 3, alone: 20})
}

// The same without the trial records.
func TestCausesOfMadeUpHomes(t *testing.T) {
	judgeCauses(t, madeUpHomes(20, 500, 3), 2_000_000, wanted{found: 90, each: 80, wrong: 3, alone: 20})
}

// A scene without its cause is a sound one: the same seed gives the same texts,
// and the cause alone changes them.
func TestScenesDifferByTheirCauseAlone(t *testing.T) {
	homes := madeUpHomes(5, 500, 4)
	for _, in := range injections {
		with, without := scenes(homes, in, 7)
		again, _ := scenes(homes, in, 7)
		a, b, c := with.write(), without.write(), again.write()
		if d := cmp.Diff(a, c); d != "" {
			t.Errorf("%s: one seed, two scenes:\n%s", in.id, d)
		}
		same := cmp.Equal(a, b)
		if same != (in.id == cause.Chance) {
			t.Errorf("%s: with and without the cause the same texts: %v", in.id, same)
		}
		if n := strings.Count(a.Monitors[0].Readings, "\n"); n < 28 {
			t.Errorf("%s: %d lines", in.id, n)
		}
	}
}

// What is drawn without a cause, or before one is put in, must be sound: read
// without a problem, and within the stated interval as often as that says.
func TestScenesWithoutCauseAreSound(t *testing.T) {
	homes, held, n := madeUpHomes(20, 500, 5), 0, 0
	for _, in := range injections {
		for seed := range uint64(40) {
			_, without := scenes(homes, in, 3000+seed)
			f := calc.Work(without.write())
			for _, p := range f.Problems {
				t.Errorf("%s, seed %d: %+v", in.id, seed, p)
			}
			for p, r := range f.Instruments[0].Results {
				if !r.Compares() {
					t.Errorf("%s, seed %d, bill %d: %s", in.id, seed, p+1, r.Waits)
				}
				n++
				if math.Abs(r.Compared.Percent.InexactFloat64()) <= r.Compared.Expanded {
					held++
				}
			}
		}
	}
	// The promises' rectangles have shorter tails than what they are judged by;
	// see TestStatedIntervalsHold.
	if share := 100 * float64(held) / float64(n); share < 94 || share > 99.5 {
		t.Errorf("%.1f %% of %d intervals hold zero", share, n)
	} else {
		t.Logf("%.1f %% of %d intervals hold zero", share, n)
	}
}
