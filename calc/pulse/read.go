package pulse

import (
	"strconv"

	"github.com/shopspring/decimal"

	"splittally/calc/figure"
	"splittally/calc/number"
	"splittally/calc/remark"
	"splittally/calc/uncertainty"
)

// Read works out all runs.
func Read(t Timing, o Options) Result {
	if o.Path == "" {
		o.Path = "timing"
	}
	if o.Confidence <= 0 || o.Confidence >= 1 {
		o.Confidence = 0.95
	}
	if o.ReadMarks == nil {
		o.ReadMarks = ReadMarks
	}
	s := &sheet{Timing: t, Options: o}
	s.noun.one, s.noun.many = Noun(t.Shows)
	s.out.Given = !number.IsBlank(t.Constant)
	for i := range t.Runs {
		s.begin(i) // texts -> counts and times, each in every way it can be read
	}
	s.readHand()
	s.readConstant()
	for _, r := range s.runs {
		s.count(r)   // one count in one time, and what could be wrong with them
		s.power(r)   // -> watts by the meter
		s.monitor(r) // the monitor's watts meanwhile
		s.compare(r)
	}
	for _, r := range s.runs {
		s.out.Runs = append(s.out.Runs, r.Found)
	}
	s.pool()
	s.lay()
	return s.out
}

// sheet is the work on all runs.
type sheet struct {
	Timing
	Options
	noun  noun
	hand  float64 // seconds, standard deviation
	given bool    // hand was typed
	each  ratio   // Wh of one pulse
	lacks string  // what is missing for that, in words
	marks int     // of the runs so far
	runs  []*run
	out   Result
}

// run is the work on one run.
type run struct {
	Found
	typed Run
	index int
	path  string
	// turns and seconds by the watch, in every way they can be read.
	turns   []decimal.Decimal
	seconds []span
	n       decimal.Decimal // what is counted, once settled
	parts   []doubt
	curve   curve // the power within the run, of marks
	// zero is what to add to a time into the run to have it from the first mark.
	zero   float64
	jitter float64 // standard uncertainty of one mark's time, in seconds
	whole  float64 // seconds from the first mark to the last, lost ones too
	heard  bool    // the person wants the marks counted just as they are
}

// ratio is an exact fraction. den is not 0, unless nothing is known.
type ratio struct{ num, den decimal.Decimal }

func (r ratio) known() bool { return !r.den.IsZero() && !r.num.IsZero() }

func (r ratio) float() float64 {
	if !r.known() {
		return 0
	}
	return r.num.InexactFloat64() / r.den.InexactFloat64()
}

// noun is what is counted, in words.
type noun struct{ one, many string }

// Noun names what is counted at a meter that shows a disc, a lamp or a block, as
// in Timing.Shows: one of it and many.
func Noun(shows string) (one, many string) {
	switch shows {
	case "disc":
		return "turn", "turns"
	case "block":
		return "step", "steps"
	}
	return "flash", "flashes"
}

func (s *sheet) problem(path, found, wanted string) {
	s.out.Problems = append(s.out.Problems, remark.Problem{Path: path, Found: found, Wanted: wanted})
}

func (s *sheet) notice(path, code, text string) {
	s.out.Notices = append(s.out.Notices, remark.Notice{Code: code, Path: path, Text: text})
}

// asked settles a question and keeps it.
func (s *sheet) asked(q remark.Question, provisional string) string {
	taken := q.Settle(s.Answers, provisional)
	s.out.Questions = append(s.out.Questions, q)
	return taken
}

// name is a run in words, for remarks.
func (r *run) name() string { return "run " + strconv.Itoa(r.index+1) }

// figureOf completes a figure from its budget.
func (s *sheet) figureOf(value float64, b uncertainty.Budget) Figure {
	f := Figure{Value: value, Budget: b}
	f.Standard, f.DoF = b.Combined()
	f.Expanded, _ = b.Expanded(s.Confidence)
	return f
}

// watts writes a power for people, when its uncertainty is not at hand.
func watts(w float64) string {
	places := 0
	if w < 100 {
		places = 1
	}
	if w < 10 {
		places = 2
	}
	return figure.Plain(w, places) + figure.Thin + "W"
}

func plain(v float64) string { return strconv.FormatFloat(v, 'g', 7, 64) }
