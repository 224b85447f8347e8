package series

import (
	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/record"
)

// Sums is what a series came to.
type Sums struct {
	// First is the first day of all channels, and Channels has their days from
	// it on, without holes and as many for each: none if no reading covers
	// anything.
	First    calendar.Day
	Channels [][]record.Day
	Gaps     []record.Gap
	MoreGaps int
	Oddities []record.Oddity
	Rows     int // readings, of all channels together
}

// Done ends the series. Nothing may be added after it.
func (s *Series) Done() Sums {
	if !s.told {
		s.release()
	}
	s.noPairs()
	for i := range s.tracks {
		s.settle(i)
		if s.tracks[i].open {
			s.close(i, s.tracks[i].length)
		}
	}
	s.dropStrays()
	for i := range s.tracks {
		s.spread(i)
	}
	s.trim()
	sums := Sums{Rows: s.rows, Oddities: s.odds, Channels: make([][]record.Day, len(s.tracks))}
	sums.Gaps, sums.MoreGaps = s.listGaps()
	if len(s.days) == 0 {
		return sums
	}
	sums.First = s.days[0].at
	for i := range s.tracks {
		sums.Channels[i] = s.sum(i)
	}
	return sums
}

// sum gives the days of a track. What a power's hour has beyond a whole µWh is
// handed on to the next, so that all hours together are less than one short.
func (s *Series) sum(track int) []record.Day {
	first := s.days[0].at
	days := make([]record.Day, int(s.days[len(s.days)-1].at-first)+1)
	rest := int64(0)
	put := func(to *record.Hour, from *hour) {
		from.carry()
		rest += from.rest
		to.Energy = energy.Energy(from.energy)
		if rest >= record.Whole {
			rest -= record.Whole
			to.Energy++
		}
		to.Covered = min(from.covered, record.Whole)
		to.Marks = from.marks
	}
	for _, d := range s.days {
		day := &days[d.at-first]
		day.Turn, day.TurnAt = d.turn, d.turnAt
		for h := range 24 {
			put(&day.Hours[h], &d.hours[track*24+h])
			if d.again != nil && d.turn > 0 && int(d.turnAt) == h {
				put(&day.Again, &d.again[track])
			}
		}
	}
	return days
}

// trim drops days without readings from both ends.
func (s *Series) trim() {
	for len(s.days) > 0 && !s.days[0].covered() {
		s.days = s.days[1:]
	}
	for n := len(s.days); n > 0 && !s.days[n-1].covered(); n-- {
		s.days = s.days[:n-1]
	}
}

func (d *day) covered() bool {
	for i := range d.hours {
		if d.hours[i].covered != 0 {
			return true
		}
	}
	for i := range d.again {
		if d.again[i].covered != 0 {
			return true
		}
	}
	return false
}

// farDays is how many days without readings make what lies beyond a stray, if
// it is little: see dropStrays.
const farDays = 400

// dropStrays leaves out the few readings that lie years from all others.
func (s *Series) dropStrays() {
	kept := s.days[:0]
	for _, d := range s.days {
		if d.rows > 0 || d.turn != 0 || d.covered() { // a long reading covers days in which none begins
			kept = append(kept, d)
		}
	}
	most := 0
	clusters(kept, func(_, _, rows int) { most = max(most, rows) })
	var days []*day
	clusters(kept, func(from, to, rows int) {
		if rows >= most/100 {
			days = append(days, kept[from:to]...)
			return
		}
		s.rows -= rows
		n := rows
		for _, j := range s.jumps {
			if d, _ := floor(j.wall, dayLength); d >= int64(kept[from].at) && d <= int64(kept[to-1].at) {
				s.odd(Stray, j.line, j.wall, 1)
				n--
			}
		}
		if n > 0 {
			s.odd(Stray, 0, int64(kept[from].at)*dayLength, n)
		}
	})
	s.days, s.now, s.printDay = days, hourRef{}, nil
}

// clusters gives the days that lie together, and how many readings they have.
func clusters(days []*day, have func(from, to, rows int)) {
	from, rows := 0, 0
	for i, d := range days {
		if i > from && d.at-days[i-1].at > farDays {
			have(from, i, rows)
			from, rows = i, 0
		}
		rows += d.rows
	}
	if len(days) > from {
		have(from, len(days), rows)
	}
}

// within says whether a true time, in the order of the file, is of the days
// that are kept.
func (s *Series) within(tau int64) bool {
	u := s.dir * tau
	off, _, _, _ := s.segment(u)
	d, rest := floor(u+off, dayLength)
	_, ok := s.findDay(calendar.Day(d))
	if !ok && rest == 0 { // the end of the day before
		_, ok = s.findDay(calendar.Day(d - 1))
	}
	return ok
}

// spread spreads what a register advanced over each gap evenly.
func (s *Series) spread(track int) {
	for _, g := range s.tracks[track].gaps {
		if g.known && s.within(g.from) && s.within(g.to) {
			s.place(track, g.from, g.to, g.energy, 1, record.Spread)
		}
	}
}

// listGaps gives the gaps that all tracks have in common, in order of time.
func (s *Series) listGaps() (list []record.Gap, more int) {
	if len(s.tracks) == 0 {
		return nil, 0
	}
	common := s.tracks[0].gaps
	for i := range s.tracks[1:] {
		common = both(common, s.tracks[i+1].gaps)
	}
	for k := range common {
		g := common[k]
		if s.dir < 0 {
			g = common[len(common)-1-k]
		}
		if g.from == -ever || g.to == ever || !s.within(g.from) || !s.within(g.to) {
			continue
		}
		if len(list) == record.MaxGaps {
			more++
			continue
		}
		from, to := g.from, g.to
		if s.dir < 0 {
			from, to = -to, -from
		}
		before, _, _, _ := s.segment(from - 1)
		after, _, _, _ := s.segment(to)
		list = append(list, record.Gap{
			From: from + before, To: to + after, Length: to - from,
			Energy: energy.Energy(g.energy), Known: g.known,
		})
	}
	return list, more + s.tracks[0].more
}

// both gives what two lists of gaps have in common, with the energies of the
// first.
func both(a, b []gap) []gap {
	var list []gap
	for i, k := 0, 0; i < len(a) && k < len(b); {
		g := a[i]
		g.from, g.to = max(g.from, b[k].from), min(g.to, b[k].to)
		if g.from < g.to {
			list = append(list, g)
		}
		if a[i].to < b[k].to {
			i++
		} else {
			k++
		}
	}
	return list
}
