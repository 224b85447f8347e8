package fill

import (
	"slices"

	"splittally/calc/calendar"
	"splittally/calc/ledger"
)

// record is the part of a ledger that an estimate looks at, as floats. Days
// are indices; the period is [start, end).
type record struct {
	first      calendar.Day
	kWh        []float64
	known      []bool // Measured, Spread or mostly covered, and not blanked
	whole      []bool // Measured or mostly covered: fit to be blanked in a trial
	start, end int
	gap        []int     // the days to be filled, ascending, but those in slight
	share      []float64 // of each day of gap: the part that is missing, 0 to 1
	last       *model    // the model last asked for, of the same kWh

	// What hours tell. All are nil if the ledger has no slots.
	below   bool      // some hours are below zero, so that energy is fed into the grid
	hours   []byHour  // of each day
	shape   *shape    // of the days
	noise   []float64 // variance of kWh, of each day; 0 if that was measured
	told    []bool    // days that are not known, but of which kWh and noise tell something
	tells   []*told   // of each day of gap, what its hours tell; nil if nothing
	slight  []int     // days of the period, not in gap, whose own hours tell all that there is to say
	slights []*told   // what those tell
}

// reach is how many days to each side of the period are looked at. It holds
// the four weeks of like days.
const reach = 30

// fewKnown is how many known days are looked for, further away if need be.
const fewKnown = 40

// newRecord takes out of the ledger the period and what lies within reach of
// it, and more if that holds few known days.
func newRecord(l ledger.Ledger, span calendar.Span) *record {
	window := calendar.Span{First: span.First - reach, End: span.End + reach}
	all := l.Span()
	for step := calendar.Day(reach); countUseful(l, window) < fewKnown; step *= 2 {
		if window.First <= all.First && window.End >= all.End {
			break
		}
		window.First, window.End = window.First-step, window.End+step
	}
	// Nothing lies beyond the ledger, but the period has to be inside.
	window.First = min(span.First, max(window.First, all.First))
	window.End = max(span.End, min(window.End, all.End))

	n := window.Days()
	rec := &record{
		first: window.First, kWh: make([]float64, n), known: make([]bool, n), whole: make([]bool, n),
		start: int(span.First - window.First), end: int(span.End - window.First),
	}
	for t := range rec.kWh {
		e := l.At(rec.first + calendar.Day(t))
		rec.known[t], rec.whole[t] = known(e.State), e.State == ledger.Measured
		if rec.known[t] {
			rec.kWh[t] = e.Energy.KilowattHours()
		}
	}
	rec.readHours(l)
	rec.findGap(l)
	return rec
}

// findGap sets gap and what goes with it.
func (rec *record) findGap(l ledger.Ledger) {
	all := rec.tellPartly(l)
	for t := rec.start; t < rec.end; t++ {
		e := l.At(rec.first + calendar.Day(t))
		switch {
		case known(e.State):
		case rec.known[t]:
			rec.slight, rec.slights = append(rec.slight, t), append(rec.slights, all[t])
		case all[t] != nil:
			rec.gap, rec.share, rec.tells = append(rec.gap, t), append(rec.share, 1), append(rec.tells, all[t])
		default:
			rec.gap, rec.share, rec.tells = append(rec.gap, t), append(rec.share, missingShare(e)), append(rec.tells, nil)
		}
	}
}

// known says whether a day of state s needs no filling.
func known(s ledger.State) bool { return s == ledger.Measured || s == ledger.Spread }

// countUseful counts the days of a span that tell something of others.
func countUseful(l ledger.Ledger, span calendar.Span) int {
	n := 0
	for d := span.First; d < span.End; d++ {
		e := l.At(d)
		if known(e.State) || e.State == ledger.Partial && len(l.Slots) > 0 && e.Hours >= usefulHours {
			n++
		}
	}
	return n
}

// usefulHours is how many covered hours make a day worth looking at.
const usefulHours = 12

// missingShare gives the part of a day that has to be estimated.
func missingShare(e ledger.Entry) float64 {
	if e.State != ledger.Partial || e.Hours <= 0 || e.Hours >= 24 {
		return 1
	}
	return 1 - e.Hours/24
}

// A model rests on no more known days than nearDays, or three for each missing
// day up to mostDays: its cost grows with their third power, and days further
// away add next to nothing.
const (
	nearDays = 60
	mostDays = 200
)

// nearby gives the known days that are nearest to the gap, ascending, with
// their energy.
func (rec *record) nearby() (at []int, kWh []float64) {
	most := min(mostDays, max(nearDays, 3*len(rec.gap)))
	far := make([]int, len(rec.known)) // distance to the gap
	count := make([]int, len(rec.known)+1)
	for t := range rec.known {
		if rec.serves(t) {
			far[t] = apart(t, nearestOf(rec.gap, t))
			count[far[t]]++
		}
	}
	// All that are nearer than limit, and of those at limit every so many.
	limit, room := 0, most
	for limit < len(count)-1 && count[limit] <= room {
		room -= count[limit]
		limit++
	}
	seen := 0
	for t := range rec.known {
		switch {
		case !rec.serves(t) || far[t] > limit:
			continue
		case far[t] == limit:
			seen++
			if seen*room/count[limit] == (seen-1)*room/count[limit] {
				continue
			}
		}
		at, kWh = append(at, t), append(kWh, rec.kWh[t])
	}
	return at, kWh
}

// serves says whether the model may rest on day t.
func (rec *record) serves(t int) bool { return rec.known[t] || rec.told != nil && rec.told[t] }

// nearestOf gives the one of days, which ascend, that is nearest to t.
func nearestOf(days []int, t int) int {
	i, found := slices.BinarySearch(days, t)
	switch {
	case found || i == 0:
		return days[i]
	case i == len(days) || t-days[i-1] <= days[i]-t:
		return days[i-1]
	}
	return days[i]
}

// before gives the nearest known day before t, or -1.
func (rec *record) before(t int) int {
	for t--; t >= 0 && !rec.known[t]; t-- {
	}
	return t
}

// after gives the nearest known day after t, or the number of days.
func (rec *record) after(t int) int {
	for t++; t < len(rec.known) && !rec.known[t]; t++ {
	}
	return t
}

// nearest gives the mean of the n known days nearest to t, fewer if there are
// fewer, and 0 if there is none. Of two equally near the earlier counts first.
func (rec *record) nearest(t, n int) float64 {
	sum, found := 0.0, 0
	for h := 1; found < n && (t-h >= 0 || t+h < len(rec.kWh)); h++ {
		for _, s := range [2]int{t - h, t + h} {
			if s >= 0 && s < len(rec.kWh) && rec.known[s] && found < n {
				sum += rec.kWh[s]
				found++
			}
		}
	}
	if found == 0 {
		return 0
	}
	return sum / float64(found)
}
