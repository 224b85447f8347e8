package gain

import (
	"math"
	"strconv"

	"splittally/calc/number"
	"splittally/calc/uncertainty"
)

// LineCheck holds the volts between two lines against those of the legs, as a
// check of what was read: the legs must add up.
//
//	split phase           V12 = V1 + V2
//	two or three phases   V12 = √(V1² + V2² + V1·V2), phases 120° apart
type LineCheck struct {
	Name  string // such as "Leg A to Leg B"
	Waits string // what is missing for any check, in words
	// Reference is the multimeter's volts against its own of the legs, Monitor
	// the same of the monitor, in volts.
	Reference, Monitor Agreement
	// Gain is the gain between the lines against that of the legs, factors;
	// Difference and Expanded in percent.
	Gain  Agreement
	Words []string
}

// Agreement is a value found in one way against the same found in another.
type Agreement struct {
	Given                bool
	Found, FromLegs      float64
	Difference, Expanded float64 // Found − FromLegs, and its expanded uncertainty
	Agrees               bool    // the difference is no more than its uncertainty
}

// line is volts between two lines as typed.
type line struct {
	blank                        bool
	reference, monitor           *quantity
	referenceCount, monitorCount float64
}

// readLines reads the volts between lines. Either side alone is of use.
func (s *sheet) readLines(typed []Pair) {
	var references, monitors []quantity
	read := func(at int, f field, text string, all *[]quantity) *quantity {
		if number.IsBlank(text) {
			return nil
		}
		ways := f.read(text)
		if len(ways) == 0 {
			s.problem(s.path+".lines."+strconv.Itoa(at)+"."+f.name, text, f.wanted)
			return nil
		}
		*all = append(*all, ways[0])
		return &ways[0]
	}
	for at, p := range typed {
		s.lines = append(s.lines, line{
			blank:     number.IsBlank(p.Reference) && number.IsBlank(p.Monitor),
			reference: read(at, voltFields[0], p.Reference, &references),
			monitor:   read(at, voltFields[1], p.Monitor, &monitors),
		})
	}
	for i := range s.lines {
		if l := &s.lines[i]; l.reference != nil {
			l.referenceCount = countOf(*l.reference, references)
		}
		if l := &s.lines[i]; l.monitor != nil {
			l.monitorCount = countOf(*l.monitor, monitors)
		}
	}
}

// legsOfLine gives the legs that the line volts at that place lie between: with
// three legs and one value, all, of which the mean counts. It is nil if their
// volts were not measured.
func (s *sheet) legsOfLine(at int) (legs []int) {
	filled := 0
	for _, l := range s.lines {
		if l.reference != nil || l.monitor != nil {
			filled++
		}
	}
	between := func(int) bool { return true }
	if s.out.Service == Three && filled > 1 {
		between = func(i int) bool { return i == at%3 || i == (at+1)%3 }
	}
	for i, l := range s.out.Legs {
		if l.Volts.Given && between(i) {
			legs = append(legs, i)
		}
	}
	if s.out.Service == Three && filled > 1 && at%3 == 2 && len(legs) == 2 {
		legs[0], legs[1] = legs[1], legs[0] // L3 to L1
	}
	return legs
}

// checkLines makes the checks of all lines.
func (s *sheet) checkLines() {
	for at, l := range s.lines {
		if l.blank { // an empty line of the page; it keeps the place of its legs
			continue
		}
		legs := s.legsOfLine(at)
		check := LineCheck{}
		switch {
		case l.reference == nil && l.monitor == nil:
			check.Waits = "the volts between two lines are missing"
		case s.out.Service == Single:
			check.Waits = "a single-phase service has no volts between lines"
		case len(legs) < 2 || s.out.LegCount > 3:
			check.Waits = "the volts of two legs are missing"
		default:
			check = s.checkLine(l, legs)
		}
		s.out.Lines = append(s.out.Lines, check)
	}
}

func (s *sheet) checkLine(l line, legs []int) LineCheck {
	c := LineCheck{Name: "Line to line"}
	if len(legs) == 2 {
		c.Name = s.out.Legs[legs[0]].Name + " to " + s.out.Legs[legs[1]].Name
	}
	if l.reference != nil {
		c.Reference = s.addUp(reference, l, legs)
	}
	if l.monitor != nil {
		c.Monitor = s.addUp(monitor, l, legs)
	}
	if l.reference != nil && l.monitor != nil {
		c.Gain = s.gainBetween(l, legs)
	}
	c.Words = s.lineWords(c)
	return c
}

// fromLegs is the volts between the lines that the legs give, and how they
// follow each leg's.
func (s *sheet) fromLegs(v []float64) (between float64, slopes []float64) {
	switch {
	case len(v) > 2:
		slope := math.Sqrt(3) / float64(len(v))
		for _, x := range v {
			between += slope * x
			slopes = append(slopes, slope)
		}
	case s.out.Service == Split:
		between, slopes = v[0]+v[1], []float64{1, 1}
	default:
		between = math.Sqrt(v[0]*v[0] + v[1]*v[1] + v[0]*v[1])
		slopes = []float64{(2*v[0] + v[1]) / 2 / between, (2*v[1] + v[0]) / 2 / between}
	}
	return between, slopes
}

// agreement judges found against what the legs give, from the budget of the
// difference.
func (s *sheet) agreement(found, fromLegs, difference float64, b uncertainty.Budget) Agreement {
	expanded, _ := b.Expanded(s.confidence)
	return Agreement{Given: true, Found: found, FromLegs: fromLegs, Difference: difference, Expanded: expanded, Agrees: math.Abs(difference) <= expanded}
}
