package series

import (
	"slices"

	"splittally/calc/record"
)

// gap is a stretch that no reading of a track covers, in true time in the order
// of the file. The first of a track comes from ever ago, the last goes on for
// ever; without readings they are one.
type gap struct {
	from, to      int64
	before, after int64 // a register's reads at its ends
	known         bool  // the register's difference over it is in energy
	energy        int64
}

// MaxGaps is how many gaps are kept, of all channels together. Those that came
// after are counted; a late reading of one is taken for covered.
const MaxGaps = 50_000

// track is one channel and what of the time it covers.
type track struct {
	quantity Quantity
	channel  Channel
	gaps     []gap // in order
	cur      int   // the one at whose beginning the last reading lies, unless it joined
	joined   bool  // the last reading left nothing of its gap
	maxGaps  int
	more     int // gaps that were not kept

	begun  bool
	tau    int64 // true time of the last reading
	figure int64
	began  int64 // where its interval begins
	length int64 // of the last interval
	// open says that the last reading, an energy, waits for its other end.
	open bool
	fell int // reads of the register that fell, one after another

	held  int          // cur when the last reading was taken: its interval ends there
	marks record.Marks // of the last reading
	rate  int64        // the fastest advance of the register, µWh an hour
	late  late
}

func (t *track) start(c Channel, maxGaps int) {
	t.quantity, t.channel, t.maxGaps = c.Quantity, c, maxGaps
	t.gaps = []gap{{from: -ever, to: ever}}
}

// find makes cur the gap that has a time: from <= at < to.
func (t *track) find(at int64) bool {
	if g := &t.gaps[t.cur]; g.from <= at && at < g.to {
		return true
	}
	low, high := 0, len(t.gaps)-1
	for low < high { // the last gap that begins before it
		mid := (low + high + 1) / 2
		if t.gaps[mid].from <= at {
			low = mid
		} else {
			high = mid - 1
		}
	}
	if at >= t.gaps[low].to {
		return false
	}
	t.cur = low
	return true
}

// findEnd makes cur the gap that has the time before a stamp, if stamps are
// ends, or else the time after it.
func (t *track) findEnd(at int64, ends bool) bool {
	if ends {
		at--
	}
	return t.find(at)
}

// cover takes [a, b) out of the gap cur, within which it lies. What is left
// before it becomes a gap of its own, and cur is what is left behind it.
func (t *track) cover(a, b int64) {
	g := &t.gaps[t.cur]
	if a > g.from {
		t.split(a)
		g = &t.gaps[t.cur]
	}
	g.from = b
	t.join()
}

// join leaves out the gap cur if nothing is left of it.
func (t *track) join() {
	if t.joined = t.gaps[t.cur].from >= t.gaps[t.cur].to; t.joined {
		t.gaps = slices.Delete(t.gaps, t.cur, t.cur+1)
		t.cur--
	}
}

// split parts the gap cur at a time; cur is the second part.
// It is false if there are too many gaps: then what was before is not kept.
func (t *track) split(at int64) bool {
	if len(t.gaps) >= t.maxGaps && t.gaps[t.cur].from > -ever {
		t.more++
		t.gaps[t.cur].from = at
		return false
	}
	rest := t.gaps[t.cur]
	t.gaps[t.cur].to, rest.from = at, at
	t.cur++
	t.gaps = slices.Insert(t.gaps, t.cur, rest)
	return true
}

// move moves the times before one.
func (t *track) move(before, by int64) {
	for i := range t.gaps {
		g := &t.gaps[i]
		if g.from <= before && g.from > -ever {
			g.from += by
		}
		if g.to <= before {
			g.to += by
		}
	}
	t.tau += by
	t.began += by
}
