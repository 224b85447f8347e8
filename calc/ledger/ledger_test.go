package ledger

import (
	"testing"

	"splittally/calc/calendar"
	"splittally/calc/energy"
)

func TestPutGrowsBothWays(t *testing.T) {
	var l Ledger
	for _, d := range []calendar.Day{100, 97, 103, 98} {
		l.Put(d, Entry{State: Measured, Energy: energy.Energy(d)})
	}
	if got := l.Span(); got != (calendar.Span{First: 97, End: 104}) {
		t.Fatalf("span %v", got)
	}
	for d, want := range map[calendar.Day]energy.Energy{97: 97, 98: 98, 100: 100, 103: 103} {
		if e := l.At(d); e.State != Measured || e.Energy != want {
			t.Errorf("day %d = %+v", d, e)
		}
	}
	for _, d := range []calendar.Day{96, 99, 101, 104} {
		if e := l.At(d); e.State != Missing {
			t.Errorf("day %d = %+v, want Missing", d, e)
		}
	}
	if n := l.Count(calendar.Span{First: 90, End: 110}, Measured); n != 4 {
		t.Errorf("%d measured days, want 4", n)
	}
}
