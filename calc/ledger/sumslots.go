package ledger

import (
	"math"
	"slices"

	"splittally/calc/calendar"
	"splittally/calc/energy"
)

// addSlots appends the sums of the legs' slots of a day, if all have the same
// stretches.
func (s legs) addSlots(to []Slot, d calendar.Day) ([]Slot, error) {
	first := s.all[0].On(d)
	for _, l := range s.all[1:] {
		if !sameStretches(first, l.On(d)) {
			return to, nil
		}
	}
	if to == nil && len(first) > 0 {
		to = make([]Slot, 0, len(s.all[0].Slots))
	}
	n := len(to)
	to = append(to, first...)
	for _, l := range s.all[1:] {
		for i, slot := range l.On(d) {
			var err error
			if to[n+i].Energy, err = to[n+i].Energy.Add(slot.Energy); err != nil {
				return nil, err
			}
		}
	}
	return to, nil
}

// sameStretches says whether two legs have slots of a day from and to the same
// times.
func sameStretches(a, b []Slot) bool {
	return slices.EqualFunc(a, b, func(x, y Slot) bool { return x.same(y) && x.Short == y.Short })
}

// same says whether two slots of a day are of the same stretch.
func (s Slot) same(o Slot) bool { return s.From == o.From && s.To == o.To && s.Again == o.Again }

// inPart says whether a leg is Partial on a day and all tell their stretches.
func (s legs) inPart(d calendar.Day) bool {
	is := false
	for _, l := range s.all {
		state := l.At(d).State
		if state != Partial && state != Measured || len(l.On(d)) == 0 {
			return false
		}
		is = is || state == Partial
	}
	return is
}

// addPart appends the sums of those stretches of a day that every leg has, and
// gives the day's entry. Of e it keeps the line.
func (s legs) addPart(to []Slot, d calendar.Day, e Entry) (Entry, []Slot, error) {
	e = Entry{Line: e.Line}
	squares := 0.0
	for _, l := range s.all {
		at := l.At(d)
		squares += float64(at.Rounding) * float64(at.Rounding)
		if at.Turn != 0 {
			e.Turn, e.TurnAt = at.Turn, at.TurnAt
		}
	}
	e.Rounding = energy.Energy(math.Round(math.Sqrt(squares)))
	for _, slot := range s.all[0].On(d) {
		sum, ok, err := s.addStretch(slot)
		if err != nil {
			return Entry{}, nil, err
		}
		if !ok {
			continue
		}
		if e.Energy, err = e.Energy.Add(sum.Energy); err != nil {
			return Entry{}, nil, err
		}
		e.Hours += float64(sum.length()-int64(sum.Short)) / 3_600_000
		to = append(to, sum)
		e.State = Partial
	}
	if e.State == Missing {
		return Entry{Line: e.Line}, to, nil
	}
	return e, to, nil
}

// length is that of the stretch, in milliseconds.
func (s Slot) length() int64 { return int64(s.To-s.From) * 60_000 }

// mostApart is 1 over the part of a stretch by which the covered times of two
// legs may differ for the legs to be added.
const mostApart = 10

// addStretch adds up one stretch. Where one leg lacks more of it than another,
// the sum lacks as much as that one, and the other's energy is taken down in
// proportion. ok is false if a leg lacks it, or so much more of it that the
// course of its use would matter.
func (s legs) addStretch(slot Slot) (sum Slot, ok bool, err error) {
	var all []Slot
	sum = slot
	least := slot.Short
	for _, l := range s.all {
		on := l.On(slot.Day)
		i := slices.IndexFunc(on, slot.same)
		if i < 0 {
			return Slot{}, false, nil
		}
		all = append(all, on[i])
		sum.Short, least = max(sum.Short, on[i].Short), min(least, on[i].Short)
	}
	covered := sum.length() - int64(sum.Short)
	if covered <= 0 || mostApart*int64(sum.Short-least) > sum.length() {
		return Slot{}, false, nil
	}
	sum.Energy = 0
	for _, a := range all {
		e := a.Energy
		if a.Short < sum.Short {
			part := float64(sum.Short-a.Short) / float64(a.length()-int64(a.Short))
			e -= energy.Energy(math.Round(float64(e) * part))
		}
		if sum.Energy, err = sum.Energy.Add(e); err != nil {
			return Slot{}, false, err
		}
	}
	return sum, true, nil
}
