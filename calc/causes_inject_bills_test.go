package calc_test

import (
	"slices"
	"strconv"

	"splittally/calc/billing"
)

// splitBill has one reading period billed in two parts, by days.
func (s *scene) splitBill(on bool) {
	p := s.IntN(len(s.bills))
	from, to := s.cuts[p], s.cuts[p+1]
	cut := from + 6 + s.IntN(to-from-12)
	if cut-from >= 25 || to-cut >= 25 {
		cut = (from + to) / 2
	}
	s.variant = "split, the hour of the reads " + map[bool]string{true: "said", false: "not said"}[s.bills[p].ReadHour != ""]
	if s.form == registerReads { // there are no reads between the parts
		s.form = wholeKWh
	}
	// The part before the cut by days, and what was used up to the read that would
	// have been there.
	at := s.reads[p] + float64(24*(cut-from))
	share := s.energy(s.reads[p], s.reads[p+1]) * float64(cut-from) / float64(to-from)
	guess := 0.0
	if on {
		guess = s.meterGain * (share - s.energy(s.reads[p], at))
	}
	s.cuts = slices.Insert(s.cuts, p+1, cut)
	s.reads = slices.Insert(s.reads, p+1, at)
	s.guesses = slices.Insert(s.guesses, p+1, guess)
	s.bills = slices.Insert(s.bills, p+1, s.bills[p])
	for q := range s.bills {
		s.bills[q].Produced, s.bills[q].Exported = "", ""
	}
	s.redate(p)
	s.redate(p + 1)
}

// redate writes the dates of a bill anew.
func (s *scene) redate(p int) {
	b := &s.bills[p]
	from, to := s.cuts[p], s.cuts[p+1]
	b.From, b.To, b.Convention = s.date(from), s.date(to), string(billing.LastExcluded)
	if s.both {
		b.To, b.Convention = s.date(to-1), string(billing.BothBelong)
	}
	if b.Days != "" {
		b.Days = strconv.Itoa(to - from)
	}
}

// takeCredits has the bills net of credits from one on.
func (s *scene) takeCredits(on bool) {
	first := s.IntN(len(s.bills))
	s.variant = "net of credits, all bills"
	if first > 0 {
		s.variant = "net of credits, from a later bill on"
	}
	if s.form == registerReads {
		s.form = wholeKWh
	}
	s.credits = make([]float64, len(s.bills))
	for p := range s.bills {
		s.bills[p].Produced, s.bills[p].Exported = "", ""
		part := s.between(0.15, 0.85)
		if on && p >= first {
			s.credits[p] = part * s.energy(s.reads[p], s.reads[p+1])
		}
	}
}
