package metered

import (
	"math"

	"splittally/calc/energy"
)

// How long one reading period and its parts are, in days: a usual one has up to
// 35 (CalTRACK methods 2.2.3.5), here with a week to spare; the parts are shorter
// than the shortest of 25 (2.2.3.4), if not equally long as a rule.
const (
	longestWhole = 42
	shortestOwn  = 25
)

// splits looks for one reading period billed in parts, as is done where a rate
// changes between two reads (common practice, no source). Where the parts go by
// days, each bill is that share of the whole to within a step or so; then the
// whole need not agree, since its reads may have been taken in the day.
func (s *sheet) splits() {
	for _, run := range s.runs() {
		i, j := run[0], run[1]
		if !s.isPieces(i, j) || !s.anyOpen(i, j) {
			continue
		}
		all := s.whole(i, j)
		byDays, cancels := s.byDays(i, j), all.agrees() && s.allOpen(i, j)
		if !byDays && !cancels || all.Billed == 0 {
			continue
		}
		f := Finding{Kind: Split, Sure: byDays, Billed: all.Billed, Metered: all.metered}
		f.Words = s.splitWords(i, j, all, byDays, cancels)
		s.take(i, j, f)
	}
}

func (s *sheet) allOpen(i, j int) bool {
	for k := i; k <= j; k++ {
		if !s.rows[k].open() {
			return false
		}
	}
	return true
}

// anyOpen says that a row is to be explained, and the others are at most agreed.
func (s *sheet) anyOpen(i, j int) bool {
	some := false
	for k := i; k <= j; k++ {
		if !s.rows[k].open() && s.rows[k].kind != Agrees {
			return false
		}
		some = some || s.rows[k].open()
	}
	return some
}

// isPieces says that rows i to j have the lengths of parts of one period.
func (s *sheet) isPieces(i, j int) bool {
	days := 0
	for _, r := range s.rows[i : j+1] {
		if r.Span.Days() >= shortestOwn {
			return false
		}
		days += r.Span.Days()
	}
	return days <= longestWhole
}

// byDays says that each row bills the share of their sum that its days have.
func (s *sheet) byDays(i, j int) bool {
	all := s.whole(i, j)
	for _, r := range s.rows[i : j+1] {
		share := float64(all.Billed) * float64(r.Span.Days()) / float64(all.Span.Days())
		if math.Abs(float64(r.Billed)-share) > 1.5*float64(r.Step) {
			return false
		}
	}
	return true
}

// caughtUp looks for reads that were guessed: what was billed too much up to
// there was billed too little afterwards. A difference that is within a day's
// energy can be a matter of the hour or the date, and is left to these.
func (s *sheet) caughtUp() {
	for _, run := range s.runs() {
		i, j := run[0], run[1]
		all := s.whole(i, j)
		if !s.allOpen(i, j) || !all.agrees() || all.Billed == 0 {
			continue
		}
		most, ahead := energy.Energy(0), energy.Energy(0)
		for k := i; k < j; k++ {
			ahead += s.rows[k].differs()
			if !s.withinDay(s.rows[k], ahead) {
				most = max(most, ahead.Abs())
			}
		}
		if most == 0 {
			continue
		}
		f := Finding{Kind: Estimated, Sure: true, Billed: all.Billed, Metered: all.metered}
		f.Words = s.estimatedWords(i, j, all)
		s.take(i, j, f)
	}
}

// withinDay says that the read that ends a row can lie so far from its midnight:
// in the day before it or the day after, up to a whole one.
func (s *sheet) withinDay(r row, apart energy.Energy) bool {
	last, isLast := s.day(r.Span.Last())
	after, isAfter := s.day(r.Span.End)
	mean := r.metered / energy.Energy(r.Span.Days())
	if !isLast {
		last = 2 * mean // a choice: twice the mean day
	}
	if !isAfter {
		after = 2 * mean
	}
	return apart >= -last-r.within && apart <= after+r.within
}

// Below which part of the record a bill is called net: what no hour or date of
// its reads explains, and more than a tenth. (A choice.)
const netPart = 0.9

// nets names bills that charge far less than what came in. The two ends of one
// can each be off by a day's energy at most.
func (s *sheet) nets() {
	for i := range s.rows {
		r := s.rows[i]
		if !r.open() || r.metered <= 0 {
			continue
		}
		two := 4 * r.metered / energy.Energy(r.Span.Days())
		if r.Billed != 0 && (float64(r.Billed) > netPart*float64(r.metered) || -r.differs() < two) {
			continue
		}
		f := Finding{Kind: Net, Sure: r.Billed == 0, Billed: r.Billed, Metered: r.metered}
		if r.Exported > 0 {
			off := r.metered - r.Exported - r.Billed
			f.Sure = f.Sure || off.Abs() <= r.within+r.metered/50 // to 2 %: typed beside the bill
		}
		f.Words = netWords(r, f.Sure)
		s.take(i, i, f)
	}
	s.gatherNets()
}

// gatherNets makes one finding of net bills that follow one another.
func (s *sheet) gatherNets() {
	var out []Finding
	at := func(index int) int {
		for i, r := range s.rows {
			if r.Index == index {
				return i
			}
		}
		return -1
	}
	for _, f := range s.found {
		if n := len(out) - 1; f.Kind == Net && n >= 0 && out[n].Kind == Net && at(out[n].Bills[len(out[n].Bills)-1])+1 == at(f.Bills[0]) {
			out[n].Bills = append(out[n].Bills, f.Bills...)
			out[n].Billed += f.Billed
			out[n].Metered += f.Metered
			out[n].Sure = out[n].Sure || f.Sure
			out[n].Words = netsWords(out[n])
			continue
		}
		out = append(out, f)
	}
	s.found = out
}
