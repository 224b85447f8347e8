package ledger

import (
	"errors"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"

	"splittally/calc/calendar"
	"splittally/calc/energy"
)

// hour gives the slot of an hour.
func hour(d calendar.Day, h int, e energy.Energy) Slot {
	return Slot{Day: d, From: h * 60, To: h*60 + 60, Energy: e}
}

func again(s Slot) Slot {
	s.Again = true
	return s
}

func TestOn(t *testing.T) {
	l := Ledger{Slots: []Slot{hour(100, 0, 1), hour(100, 1, 2), hour(102, 0, 3)}}
	for day, want := range map[calendar.Day][]Slot{99: nil, 100: l.Slots[:2], 101: nil, 102: l.Slots[2:], 103: nil} {
		if got := l.On(day); len(got) != len(want) || len(want) > 0 && got[0] != want[0] {
			t.Errorf("On(%d) = %v, want %v", day, got, want)
		}
	}
}

func TestSumOfSlots(t *testing.T) {
	part := func(e energy.Energy) Entry { return Entry{State: Partial, Energy: e, Hours: 2} }
	leg := func(e Entry, slots ...Slot) Ledger { return Ledger{First: 100, Days: []Entry{e, e}, Slots: slots} }
	for _, c := range []struct {
		what string
		legs []Ledger
		want []Slot
	}{
		{
			"the same stretches",
			[]Ledger{leg(part(3), hour(100, 1, 1), again(hour(100, 1, 2))), leg(part(-7), hour(100, 1, -3), again(hour(100, 1, -4)))},
			[]Slot{hour(100, 1, -2), again(hour(100, 1, -2))},
		},
		{
			"other hours on the first day",
			[]Ledger{leg(part(3), hour(100, 1, 1), hour(100, 2, 2), hour(101, 5, 3)), leg(part(3), hour(100, 1, 1), hour(100, 3, 2), hour(101, 5, 3))},
			[]Slot{hour(101, 5, 6)},
		},
		{
			"a second run beside a first",
			[]Ledger{leg(part(1), hour(100, 1, 1)), leg(part(1), again(hour(100, 1, 1)))},
			nil,
		},
		{"one leg by the day", []Ledger{leg(measured(3, 1), hour(100, 1, 3)), leg(measured(3, 1))}, nil},
		{"one hour more", []Ledger{leg(part(1), hour(100, 1, 1), hour(100, 2, 1)), leg(part(1), hour(100, 1, 1))}, nil},
		{
			"a day that has no sum",
			[]Ledger{leg(part(1), hour(100, 1, 1)), leg(measured(1, 1), hour(100, 1, 1))},
			nil,
		},
		{
			"three legs",
			[]Ledger{leg(measured(1, 1), hour(101, 1, 1)), leg(measured(2, 1), hour(101, 1, 2)), leg(measured(4, 1), hour(101, 1, 4))},
			[]Slot{hour(101, 1, 7)},
		},
	} {
		before := append([]Slot(nil), c.legs[0].Slots...)
		got, err := Sum(c.legs, "")
		if err != nil {
			t.Errorf("%s: %v", c.what, err)
		}
		if d := cmp.Diff(c.want, got.Slots); d != "" {
			t.Errorf("%s (-want +got):\n%s", c.what, d)
		}
		if d := cmp.Diff(before, c.legs[0].Slots); d != "" {
			t.Errorf("%s: the leg was changed:\n%s", c.what, d)
		}
	}
}

func TestSumOfSlotsOutOfRange(t *testing.T) {
	leg := Ledger{First: 100, Days: []Entry{measured(1, 1)}, Slots: []Slot{hour(100, 1, math.MaxInt64), hour(100, 2, math.MinInt64+2)}}
	if _, err := Sum([]Ledger{leg, leg}, ""); !errors.Is(err, energy.ErrRange) {
		t.Errorf("error %v, want ErrRange", err)
	}
}
