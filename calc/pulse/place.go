package pulse

import (
	"cmp"
	"math"
	"slices"
	"strconv"

	"splittally/calc/figure"
	"splittally/calc/number"
	"splittally/calc/remark"
	"splittally/calc/sorted"
)

// The ways in which a time with colons is meant.
const (
	elapsed = "elapsed" // since the run began
	byClock = "clock"
)

// slack is how far outside of a run a noted time may lie, in seconds: nobody
// notes it to the second.
const slack = 2

// placed gives the monitor's figures as readings of the run, by time where all
// have one. Those outside of the run are told and left out.
func (s *sheet) placed(r *run, all []noted) []Reading {
	begins, hasBegin := s.beginning(r)
	way := s.whichTimes(r, all, begins, hasBegin)
	var kept []Reading
	var outside []string
	for _, n := range all {
		w := n.settle(r.Watts.Value)
		got := Reading{Watts: w.watts, Line: n.line}
		at, loose, timed := n.placeAt(w, way, begins)
		if timed {
			at += r.zero
			if at < -loose || at > r.whole+loose {
				if line := strconv.Itoa(n.line); !slices.Contains(outside, line) {
					outside = append(outside, line)
				}
				continue
			}
			got.At, got.Timed = min(max(at, 0), r.whole), true
		}
		kept = append(kept, got)
	}
	s.tellOutside(r, outside)
	sorted.Stable(kept, func(a, b Reading) int {
		if !a.Timed || !b.Timed {
			return 0
		}
		return cmp.Compare(a.At, b.At)
	})
	return kept
}

func (s *sheet) tellOutside(r *run, lines []string) {
	if len(lines) == 0 {
		return
	}
	which, left := "Line "+lines[0]+" of the monitor’s watts of "+r.name()+" was noted", " It is left out."
	if len(lines) > 1 {
		which, left = "Lines "+figure.Listed(lines)+" of the monitor’s watts of "+r.name()+" were noted", " They are left out."
	}
	s.notice(r.path+".watts", "reading-outside", which+" outside of the run, which lasted "+figure.Clock(r.whole, 0)+"."+left)
}

// beginning reads the clock time of the run's beginning, in seconds.
func (s *sheet) beginning(r *run) (seconds float64, ok bool) {
	if number.IsBlank(r.typed.Begins) {
		return 0, false
	}
	c, ok := readColons(r.typed.Begins)
	if ok {
		seconds, ok = c.clock()
	}
	if !ok {
		s.problem(r.path+".begins", number.Trim(r.typed.Begins), "a clock time, such as 19:02:10 or 7:02:10 pm")
	}
	return seconds, ok
}

// placeAt gives a figure's seconds from the beginning, and how far outside of
// the run they may lie.
func (n noted) placeAt(w wattsWay, way string, begins float64) (at, loose float64, timed bool) {
	switch {
	case n.direct > 0 || n.timed && n.colons.parts == nil:
		return n.direct, slack, true
	case w.hasTime:
		return w.at, slack, true
	case !n.timed || way == "":
		return 0, 0, false
	case way == elapsed:
		return n.colons.elapsed().seconds, slack, true
	}
	at, _ = n.colons.clock()
	at -= begins
	const day = 24 * 3600
	at -= day * math.Round(at/day)
	if len(n.colons.parts) == 2 {
		return at, 60, true // the seconds were not noted
	}
	return at, slack, true
}

// whichTimes says how times with colons are meant: by which more of them lie
// within the run. "" is that none can be placed.
func (s *sheet) whichTimes(r *run, all []noted, begins float64, hasBegin bool) string {
	fits := map[string]int{}
	differ, some := false, false
	for _, n := range all {
		if n.colons.parts == nil {
			continue
		}
		some = true
		a, loose, _ := n.placeAt(wattsWay{}, elapsed, begins)
		// Who has said when it began and writes hours means the clock.
		clockLike := n.colons.noon > 0 || hasBegin && len(n.colons.parts) == 3
		if !clockLike && r.holds(a, loose) {
			fits[elapsed]++
		}
		if _, ok := n.colons.clock(); ok && hasBegin {
			b, loose, _ := n.placeAt(wattsWay{}, byClock, begins)
			if r.holds(b, loose) {
				fits[byClock]++
			}
			differ = differ || math.Abs(a-b) > 1
		}
	}
	switch e, c := fits[elapsed], fits[byClock]; {
	case !some:
		return ""
	case e > 0 && e == c && differ:
		return s.askTimes(r)
	case c > e:
		return byClock
	case e > 0:
		return elapsed
	case hasBegin:
		return byClock // all are outside, and told so
	}
	s.notice(r.path+".begins", "times-unplaced", "The times beside the monitor’s watts of "+r.name()+
		" seem to be of the clock. Say at what clock time the run began; until then the watts are taken as spread over the run.")
	return ""
}

func (r *run) holds(at, loose float64) bool {
	at += r.zero
	return at >= -loose && at <= r.whole+loose
}

func (s *sheet) askTimes(r *run) string {
	return s.asked(remark.Question{
		ID: r.path + ".times", Path: r.path + ".watts", Asks: "What are the times beside the monitor’s watts of " + r.name() + "?",
		Why: "They lie within the run both as minutes since its beginning and as times of the clock.",
		Choices: []remark.Choice{
			{ID: elapsed, Label: "minutes and seconds since the run began", Gives: s.meanGiven(r, elapsed)},
			{ID: byClock, Label: "times of the clock", Gives: s.meanGiven(r, byClock)},
		},
	}, elapsed)
}

// meanGiven says what the monitor's mean would be with times meant that way.
func (s *sheet) meanGiven(r *run, way string) string {
	quiet := *s
	quiet.out = Result{}
	begins, _ := quiet.beginning(r)
	var kept []Reading
	for _, n := range quiet.readWatts(r) {
		w := n.settle(r.Watts.Value)
		if at, loose, timed := n.placeAt(w, way, begins); timed && r.holds(at, loose) {
			kept = append(kept, Reading{At: min(max(at+r.zero, 0), r.whole), Timed: true, Watts: w.watts})
		}
	}
	sorted.Stable(kept, func(a, b Reading) int { return cmp.Compare(a.At, b.At) })
	mean := 0.0
	for i, w := range weights(kept, r.whole) {
		mean += w * kept[i].Watts
	}
	return "a mean of " + watts(mean) + " from " + figure.Counted(len(kept), "reading", "readings")
}

// weights gives what part of the run each reading stands for: half way to its
// neighbours, and to the ends of the run, if all have times; else alike.
func weights(readings []Reading, whole float64) []float64 {
	n := len(readings)
	w := make([]float64, n)
	timed := n > 1 && whole > 0
	for _, k := range readings {
		timed = timed && k.Timed
	}
	for i := range readings {
		if !timed {
			w[i] = 1 / float64(n)
			continue
		}
		from, to := 0.0, whole
		if i > 0 {
			from = (readings[i-1].At + readings[i].At) / 2
		}
		if i < n-1 {
			to = (readings[i].At + readings[i+1].At) / 2
		}
		w[i] = (to - from) / whole
	}
	return w
}
