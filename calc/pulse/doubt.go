package pulse

import (
	"math"

	"splittally/calc/number"
	"splittally/calc/uncertainty"
)

// What is assumed of people and clocks where nobody said it. All of it is
// common practice, no source.
const (
	// assumedHand is the standard deviation of one press at a pulse that is seen
	// coming, in seconds.
	assumedHand = 0.1
	// assumedSound is that of a pulse's time in a recording that does not say.
	assumedSound = 0.002
	// watchOff and soundOff are how far the clock of a watch, phone or computer
	// and that of a sound card may be off, in parts of a million.
	watchOff, soundOff = 50, 100
	// byEye is how well the fraction of a turn is read off the disc, in turns.
	byEye = 0.02
	// fewTaps is how many intervals show how much the hand scatters.
	fewTaps = 10
)

// Sources of doubt that all runs by the same clock share.
const (
	WatchSource = "clock of the watch"
	SoundSource = "clock of the recorder"
)

const (
	longer       = "count for longer"
	recordLonger = "record for longer"
	handNamed    = "The hand at both ends"
	markNamed    = "Times of the marks at both ends"
	unshownNamed = "Times of the marks at both ends, too few to show whether a hand made them"
)

// doubt is a part of the budget of the power, with its sensitivity as a
// fraction of the power for each unit.
type doubt struct {
	uncertainty.Part
	ends bool // it sits at the ends of a run, so that a longer run mends it
}

// end adds a doubt that sits at the ends of the run.
func (r *run) end(p uncertainty.Part) {
	p.Reducible, p.Remedy = true, longer
	if r.typed.How == "sound" {
		p.Remedy = recordLonger
	}
	r.parts = append(r.parts, doubt{p, true})
}

func (s *sheet) readHand() {
	s.hand = assumedHand
	if number.IsBlank(s.Hand) {
		return
	}
	text := number.Trim(s.Hand)
	for _, w := range bareSeconds(text) {
		if w.seconds <= 5 {
			s.hand, s.given = w.seconds, true
			return
		}
	}
	s.problem(s.Path+".hand", text, "the scatter of your hand in seconds up to 5, such as 0.1")
}

// clock adds the steady error of the clock, one cause in all runs by it.
func (r *run) clock() {
	p := uncertainty.Part{
		Source: WatchSource, Name: "Clock of the watch, phone or computer", HalfWidth: watchOff, Unit: "ppm",
		Distribution: uncertainty.Rectangular, Sensitivity: -1e-6, Assumed: true,
	}
	if r.typed.How == "sound" {
		p.Source, p.Name, p.HalfWidth = SoundSource, "Clock of the recorder’s sound card", soundOff
	}
	r.parts = append(r.parts, doubt{Part: p})
}

func (s *sheet) watchDoubts(r *run, t span) {
	r.end(uncertainty.Part{
		Name: handNamed, HalfWidth: s.hand, Unit: "s", Repeats: 2,
		Distribution: uncertainty.Normal, Sensitivity: -1 / r.Seconds, Assumed: !s.given,
	})
	// The last digit is cut by some watches and rounded by others, and was looked
	// at twice if the watch was not started at zero.
	r.end(uncertainty.Part{
		Name: "Last digit of the seconds", HalfWidth: t.digit, Unit: "s",
		Distribution: uncertainty.Triangular, Sensitivity: -1 / r.Seconds,
	})
	if !r.n.IsInteger() {
		r.end(uncertainty.Part{
			Name: "Fraction of a turn, read by eye", HalfWidth: byEye, Unit: "turns",
			Distribution: uncertainty.Rectangular, Sensitivity: 1 / r.Count, Assumed: true,
		})
	}
	r.clock()
}

// markDoubts gathers the doubts of taps and recordings.
func (s *sheet) markDoubts(r *run) {
	h, ends := r.Rhythm, 2*max(1, len(r.Rhythm.Stretches))
	r.end(s.markDoubt(r, ends))
	if !r.heard && h.Least < h.Most {
		r.parts = append(r.parts, doubt{Part: uncertainty.Part{
			Name: "Count, where pulses are missing or doubtful", HalfWidth: float64(max(h.Most-h.Intervals, h.Intervals-h.Least)), Unit: s.noun.many,
			Distribution: uncertainty.Rectangular, Sensitivity: 1 / r.Count, Reducible: true, Remedy: "look at the doubtful pulses, or count again",
		}})
	}
	r.clock()
}

// markDoubt is how well the times of the first and the last mark are known.
// Enough marks show it themselves, unless the load changes from one to the
// next: then they show more than that, and what a hand scatters, as typed or
// as assumed, or what can be told apart from the load, stands for it.
//
// A recording states it. But it can be of a pencil that tapped along, so the
// marks have their say there too; where they are too few to have one, a hand is
// taken.
func (s *sheet) markDoubt(r *run, ends int) uncertainty.Part {
	p := uncertainty.Part{
		Name: markNamed, HalfWidth: s.hand, Unit: "s", Repeats: ends,
		Distribution: uncertainty.Normal, Sensitivity: -1 / r.Seconds, Assumed: !s.given,
	}
	shown, dof := r.shown()
	enough := r.Rhythm.Intervals >= fewTaps && dof >= fewTaps/4
	stated, sound := r.Marks.Timing, r.typed.How == "sound"
	if stated <= 0 {
		stated = assumedSound
	}
	switch {
	case sound && dof == 0:
		p.Name, p.HalfWidth = unshownNamed, max(s.hand, stated)
	case sound && (shown <= stated || !enough && shown <= 3*stated):
		p.HalfWidth, p.Assumed = math.Hypot(max(stated, shown), 1/(ticks*math.Sqrt(12))), r.Marks.Timing <= 0
	case enough && shown <= s.hand:
		p.HalfWidth, p.Distribution, p.DoF, p.Assumed = shown, uncertainty.Student, dof, false
	case enough && r.Rhythm.Jitter > s.hand:
		p.HalfWidth, p.Distribution, p.DoF, p.Assumed = r.Rhythm.Jitter, uncertainty.Student, dof, false
	case !sound:
		p.Name = handNamed
	}
	r.jitter = p.HalfWidth
	return p
}

// shown is the scatter of the marks: by second differences within stretches, or
// where pulses lack all over, what the rhythm found of its own, from four of
// them or more.
func (r *run) shown() (deviation, dof float64) {
	deviation, dof = scatter(r.stretches())
	if dof == 0 && r.Rhythm.Jitter > max(0, r.Marks.Timing) {
		return r.Rhythm.Jitter, 2
	}
	return deviation, dof
}

// power turns count and time into watts. The energy is exact: it is rounded
// once, to a whole microwatt-hour, half away from zero.
func (s *sheet) power(r *run) {
	if r.Waits != "" {
		return
	}
	e, ok := energyOf(r.n, s.each)
	if !ok || e <= 0 {
		path := r.path + ".turns"
		if !r.watched() {
			path = r.path + ".marks"
		}
		s.problem(path, r.n.String(), "a count that with the meter constant gives the energy of a home")
		r.Waits = "the count and the meter constant give no energy of a home"
		return
	}
	r.Energy = e
	w := 3600 * wattHours(e) / r.Seconds
	b := make(uncertainty.Budget, 0, len(r.parts))
	for _, d := range r.parts {
		p := d.Part
		p.Sensitivity *= w
		b = append(b, uncertainty.Evaluate(p))
	}
	r.Watts = s.figureOf(w, b)
	s.last(r)
	if math.IsInf(r.Watts.Value, 0) {
		r.Waits = "missing: time between the marks"
	}
}
