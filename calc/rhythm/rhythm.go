// Package rhythm says which pulses to believe. A meter's pulses come at the
// pace of the load, which changes seldom from one to the next: so one at half
// an interval is likely a double, and a double interval likely lacks one.
//
//	marks, tapped or found --Judge--> which count, which lack --> package pulse
//
// A change of the load is no fault: the pace may go up or down at any pulse and
// stay. What cannot be told is said so.
//
// The explanation of the marks that is likeliest as a whole is found by dynamic
// programming (R. Bellman, 1957) over the marks, with a few hypotheses of the
// pace kept at each; path.go has the model.
package rhythm

// Told is what the person said of a mark.
type Told string

// What a person can say.
const (
	Nothing Told = ""
	Struck  Told = "struck" // it is no pulse
	Added   Told = "added"  // it is a pulse: set by hand, or found and confirmed
)

// Mark is a pulse that was tapped or found.
type Mark struct {
	At   float64 // seconds, in order
	Sure float64 // 0 to 1 that it is a pulse, by its sound; 1 for a tap
	Told Told
}

// Options say what else is known.
type Options struct {
	Breaks []float64 // seconds at which something is lost: an interval across is not counted
	Timing float64   // standard uncertainty of one mark's time, in seconds; 0 if not known
}

// Use is what becomes of a mark.
type Use string

// The uses.
const (
	Counted Use = "counted"
	Extra   Use = "extra"   // a double, or something else that comes between: not counted
	Doubted Use = "doubted" // not sure enough to be counted
	Out     Use = "out"     // struck out by the person, or at no time
)

// Missing says that pulses lack between two marks that count. They are counted:
// they are in Intervals.
type Missing struct {
	After  int     // index of the mark before
	Count  int     // how many lack
	Chance float64 // that this many lack, given the pace around
}

// Stretch is a part of the recording without a break.
type Stretch struct {
	First, Last int     // indices of its first and last mark that count
	Intervals   int     // between them, with those of missing pulses
	Seconds     float64 // between them
}

// Reason says why marks give no count.
type Reason string

// The reasons.
const (
	TooFew   Reason = "too-few"   // fewer than two pulses that count
	NoRhythm Reason = "no-rhythm" // nothing steady in it: noise, or too much is missing
)

// Result is what marks come to.
type Result struct {
	Uses      []Use     // one for each mark
	Chances   []float64 // 0 to 1, one for each mark, that it is a pulse, by its sound and when it comes
	Missing   []Missing
	Stretches []Stretch
	Intervals int     // of all stretches
	Seconds   float64 // of all stretches
	// Least and Most are the counts that cannot be excluded; equal to Intervals
	// if it is certain. Heard is the count if every mark that was found is one
	// pulse and none lacks.
	Least, Most, Heard int
	Jitter             float64 // standard deviation of one mark's time, in seconds, as the intervals show it
	Wander             float64 // standard deviation of the load within the run, as a fraction of it
	Why                Reason  // "" if it can be counted
}

// Judge says which marks count. Marks that are out of order are judged in
// order; those at no time (not a number) are out.
func Judge(marks []Mark, o Options) Result {
	j := judge{marks: marks, options: o}
	j.order()
	j.choose(fine)
	j.follow()
	j.rescue()
	return j.tell()
}

// Steady says how well a pace explains the marks: the logarithm of the
// likelihood against marks at any time, and against intervals that scatter as
// those of speech do; the lesser of both. Below 0, chance does better.
func Steady(marks []Mark, o Options) float64 {
	j := judge{marks: marks, options: o}
	j.order()
	j.choose(coarse)
	j.follow()
	fit, e := j.evidence()
	// The rest of a change is no sign of a pace.
	return min(fit, e) + (stepCost-restCost)*j.rests()
}
