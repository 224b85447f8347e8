package metered

import (
	"math"
	"slices"

	"splittally/calc/calendar"
	"splittally/calc/energy"
)

// link is a bill of a chain, or several that were found to be one period.
type link struct {
	row
	from, to int // rows
}

// chain is bills that follow one another, n of them, and the n + 1 reads at
// their ends.
type chain struct {
	links []link
	days  []calendar.Day // of each read: the last date before it
	// ahead is by how much the bills before a read are ahead of the record, and
	// low and high how far the read may be from its midnight: the energy of the
	// day before, below zero, and of the day after.
	ahead, low, high []energy.Energy
	slack            energy.Energy // what rounding leaves of each
}

// chains looks for reads that were not taken at the midnights that the dates say.
func (s *sheet) chains() {
	links := s.links()
	for from := 0; from < len(links); {
		to := from + 1
		for to < len(links) && links[to].Span.First == links[to-1].Span.End && s.chain(links[from:to+1]).fits() {
			to++
		}
		if c := s.chain(links[from:to]); c.isOpen() && c.fits() {
			s.judge(c)
		}
		from = to
	}
}

// links gives the bills that reads can be told from: not those that are net, or
// in other kilowatt-hours, or whose days the record lacks.
func (s *sheet) links() (out []link) {
	for i := 0; i < len(s.rows); i++ {
		switch s.rows[i].kind {
		case Waits, Net, Losses, Multiplier:
			continue
		case Split, Estimated:
			j := i
			for f := s.groupOf(i); j+1 < len(s.rows) && s.groupOf(j+1) == f; {
				j++
			}
			out = append(out, link{s.whole(i, j), i, j})
			i = j
			continue
		}
		out = append(out, link{s.rows[i], i, i})
	}
	return out
}

// groupOf gives the finding that a row is in, -1 for none.
func (s *sheet) groupOf(i int) int {
	for k, f := range s.found {
		if slices.Contains(f.Bills, s.rows[i].Index) {
			return k
		}
	}
	return -1
}

func (s *sheet) chain(links []link) chain {
	c := chain{links: links}
	first := links[0]
	c.addRead(s, first.row, first.Span.First-1, 0)
	ahead := energy.Energy(0)
	for _, l := range links {
		ahead += l.differs()
		c.slack = max(c.slack, l.within)
		c.addRead(s, l.row, l.Span.Last(), ahead)
	}
	return c
}

func (c *chain) addRead(s *sheet, r row, day calendar.Day, ahead energy.Energy) {
	usual := 2 * r.metered / energy.Energy(r.Span.Days()) // of a day that the record lacks
	before, isBefore := s.day(day)
	after, isAfter := s.day(day + 1)
	if !isBefore {
		before = usual
	}
	if !isAfter {
		after = usual
	}
	c.days, c.ahead = append(c.days, day), append(c.ahead, ahead)
	c.low, c.high = append(c.low, -before), append(c.high, after)
}

// isOpen says that something is to be explained.
func (c chain) isOpen() bool {
	return slices.ContainsFunc(c.links, func(l link) bool { return l.open() })
}

// room gives between what the first read can be apart from its midnight, so that
// every read is within a day of its own.
func (c chain) room() (low, high energy.Energy) {
	low, high = math.MinInt64/2, math.MaxInt64/2
	for k, a := range c.ahead {
		low, high = max(low, c.low[k]-a), min(high, c.high[k]-a)
	}
	return low, high
}

func (c chain) fits() bool {
	low, high := c.room()
	return low <= high+2*c.slack
}

// judge tells what reads a chain shows.
func (s *sheet) judge(c chain) {
	if start, still := c.still(); still >= 2 && 2*still > len(c.days) {
		s.single(c, start)
		return
	}
	if by := c.allOff(); by != nil {
		f := Finding{Kind: DayOff, Sure: true, Reads: s.reads(c, by[0])}
		f.Hour = 48
		if by[0] < 0 {
			f.Hour = 0
		}
		f.Early, f.Late, f.From, f.Till = f.Hour, f.Hour, f.Hour, f.Hour
		s.mark(c, f)
		last := &s.found[len(s.found)-1]
		last.Words = allOffWords(*last)
		return
	}
	f := s.alike(c)
	f.Words = inDayWords(f, c)
	s.mark(c, f)
}

// allOff gives how far each read is from its midnight if all are a whole day early,
// or all a whole day late; nil if neither is so. That n reads fit to a rounding
// with one unknown takes three at least.
func (c chain) allOff() []energy.Energy {
	if len(c.days) < 3 {
		return nil
	}
	for _, side := range [][]energy.Energy{c.low, c.high} {
		fits := true
		for k, a := range c.ahead {
			fits = fits && (side[0]+a-side[k]).Abs() <= c.slack
		}
		if fits {
			return side
		}
	}
	return nil
}

// mark adds a finding of all bills of a chain that are not explained yet.
func (s *sheet) mark(c chain, f Finding) {
	for _, l := range c.links {
		for k := l.from; k <= l.to; k++ {
			if s.rows[k].open() {
				s.rows[k].kind = f.Kind
				f.Bills = append(f.Bills, s.rows[k].Index)
			}
		}
	}
	s.found = append(s.found, f)
}

// still gives for the first read the energy from its midnight that leaves most
// reads at theirs, and how many.
func (c chain) still() (start energy.Energy, most int) {
	for _, a := range c.ahead {
		n := 0
		for _, b := range c.ahead {
			if (b - a).Abs() <= c.slack {
				n++
			}
		}
		if n > most {
			start, most = -a, n
		}
	}
	return start, most
}

// reads gives the reads of a chain whose first one is so far from its midnight.
func (s *sheet) reads(c chain, start energy.Energy) []Read {
	out := make([]Read, len(c.days))
	for k, day := range c.days {
		out[k] = s.read(day, start+c.ahead[k])
	}
	return out
}

// read gives the hour at which the record is so far from the midnight after a
// day.
func (s *sheet) read(day calendar.Day, apart energy.Energy) Read {
	r := Read{Day: day, Apart: apart}
	of, from := day, 0.0
	if apart > 0 {
		of, from = day+1, 24
	}
	total, known := s.day(of)
	gone := apart
	if apart <= 0 {
		gone += total
	}
	switch {
	case !known || total <= 0:
		r.Hour = 24
		return r
	case gone <= 0:
		r.Hour, r.Sharp = from, true
		return r
	case gone >= total:
		r.Hour, r.Sharp = from+24, true
		return r
	}
	r.Hour = from + 24*float64(gone)/float64(total)
	for _, slot := range s.record.On(of) {
		if gone < slot.Energy {
			r.Hour = from + (float64(slot.From)+float64(slot.To-slot.From)*float64(gone)/float64(slot.Energy))/60
			r.Sharp = true
			break
		}
		gone -= slot.Energy
	}
	return r
}

// single tells of the reads of a chain that are off where most are at midnight.
func (s *sheet) single(c chain, start energy.Energy) {
	for k, r := range s.reads(c, start) {
		if r.Apart.Abs() <= c.slack {
			continue
		}
		f := Finding{Kind: InDay, Reads: []Read{r}, Hour: r.Hour, Early: r.Hour, Late: r.Hour}
		if (r.Apart-c.low[k]).Abs() <= c.slack || (r.Apart-c.high[k]).Abs() <= c.slack {
			f.Kind, f.Sure = DayOff, k > 0 && k < len(c.links)
		}
		for _, at := range []int{k - 1, k} {
			if at < 0 || at >= len(c.links) {
				continue
			}
			for i := c.links[at].from; i <= c.links[at].to; i++ {
				if s.rows[i].open() {
					s.rows[i].kind = f.Kind
					f.Bills = append(f.Bills, s.rows[i].Index)
				}
			}
		}
		if len(f.Bills) > 0 {
			f.Words = singleWords(f, k == 0 || k == len(c.links))
			s.found = append(s.found, f)
		}
	}
}
