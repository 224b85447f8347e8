package series

import (
	"math/rand/v2"
	"testing"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/record"
)

// TestMoreGapsThanAreKept has every second reading of half a week missing.
func TestMoreGapsThanAreKept(t *testing.T) {
	s := New([]Channel{{}}, Options{Step: 1000})
	begin, _ := calendar.Date(2024, 5, 1)
	const n = 150_000
	row := Row{Figures: []int64{1}, Have: 1}
	for i := range int64(n) {
		row.Wall, row.Line = int64(begin)*dayLength+2000*i, int(i)+1
		s.Add(&row)
	}
	for _, late := range []int64{1, n*2 - 3} { // one of a gap that is kept, and of one that is not
		row.Wall = int64(begin)*dayLength + 1000*late
		row.Line++
		s.Add(&row)
	}
	if kept := len(s.tracks[0].gaps); kept > MaxGaps+1 {
		t.Errorf("%d gaps are kept", kept)
	}
	sums := s.Done()
	if got := total(sums.Channels[0]); got != n+1 {
		t.Errorf("%d, want %d", got, n+1)
	}
	if all := len(sums.Gaps) + sums.MoreGaps; all != n-2 || len(sums.Gaps) != record.MaxGaps {
		t.Errorf("%d gaps, %d of them listed", all, len(sums.Gaps))
	}
	if got := oddities(&sums); got != "out-of-order 1 [150001], overlap 1 [150002]" {
		t.Error(got)
	}
}

// TestShuffled has three years of half-hours in no order at all.
func TestShuffled(t *testing.T) {
	s := New([]Channel{{}}, Options{Step: 2 * quarter})
	begin, _ := calendar.Date(2014, 5, 1)
	rng := rand.New(rand.NewPCG(7, 11))
	row, want := Row{Figures: []int64{0}, Have: 1}, energy.Energy(0)
	for _, i := range rng.Perm(48 * 1096) {
		row.Wall, row.Figures[0] = int64(begin)*dayLength+int64(i)*2*quarter, int64(i)
		want += energy.Energy(i)
		s.Add(&row)
	}
	sums := s.Done()
	if got := total(sums.Channels[0]); got != want || len(sums.Gaps) > 0 {
		t.Errorf("%d, want %d; %d gaps", got, want, len(sums.Gaps))
	}
}

func TestMoreDaysThanAreKept(t *testing.T) {
	s := feed(t, Channel{}, Options{Step: hourMs}, evenly(t, "1970-01-01 00:00", hourMs, 100, 1)+evenly(t, "2069-01-01 00:00", hourMs, 100, 1)+"2071-01-01 00:00 1\n")
	if got := total(s.Channels[0]); got != 2*5050 || len(s.Channels[0]) > MaxDays {
		t.Errorf("%d in %d days", got, len(s.Channels[0]))
	}
	if got := oddities(&s); got != "stray 1 [201]" {
		t.Error(got)
	}
}

func TestNothing(t *testing.T) {
	for _, s := range []*Series{New(nil, Options{}), New([]Channel{{}}, Options{Step: hourMs})} {
		s.Add(&Row{Wall: 5})
		if sums := s.Done(); sums.Rows != 0 || len(sums.Gaps) > 0 {
			t.Errorf("%+v", sums)
		}
	}
}
