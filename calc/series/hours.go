package series

import (
	"math/bits"
	"slices"

	"splittally/calc/calendar"
	"splittally/calc/record"
)

const ever = 1 << 60 // later than any time

// hour is what came together for one hour of one track.
type hour struct {
	energy  int64 // µWh
	rest    int64 // of a power: what is not yet in energy, in µW·ms; see carry
	covered int32 // ms
	marks   record.Marks
}

// day has the hours of all tracks, 24 of each.
type day struct {
	at     calendar.Day
	turn   int8
	turnAt uint8
	hours  []hour
	again  []hour   // the second run of the hour turnAt, one for each track
	prints []uint32 // fingerprints; see print.go
	rows   int      // how many readings it has, of all channels
}

// hourRef is an hour that may be added to: true times from and to of one run of
// an hour by the clock.
type hourRef struct {
	from, to int64
	off      int64
	at       calendar.Day
	index    int // of the hour in its day
	again    bool
	day      *day // nil until something is added
}

// hourOf gives the hour of a track that s.now refers to.
func (s *Series) hourOf(track int) *hour {
	h := &s.now
	if h.day == nil {
		h.day = s.dayAt(h.at)
		if h.again && h.day.turn == 0 {
			h.day.turn, h.day.turnAt = 1, uint8(h.index)
		}
		h.again = h.again && h.day.turn > 0 && int(h.day.turnAt) == h.index
		if h.again && h.day.again == nil {
			h.day.again = make([]hour, len(s.tracks))
		}
	}
	if h.again {
		return &h.day.again[track]
	}
	return &h.day.hours[track*24+h.index]
}

// hourAt makes s.now the hour that has a true time, which is not turned.
func (s *Series) hourAt(u int64) *hourRef {
	if h := &s.now; u >= h.from && u < h.to {
		return h
	}
	off, from, to, twice := s.segment(u)
	d, rest := floor(u+off, dayLength)
	begin := u - rest%record.Whole
	h := &s.now
	*h = hourRef{
		from: max(begin, from), to: min(begin+record.Whole, to), off: off,
		at: calendar.Day(d), index: int(rest / record.Whole),
	}
	switch past := from + record.Whole; { // an odd turn may not be at a full hour
	case twice && u < past:
		h.again, h.to = true, min(h.to, past)
	case twice:
		h.from = max(h.from, past)
	}
	return h
}

// dayAt gives a day, and makes it if there is none.
func (s *Series) dayAt(at calendar.Day) *day {
	i, ok := s.findDay(at)
	if ok {
		return s.days[i]
	}
	d := &day{at: at, hours: make([]hour, 24*len(s.tracks))}
	s.days = slices.Insert(s.days, i, d)
	return d
}

// findDay gives the place of a day, or where it would be.
func (s *Series) findDay(at calendar.Day) (i int, ok bool) {
	low, high := 0, len(s.days)
	if high > 0 && s.days[high-1].at < at {
		return high, false
	}
	for low < high {
		mid := (low + high) / 2
		if s.days[mid].at < at {
			low = mid + 1
		} else {
			high = mid
		}
	}
	return low, low < len(s.days) && s.days[low].at == at
}

// inReach says whether a time lies within MaxDays of all others.
func (s *Series) inReach(wall int64) bool {
	d, _ := floor(wall, dayLength)
	if d < -MaxDays || d > 3*MaxDays {
		return false
	}
	n := len(s.days)
	return n == 0 || d-int64(s.days[0].at) < MaxDays && int64(s.days[n-1].at)-d < MaxDays
}

// place adds what a reading of a track covers, from a up to b in the order of
// the file. Of an energy each hour gets its share by time, and the shares sum to
// it exactly; of a power what it comes to in that time. sign −1 takes it away
// again.
func (s *Series) place(track int, a, b, figure, sign int64, marks record.Marks) {
	if s.dir < 0 {
		a, b = -b, -a
	}
	power := s.tracks[track].quantity == Power
	whole, begin, given := b-a, a, int64(0)
	if !power && whole >= record.Whole && b > s.hourAt(a).to {
		marks |= record.Spread
	}
	for a < b {
		end := min(b, s.hourAt(a).to)
		h := s.hourOf(track)
		h.covered += int32(sign * (end - a))
		h.marks |= marks
		switch {
		case power:
			h.addPower(figure, sign*(end-a))
		case end == b:
			h.energy += sign * (figure - given)
		default:
			upTo := share(figure, end-begin, whole)
			h.energy += sign * (upTo - given)
			given = upTo
		}
		a = end
	}
}

// addPower adds a power over some time.
func (h *hour) addPower(figure, length int64) {
	const small = 1 << 39 // half a megawatt; an hour is less than 2^22 ms
	if figure < small && figure > -small {
		if h.rest += figure * length; h.rest > 1<<61 || h.rest < -1<<61 {
			h.carry()
		}
		return
	}
	h.carry()
	n, negative := uint64(figure), figure < 0
	if negative {
		n = -n
	}
	if length < 0 {
		length, negative = -length, !negative
	}
	high, low := bits.Mul64(n, uint64(length))
	q, r := bits.Div64(high%record.Whole, low, record.Whole) // maxRate keeps overflow out
	if negative {
		h.energy -= int64(q)
		h.rest -= int64(r)
	} else {
		h.energy += int64(q)
		h.rest += int64(r)
	}
	h.carry()
}

// carry leaves less than a µWh in rest, and not less than nothing.
func (h *hour) carry() {
	q, r := floor(h.rest, record.Whole)
	h.energy += q
	h.rest = r
}

// share gives figure · part / whole, cut toward zero; part is less than whole.
func share(figure, part, whole int64) int64 {
	n := uint64(figure)
	if figure < 0 {
		n = -n
	}
	high, low := bits.Mul64(n, uint64(part))
	q, _ := bits.Div64(high, low, uint64(whole))
	if figure < 0 {
		return -int64(q)
	}
	return int64(q)
}
