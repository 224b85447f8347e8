package espi

import (
	"splittally/calc/calendar"
	"splittally/calc/record"
	"splittally/calc/series"
)

// track is the readings of one MeterReading, as they are added up.
type track struct {
	key   string // the path of the MeterReading, or of what stands for it
	meter int    // the MeterReading that was met last when it began; −1 if none
	typed *readingType

	factor  int64 // of its figures; see scale
	sums    []sum // one for each quantity that they may be
	shift   int64 // seconds by which its times are ahead of UTC, less than an hour
	step    int64 // seconds
	waiting []block

	readings  int
	total     int64 // of all figures, repeated ones too, times factor
	large     bool  // it did not fit
	first     int64 // seconds; the earliest start
	end       int64 // the latest end
	digit     int64 // the largest power of ten that divides all figures
	lost      int   // readings without a time
	qualities [20]int
	cost      int64
	costs     int
	starts    []int64 // of its first blocks
	asUTC     int     // blocks whose title says the time of their start in UTC
	titles    int     // blocks whose title says a time
	shown     []reading
	long      []int64 // starts of readings of a day or more
}

// sum adds up the readings of a track as one quantity.
type sum struct {
	is     series.Quantity
	series *series.Series
	// times says that powers are handed over as energies, since the feed tells how
	// long each lasts; rest is what of them is not yet a whole unit, times seconds.
	times bool
	rest  int64
}

const (
	maxStarts = 64
	maxShown  = 6
	maxLong   = series.MaxDays
	maxCost   = 1e12             // of one reading: ten million of a currency
	earliest  = 365 * daySeconds // start of a reading: package calendar begins in 1970
	latest    = 7.2e9            // and ends in 2199
	longest   = 366 * daySeconds // length of a reading

	shortestDay = 23 * hourSeconds
)

// trackOf gives the track of the block that begins, and makes it if there is
// none yet.
func (r *Reader) trackOf() *track {
	key, near := r.keyOf()
	for _, t := range r.tracks {
		if t.key == key && (key != "" || t.meter == near) {
			return t
		}
	}
	if len(r.tracks) == maxTracks {
		r.dropped++
		return &track{key: key, meter: near, factor: 1} // which is never looked at
	}
	t := &track{key: key, meter: near}
	if m := r.linkedMeter(t); m >= 0 {
		if i := r.linkedType(&r.meters[m].place); i >= 0 {
			t.typed = r.copyOf(i)
		}
	}
	r.tracks = append(r.tracks, t)
	return t
}

// copyOf copies a type, whose fields may not be complete as long as its element
// is open: then it is nil.
func (r *Reader) copyOf(i int) *readingType {
	for d := range r.depth {
		if r.path[d] == readingTypeElement {
			return nil
		}
	}
	c := r.types[i]
	return &c
}

// keyOf gives what tells the block's MeterReading from others: the path before
// IntervalBlock in its links; or what they point at; or, if it has no links, the
// MeterReading that was met last.
func (r *Reader) keyOf() (key string, near int) {
	near = len(r.meters) - 1
	e := &r.entry
	for _, path := range []string{e.self, e.up} {
		if owner := ownerOf(path, "IntervalBlock"); owner != "" {
			return owner, near
		}
	}
	for i := range r.meters {
		m := &r.meters[i]
		if m.has(e.self) || m.has(e.up) || e.up != "" && m.self == e.up || e.has(m.self) {
			return m.self, i
		}
	}
	return e.up, near
}

// begin makes the sums of a track when its first reading comes.
func (t *track) begin(r *Reader, x *reading) {
	t.first, t.end, t.digit = x.start, x.start+x.length, 1e9
	t.step = x.length
	if t.step == 0 && t.typed != nil {
		t.step = t.typed.length
	}
	t.shift = r.shiftOf(x.start)
	may := []series.Quantity{series.Energy, series.Power, series.Register}
	if t.typed != nil {
		quantity, why := t.typed.quantity()
		may = []series.Quantity{quantity}
		if why != "" {
			may = nil
		}
	}
	for _, q := range may {
		s := sum{is: q, times: q == series.Power && t.step > 0}
		if s.times {
			q = series.Energy
		}
		s.series = series.New([]series.Channel{{Quantity: q}}, series.Options{Step: t.step * 1000, Zoned: true})
		t.sums = append(t.sums, s)
	}
}

// energy gives what a power comes to in a time, in seconds. What a division by the
// hour leaves goes to the next, so that the sum is exact. ok is false if it is
// too large.
func (s *sum) energy(power, length int64) (e int64, ok bool) {
	if most := int64(1<<62) / (length + 1); power > most || power < -most {
		return 0, false
	}
	n := power*length + s.rest
	e, s.rest = calendar.Floor(n, hourSeconds)
	return e, true
}

// add adds a reading.
func (t *track) add(r *Reader, x *reading) {
	if x.start < earliest || x.start > latest || x.length < 0 || x.length > longest {
		t.lost++
		return
	}
	if t.readings == 0 {
		t.begin(r, x)
	}
	t.readings++
	if x.quality < 0 && t.typed != nil {
		x.quality = t.typed.quality
	}
	if x.quality >= 0 && x.quality < len(t.qualities) {
		t.qualities[x.quality]++
	}
	t.first, t.end = min(t.first, x.start), max(t.end, x.start+x.length)
	if x.hasCost && x.cost < maxCost && x.cost > -maxCost {
		t.cost += x.cost
		t.costs++
	}
	if x.length >= shortestDay && len(t.long) < maxLong {
		t.long = append(t.long, x.start)
	}
	if len(t.shown) < maxShown {
		t.shown = append(t.shown, *x)
	}
	wall := (x.start + t.shift) * 1000
	if !x.hasFigure {
		t.odd(record.NoFigure, wall)
		return
	}
	if x.isFiner {
		t.odd(record.Finer, wall)
	}
	t.count(x.figure)
	row := series.Row{Wall: wall, Figures: r.figures[:], Have: 1}
	if estimated(x.quality) {
		row.Marks = record.Estimated
	}
	for i := range t.sums {
		s := &t.sums[i]
		row.Wall, row.Length = wall, 0
		if x.length != t.step {
			row.Length = x.length * 1000
		}
		r.figures[0] = x.figure
		switch length := x.length; {
		case s.is == series.Register && !r.readsAtStart():
			row.Wall += length * 1000
		case s.times:
			if length == 0 {
				length = t.step
			}
			var ok bool
			if r.figures[0], ok = s.energy(x.figure, length); !ok {
				s.series.Odd(record.TooLarge, 0, wall)
				continue
			}
		}
		s.series.Add(&row)
	}
}

// count takes a figure into the total and into what tells its last digit.
func (t *track) count(figure int64) {
	sum := t.total + figure
	t.large = t.large || figure > 0 && sum < t.total || figure < 0 && sum > t.total
	t.total = sum
	for t.digit > 1 && figure%t.digit != 0 {
		t.digit /= 10
	}
}

func (t *track) odd(kind record.Kind, wall int64) {
	for i := range t.sums {
		t.sums[i].series.Odd(kind, 0, wall)
	}
}

// begins notes where a block begins.
func (t *track) begins(start int64) {
	if len(t.starts) < maxStarts {
		t.starts = append(t.starts, start)
	}
}

// titled compares the time that the title of a block says, if any, with that of
// its start in UTC.
func (t *track) titled(title string, start int64) {
	said, ok := timeIn(title)
	if !ok {
		return
	}
	t.titles++
	if said == start {
		t.asUTC++
	}
}
