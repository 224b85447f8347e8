package pulse

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"splittally/calc/rhythm"
)

// TestAsBefore hears a recording once more, a little otherwise: what was said of
// its pulses still is.
func TestAsBefore(t *testing.T) {
	before := Marks{By: "sound", Marks: []rhythm.Mark{
		{At: 1, Sure: 0.9}, {At: 2, Sure: 0.9, Told: rhythm.Struck}, {At: 2.5, Told: rhythm.Added}, {At: 3, Sure: 0.4, Told: rhythm.Added},
	}}
	again := Marks{By: "sound", Marks: []rhythm.Mark{{At: 1.001, Sure: 0.9}, {At: 1.999, Sure: 0.9}, {At: 3.001, Sure: 0.4}}}
	want := []rhythm.Mark{{At: 1.001, Sure: 0.9}, {At: 1.999, Sure: 0.9, Told: rhythm.Struck}, {At: 2.5, Told: rhythm.Added}, {At: 3.001, Sure: 0.4, Told: rhythm.Added}}
	if diff := cmp.Diff(want, again.As(before).Marks); diff != "" {
		t.Error(diff)
	}
	if again.Marks[1].Told != rhythm.Nothing {
		t.Error("the marks that were given have changed")
	}
}

// TestSift keeps what counts, and counts alike afterwards.
func TestSift(t *testing.T) {
	m := Marks{By: "sound", Timing: 0.001}
	for i := range 30 {
		at := float64(i)
		m.Marks = append(m.Marks, rhythm.Mark{At: at, Sure: 0.99})
		m.Marks = append(m.Marks, rhythm.Mark{At: at + 0.31 + 0.011*float64(i%7), Sure: 0.01})
	}
	was, sifted := m.Judge(), m.Sift()
	is := sifted.Judge()
	if was.Intervals != 29 || is.Intervals != 29 || len(sifted.Marks) != 30 {
		t.Errorf("%d intervals, then %d of %d marks; want 29 of 30 marks", was.Intervals, is.Intervals, len(sifted.Marks))
	}
}
