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

func lacking(s Slot, ms int32) Slot {
	s.Short = ms
	return s
}

// The entry of a day that one leg lacks a part of.
func TestSumInPart(t *testing.T) {
	whole, most := Ledger{First: 100}, Ledger{First: 100}
	for h := range 24 {
		whole.Slots = append(whole.Slots, hour(100, h, 10))
		if h != 7 {
			most.Slots = append(most.Slots, hour(100, h, 1))
		}
	}
	whole.Days = []Entry{{State: Measured, Energy: 240, Rounding: 3}}
	most.Days = []Entry{{State: Partial, Energy: 23, Rounding: 4, Hours: 22, Turn: -1, TurnAt: 2, Line: 7}}
	got, err := Sum([]Ledger{whole, most}, "")
	want := Entry{State: Partial, Energy: 253, Rounding: 5, Hours: 23, Turn: -1, TurnAt: 2, Line: 7}
	if err != nil || len(got.Days) != 1 || got.Days[0] != want || len(got.Slots) != 23 {
		t.Errorf("%+v, %v; want %+v", got.Days, err, want)
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
			[]Slot{hour(100, 1, 2), hour(101, 5, 6)},
		},
		{
			"a second run beside a first",
			[]Ledger{leg(part(1), hour(100, 1, 1)), leg(part(1), again(hour(100, 1, 1)))},
			nil,
		},
		{"one leg by the day", []Ledger{leg(measured(3, 1), hour(100, 1, 3)), leg(measured(3, 1))}, nil},
		{"one hour more", []Ledger{leg(part(1), hour(100, 1, 1), hour(100, 2, 1)), leg(part(1), hour(100, 1, 1))}, []Slot{hour(100, 1, 2)}},
		{
			"a part beside a whole",
			[]Ledger{leg(part(1), hour(100, 1, 1)), leg(measured(3, 1), hour(100, 1, 1), hour(100, 2, 2))},
			[]Slot{hour(100, 1, 2)},
		},
		{
			"a day that has no sum",
			[]Ledger{leg(Entry{}, hour(100, 1, 1)), leg(measured(1, 1), hour(100, 1, 1))},
			nil,
		},
		{
			"as much lost",
			[]Ledger{leg(part(1), lacking(hour(100, 1, 7), 600_000)), leg(part(1), lacking(hour(100, 1, 5), 600_000))},
			[]Slot{lacking(hour(100, 1, 12), 600_000)},
		},
		{
			"a tenth of an hour lost by one leg",
			[]Ledger{leg(part(1), lacking(hour(100, 1, 900), 360_000)), leg(measured(1, 1), hour(100, 1, 5000))},
			[]Slot{lacking(hour(100, 1, 5400), 360_000)},
		},
		{
			"more than that lost",
			[]Ledger{leg(part(1), lacking(hour(100, 1, 900), 360_001)), leg(measured(1, 1), hour(100, 1, 5000))},
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
