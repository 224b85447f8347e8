// Package series adds readings up as they come, into hours by the local clock,
// in memory that does not grow with their number.
//
// The step before is a reader of a file (packages table and espi), which hands
// over each reading once, in the order of the file; the step after is a
// record.Record.
//
// What a reading covers:
//
//   - An energy covers one step, [t, t + step), or [t − step, t) if stamps are
//     ends. A stamp up to a quarter of a step early or late is taken as even.
//   - A power covers one step too, but where readings come a little unevenly it
//     holds until the next one, less than one and three quarters of a step away:
//     two steps are a reading that lacks, and a gap.
//   - A register's difference covers the time since the read before. Over more
//     than one and a half steps it is known only as a whole: a gap whose energy
//     is Known, spread evenly over its hours, which are marked Spread.
//   - Without an even spacing a power holds until the next reading, or from the
//     one before, up to an hour; an energy up to two hours, and one that has no
//     neighbour is as long as the one beside it; a register does not care, but
//     more than two hours are a gap.
//
// Readings may come in any order, the latest first or in blocks. Times that
// were covered before are left out and counted.
//
// Memory: 600 bytes for each day and channel that has readings, up to 6 kB more
// (and 16 MB in all) to tell a repeated reading from a contradicting one, and 48
// bytes for each gap, of which 50,000 are kept. Days span at most MaxDays.
package series

import (
	"splittally/calc/energy"
	"splittally/calc/record"
)

// Quantity is what the figures of a channel are.
type Quantity uint8

// The quantities, with the unit of the integers that are handed over.
const (
	Energy   Quantity = iota // energy of the interval, µWh
	Power                    // mean power over the interval, µW
	Register                 // a counter that runs on, µWh
)

// Channel says what is handed over for one channel.
type Channel struct {
	Quantity Quantity
	// Rounding is half of the last digit of one figure, in the figure's unit.
	Rounding energy.Energy
	// Modulus is where a register rolls over, in µWh; 0 if that is not known.
	Modulus energy.Energy
}

// Options is how times are to be understood.
type Options struct {
	// Step is the usual spacing in milliseconds, as the head of the file shows
	// it; 0 if readings have no even spacing.
	Step int64
	// Ends says that a stamp is the end of its interval.
	Ends bool
	// Zoned says that readings come with the offset of their clock; else an hour
	// that comes twice or never is told from the order of the readings.
	Zoned bool
}

// MaxChannels is how many channels a Series can have, MaxDays how many days may
// lie between its first and its last.
const (
	MaxChannels = 64
	MaxDays     = 36525
)

// Series adds up the readings of one or more channels. New makes one.
type Series struct {
	tracks []track
	all    uint64 // a bit for each track
	step   int64
	near   int64 // how far from even a stamp may be
	ends   bool  // a stamp is the later end of its interval, in the order of dir
	zoned  bool
	starts bool // stamps are the earlier ends of intervals, whatever dir

	// Inside, times are true: they run on through changes of the clock. They run
	// in the order of the file: dir is −1, and times are turned, if the latest
	// comes first.
	dir  int64
	head []Row // the first rows, until dir is known
	told bool  // dir is known

	begun   bool
	wall    int64 // of the row before, by its clock
	tau     int64 // of the row before, true
	off     int64 // its offset in milliseconds: wall − true
	turns   []turn
	base    int64 // the offset before the first turn
	south   int   // 1 if clocks were seen to change as in the south, −1 as in the north
	pairs   pairs
	doubled int64 // the last time by the clock that came twice in a row

	now      hourRef
	days     []*day
	printDay *day
	prints   int // bytes that are still to be spent on fingerprints

	rows  int
	run   []int64 // room for Run
	jumps []jump  // to far away, which may be strays
	last  int     // the last line
	odds  []record.Oddity
}

// New starts a series of up to MaxChannels channels.
func New(channels []Channel, o Options) *Series {
	s := &Series{step: max(0, o.Step), ends: o.Ends, starts: !o.Ends, zoned: o.Zoned, dir: 1, prints: 16 << 20}
	s.near = s.step / 4
	s.tracks = make([]track, min(len(channels), MaxChannels))
	for i := range s.tracks {
		s.tracks[i].start(channels[i], MaxGaps/len(s.tracks))
	}
	s.all = 1<<len(s.tracks) - 1
	return s
}

// Row is one row of readings.
type Row struct {
	// Wall is the stamp by the local clock, in milliseconds counted from
	// 1970-01-01 00:00 as if no clock were ever changed.
	Wall int64
	// Offset is the clock's, in seconds east of UTC, if Options.Zoned.
	Offset int
	// Length is that of the interval in milliseconds; 0 is the usual one.
	Length  int64
	Line    int     // from 1; 0 for a feed
	Figures []int64 // one for each channel
	Have    uint64  // bit i is set if Figures[i] is a figure
	Marks   record.Marks
}

// Add adds a row. It keeps nothing of r.
func (s *Series) Add(r *Row) {
	if r.Have&s.all == 0 {
		return
	}
	if !s.told {
		s.hold(r)
		return
	}
	s.add(r)
}

// headRows is how many rows tell whether the latest reading comes first.
const headRows = 5

// hold keeps one of the first rows, and adds them all when they tell their order.
func (s *Series) hold(r *Row) {
	s.head = append(s.head, copied(r))
	if len(s.head) == headRows {
		s.release()
	}
}

// release adds the rows that were held.
func (s *Series) release() {
	s.told = true
	rising := 0
	for i := 1; i < len(s.head); i++ {
		before, after := &s.head[i-1], &s.head[i]
		switch d := after.Wall - before.Wall; {
		case d > 0:
			rising++
		case d < 0:
			rising--
		}
	}
	if rising < 0 {
		s.dir, s.ends = -1, !s.ends
	}
	for i := range s.head {
		s.add(&s.head[i])
	}
	s.head = nil
}

// jump is a row years from the one before or behind.
type jump struct {
	wall int64
	line int
}

func (s *Series) add(r *Row) {
	if s.quick(r) {
		return
	}
	if !s.inReach(r.Wall) {
		s.Odd(Stray, r.Line, r.Wall)
		return
	}
	if far := r.Wall - s.wall; s.begun && (far > farDays*dayLength || far < -farDays*dayLength) {
		s.jumped(s.wall, s.last)
		s.jumped(r.Wall, r.Line)
	}
	s.last = r.Line
	if s.zoned {
		s.addZoned(r)
	} else {
		s.addLocal(r)
	}
}

// jumped notes a row from or to which the time jumps by years.
func (s *Series) jumped(wall int64, line int) {
	n := len(s.jumps)
	if n < 2*record.MaxLines && (n == 0 || s.jumps[n-1].line != line) {
		s.jumps = append(s.jumps, jump{wall, line})
	}
}

// take hands a row, whose offset is known, to its tracks.
func (s *Series) take(r *Row, off int64) {
	tau := s.dir * (r.Wall - off)
	if s.begun && tau < s.tau {
		s.Odd(record.Disorder, r.Line, r.Wall)
	}
	s.begun, s.wall, s.tau, s.off = true, r.Wall, tau, off
	for i := range s.tracks {
		if r.Have>>i&1 != 0 {
			s.rows++
			s.read(i, tau, r)
		}
	}
}
