package pulse

import (
	"math"
	"strconv"

	"github.com/shopspring/decimal"

	"splittally/calc/figure"
	"splittally/calc/remark"
)

// count settles how many pulses came in what time.
func (s *sheet) count(r *run) {
	switch {
	case r.Waits != "":
	case r.watched():
		s.countWatch(r)
	default:
		s.countMarks(r)
	}
	if r.Waits == "" && !s.each.known() {
		r.Waits = "missing: " + s.lacks
	}
}

func (s *sheet) countWatch(r *run) {
	var turns, seconds []float64
	for _, n := range r.turns {
		turns = append(turns, n.InexactFloat64())
	}
	for _, t := range r.seconds {
		seconds = append(seconds, t.seconds)
	}
	i := s.whichNumber(r, "turns", r.typed.Turns, turns, func(n float64) float64 { return n / seconds[0] })
	j := s.whichNumber(r, "seconds", r.typed.Seconds, seconds, func(t float64) float64 { return turns[i] / t })
	r.n, r.Count, r.Seconds = r.turns[i], turns[i], seconds[j]
	r.whole = r.Seconds
	s.watchDoubts(r, r.seconds[j])
}

// whichNumber asks which of two numbers a text is, "1,250" say. rate gives the
// pulses of a second for each.
func (s *sheet) whichNumber(r *run, field, text string, ways []float64, rate func(float64) float64) int {
	if len(ways) < 2 {
		return 0
	}
	path := r.path + "." + field
	q := remark.Question{ID: path, Path: path, Asks: "Which number is “" + text + "”?", Why: "The mark in it can be a decimal mark or one of thousands."}
	provisional, nearest := 0, math.Inf(1)
	for i, v := range ways {
		// Without anything else to go by a home's load is 1 kW or so.
		w := 3600 * s.each.float() * rate(v)
		if off := math.Abs(math.Log(w / 1000)); off < nearest {
			provisional, nearest = i, off
		}
		gives := watts(w)
		if !s.each.known() {
			gives = plain(v) + " " + field
		}
		label := plain(v)
		if field == "seconds" {
			label += figure.Thin + "s"
		}
		q.Choices = append(q.Choices, remark.Choice{ID: strconv.Itoa(i + 1), Label: label, Gives: gives})
	}
	taken, _ := strconv.Atoi(s.asked(q, q.Choices[provisional].ID))
	return taken - 1
}

// countMarks takes the count of the rhythm, or asks if that could be another.
func (s *sheet) countMarks(r *run) {
	h := r.Rhythm
	if len(h.Stretches) > 0 {
		first, last := h.Stretches[0].First, h.Stretches[len(h.Stretches)-1].Last
		r.zero = r.Marks.Marks[first].At
		r.whole = r.Marks.Marks[last].At - r.zero
		if r.typed.How == "sound" {
			r.zero = -r.zero // times are told from the beginning of the recording
		} else {
			r.zero = r.Marks.Marks[0].At - r.zero // from the first tap
		}
	}
	r.whole = max(r.whole, r.Seconds)
	r.n = decimal.NewFromInt(int64(h.Intervals))
	s.askMissing(r)
	r.curve = curveOf(r)
	s.markDoubts(r)
}

// immaterial is the part of a count that is not worth a question.
const immaterial = 0.0005

// offBy says how many pulses are too many, or missing if it is below 0.
func (s *sheet) offBy(off int) string {
	verb, how := " are", " too many"
	if off < 0 {
		off, how = -off, " missing"
	}
	if off == 1 {
		verb = " is"
	}
	return figure.Counted(off, s.noun.one, s.noun.many) + verb + how
}

// askMissing asks whether pulses that do not fit the pace are to be mended,
// where that matters: however certain the pace is, the person was there.
func (s *sheet) askMissing(r *run) {
	h := r.Rhythm
	off := h.Heard - h.Intervals
	if h.Heard < 1 || math.Abs(float64(off)) < max(1, immaterial*float64(h.Intervals)) {
		return // the doubt of the count has it
	}
	why := "By the pace of the marks " + s.offBy(off)
	if h.Least < h.Most {
		why += ", but that is not certain"
	}
	each := 3600 * s.each.float() / r.Seconds
	choice := func(id, label string, n int) remark.Choice {
		gives := strconv.Itoa(n) + " " + s.noun.many
		if s.each.known() {
			gives += ", " + watts(each*float64(n))
		}
		return remark.Choice{ID: id, Label: label, Gives: gives}
	}
	q := remark.Question{
		ID: r.path + ".missing", Path: r.path + ".marks", Asks: "Is the count of " + r.name() + " to follow the pace, or the marks just as they are?",
		Why: why + ".",
		Choices: []remark.Choice{
			choice("mended", "put right by the pace", h.Intervals),
			choice("heard", "just as they are", h.Heard),
		},
	}
	if s.asked(q, "mended") == "heard" {
		r.n, r.Count = decimal.NewFromInt(int64(h.Heard)), float64(h.Heard)
		r.heard = true
	}
}
