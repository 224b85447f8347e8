package pulse

import (
	"strconv"
	"strings"

	"splittally/calc/number"
	"splittally/calc/remark"
	"splittally/calc/rhythm"
)

// mostTogether is how many marks are judged in all runs together: four hours of
// twenty a second. Runs that would go beyond it wait, so that no case takes
// seconds at every start.
const mostTogether = 250_000

// beginMarks reads what was tapped or recorded, and what that comes to.
func (s *sheet) beginMarks(r *run) {
	if number.IsBlank(r.typed.Marks) {
		r.Waits = "missing: " + r.wanted()
		return
	}
	n := announced(r.typed.Marks)
	if s.marks+n > mostTogether {
		r.Waits = "its " + strconv.Itoa(n) + " marks are too many beside those of the other runs: " +
			strconv.Itoa(mostTogether) + " are worked out in all. Take a run away, or record for a shorter time"
		return
	}
	s.marks += n
	if s.judgeMarks(r); r.Waits != "" {
		return
	}
	s.asTapped(r)
	switch r.Rhythm.Why {
	case "":
		r.Count, r.Seconds = float64(r.Rhythm.Intervals), r.Rhythm.Seconds
	case rhythm.NoRhythm:
		r.Waits = "no steady rhythm is in the marks, so they give no count: too many may be missing, or they are of something else"
	default:
		r.Waits = "missing: a second " + s.noun.one
	}
	if r.Waits == "" && !(r.Count > 0 && r.Seconds > 0) {
		r.Waits = "missing: time between the marks"
	}
}

// judgeMarks reads marks that are of the kind that the run is by.
func (s *sheet) judgeMarks(r *run) {
	var err error
	r.Marks, r.Rhythm, err = s.ReadMarks(r.typed.Marks)
	if err != nil {
		p := remark.Problem{Found: err.Error(), Wanted: "the marks as they were kept"}
		if m, ok := err.(*Misread); ok {
			p = remark.Problem(*m)
		}
		p.Path = r.path + ".marks"
		s.out.Problems = append(s.out.Problems, p)
		r.Waits = "the marks cannot be read"
		return
	}
	if r.Marks.By != r.typed.How {
		r.Waits = "missing: " + r.wanted() + ". What is there " + cameBy(r.Marks.By)
		r.Marks, r.Rhythm = Marks{}, rhythm.Result{}
	}
}

// wanted says of what the marks of a run must be.
func (r *run) wanted() string {
	if r.typed.How == "taps" {
		return "taps"
	}
	return "a recording"
}

// cameBy says how marks came about that the run is not by: how they are judged
// and how well they are timed hangs on it, so that nothing is made of them.
func cameBy(by string) string {
	switch by {
	case "taps":
		return "was tapped"
	case "sound":
		return "is of a recording"
	}
	return "does not say whether it was tapped or recorded"
}

// announced is how many marks a text says that it holds, which it must hold to
// be read.
func announced(text string) int {
	_, rest, ok := strings.Cut(text, "\nmarks ")
	if !ok {
		return 0
	}
	rest, _, _ = strings.Cut(rest, "\n")
	n, _ := whole(strings.TrimSuffix(rest, "\r"))
	return int(n)
}

// asTapped counts taps that keep no pace just as they are: a person saw what
// was tapped, which of a recording nobody did. It is told.
func (s *sheet) asTapped(r *run) {
	if r.Rhythm.Why != rhythm.NoRhythm || r.typed.How != "taps" || len(r.Marks.Breaks) > 0 {
		return
	}
	h := rhythm.Result{Uses: make([]rhythm.Use, len(r.Marks.Marks)), Chances: r.Rhythm.Chances}
	first, last, n := -1, -1, 0
	for i, k := range r.Marks.Marks {
		h.Uses[i] = rhythm.Out
		if k.Told == rhythm.Struck {
			continue
		}
		h.Uses[i] = rhythm.Counted
		if first < 0 {
			first = i
		}
		last = i
		n++
	}
	if n < 2 {
		return
	}
	h.Intervals, h.Least, h.Most, h.Heard = n-1, n-1, n-1, n-1
	h.Seconds = r.Marks.Marks[last].At - r.Marks.Marks[first].At
	h.Stretches = []rhythm.Stretch{{First: first, Last: last, Intervals: n - 1, Seconds: h.Seconds}}
	r.Rhythm = h
	s.notice(r.path+".marks", "no-pace", "The taps of "+r.name()+" keep no steady pace, so that nothing shows whether one is missing or too many. Each is counted.")
}
