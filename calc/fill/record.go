package fill

import (
	"splittally/calc/calendar"
	"splittally/calc/ledger"
)

// record is the part of a ledger that an estimate looks at, as floats. Days
// are indices; the period is [start, end), and only [lo, hi) is looked at.
type record struct {
	first      calendar.Day
	kWh        []float64
	known      []bool // Measured or Spread, and not blanked
	whole      []bool // Measured: fit to be blanked in a trial
	start, end int
	lo, hi     int
	gap        []int     // the days to be filled
	share      []float64 // of each day of gap: the part that is missing, 0 to 1
}

// reach is how many days to each side of the period are looked at.
const reach = 60

// newRecord takes out of the ledger the period and what lies within reach of
// it, and further only if that holds no known day.
func newRecord(r Request) *record {
	all := r.Ledger.Span()
	window := calendar.Span{First: r.Span.First - reach, End: r.Span.End + reach}
	if r.Ledger.Count(window, ledger.Measured)+r.Ledger.Count(window, ledger.Spread) == 0 {
		window = calendar.Span{First: min(all.First, window.First), End: max(all.End, window.End)}
	}
	n := window.Days()
	rec := &record{
		first: window.First,
		kWh:   make([]float64, n), known: make([]bool, n), whole: make([]bool, n),
		start: int(r.Span.First - window.First), end: int(r.Span.End - window.First),
		hi: n,
	}
	for t := range rec.kWh {
		e := r.Ledger.At(rec.first + calendar.Day(t))
		rec.known[t], rec.whole[t] = known(e.State), e.State == ledger.Measured
		if rec.known[t] {
			rec.kWh[t] = e.Energy.KilowattHours()
		}
		if t >= rec.start && t < rec.end && !rec.known[t] {
			rec.gap = append(rec.gap, t)
			rec.share = append(rec.share, missingShare(e))
		}
	}
	return rec
}

// missingShare gives the part of a day that has to be estimated.
func missingShare(e ledger.Entry) float64 {
	if e.State != ledger.Partial {
		return 1
	}
	return min(1, max(0, 1-e.Hours/24))
}

// count says how many days of [lo, hi) are known.
func (rec *record) count(lo, hi int) int {
	n := 0
	for _, k := range rec.known[lo:hi] {
		if k {
			n++
		}
	}
	return n
}

// before gives the nearest known day before t, or less than lo.
func (rec *record) before(t int) int {
	for t--; t >= rec.lo && !rec.known[t]; t-- {
	}
	return t
}

// after gives the nearest known day after t, or hi.
func (rec *record) after(t int) int {
	for t++; t < rec.hi && !rec.known[t]; t++ {
	}
	return t
}

// nearest gives the mean of the n known days nearest to t, fewer if there are
// fewer. Of two equally near the earlier one counts first.
func (rec *record) nearest(t, n int) float64 {
	sum, found := 0.0, 0
	for h := 1; found < n && (t-h >= rec.lo || t+h < rec.hi); h++ {
		for _, s := range [2]int{t - h, t + h} {
			if s >= rec.lo && s < rec.hi && rec.known[s] && found < n {
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
