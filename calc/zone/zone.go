// Package zone turns points of time into readings of a local clock, and knows
// nothing of places: its rules come from a file itself or from the browser.
package zone

// Rules are the offsets of a local clock.
type Rules struct {
	Name    string   // as shown, such as "UTC−5 with summer time"
	Before  int      // offset in seconds, east of UTC positive, before the first change
	Changes []Change // in order of time
}

// Change is a change of a clock.
type Change struct {
	At     int64 // Unix time in seconds
	Offset int   // seconds east of UTC from then on
}

// At gives the offset at a Unix time in seconds, and the Unix times from and
// to (exclusive) which it holds without a change.
func (r *Rules) At(unix int64) (offset int, from, to int64) {
	const ever = 1 << 62
	offset, from, to = r.Before, -ever, ever
	for _, c := range r.Changes {
		if unix < c.At {
			return offset, from, c.At
		}
		offset, from = c.Offset, c.At
	}
	return offset, from, to
}
