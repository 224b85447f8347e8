package billing

import (
	"sort"

	"splittally/calc/calendar"
	"splittally/calc/number"
)

// Limits of a usual billing cycle in days, from CalTRACK methods 2.2.3.4 (reads
// that span less than 25 days) and 2.2.3.5 (more than 35 days where bills come
// monthly, more than 70 where they come every two months).
const (
	shortestCycle  = 25
	longestMonth   = 35
	longestBimonth = 70
)

// joinNeighbours names the reads, so that periods that share one know it, and
// points out overlaps, gaps and odd lengths.
func (s *sheet) joinNeighbours() {
	var line []*bill
	for i := range s.bills {
		b := &s.bills[i]
		s.readEstimated(b)
		if b.says.Dated {
			b.says.StartRead, b.says.EndRead = readName(b.says.Span.First), readName(b.says.Span.End)
			line = append(line, b)
		}
	}
	sort.SliceStable(line, func(i, j int) bool { return line[i].says.Span.First < line[j].says.Span.First })
	var reach *bill // of the bills so far, the one that ends last
	for _, b := range line {
		if reach != nil {
			s.compareNeighbours(reach, b)
		}
		if reach == nil || b.says.Span.End > reach.says.Span.End {
			reach = b
		}
		s.judgeLength(b, line)
	}
}

func readName(d calendar.Day) string { return "read " + d.String() }

// readEstimated notes whether the read at the end was estimated.
func (s *sheet) readEstimated(b *bill) {
	yes, given := yesNo(b.typed.Estimated)
	if !given && !number.IsBlank(b.typed.Estimated) {
		s.problem(b, "estimated", b.typed.Estimated, "yes or no")
	}
	if b.says.EndEstimated = yes; yes {
		s.notice(b, "estimated", "read-estimated", "The read that ends "+b.name()+" was estimated. What it is wrong by comes back in the next period with the opposite sign, so judge the two together.")
	}
}

// compareNeighbours looks at two bills that follow one another.
func (s *sheet) compareNeighbours(last, next *bill) {
	a, b := last.says.Span, next.says.Span
	switch common := a.Common(b); {
	case common.Days() > 0:
		s.problem(next, "from", next.typed.From, "a period that does not overlap "+last.name()+": "+daysOf(common)+" would be in both")
	case a.End < b.First:
		s.notice(next, "from", "period-gap", daysOf(calendar.Span{First: a.End, End: b.First})+" between "+last.name()+" and "+next.name()+" belong to no bill.")
	default:
		next.says.StartEstimated = last.says.EndEstimated
		s.compareReads(last, next)
	}
}

// compareReads checks that the register stood where the period before left it.
// If it did not, the two periods have no read in common.
func (s *sheet) compareReads(last, next *bill) {
	if !last.reads || !next.reads || last.end.Equal(next.previous) {
		return
	}
	next.says.StartRead += ", " + next.name()
	s.notice(next, "previous", "reads-do-not-join", next.capitalName()+" begins at a read of "+next.previous.String()+", but "+last.name()+
		" ended at "+last.end.String()+". Was the meter exchanged, or is one of them mistyped?")
}

// judgeLength points out a period that is off the billing cycle.
func (s *sheet) judgeLength(b *bill, line []*bill) {
	const source = " (CalTRACK methods 2.2.3)"
	days := b.says.Days()
	switch {
	case days < shortestCycle:
		s.notice(b, "to", "off-cycle", b.capitalName()+" has "+counted(days)+", less than the 25 of a usual billing cycle"+source+". Its percentage is less certain; is it a first or last bill?")
	case days > longestBimonth:
		s.notice(b, "to", "off-cycle", b.capitalName()+" has "+counted(days)+", more than the 70 of a two-monthly billing cycle"+source+". Is a bill missing between its dates?")
	case days > longestMonth && monthly(line):
		s.notice(b, "to", "off-cycle", b.capitalName()+" has "+counted(days)+", more than the 35 of a monthly billing cycle"+source+", while the other bills are monthly.")
	}
}

// monthly says whether most bills are of a month's length.
func monthly(line []*bill) bool {
	n := 0
	for _, b := range line {
		if d := b.says.Days(); d >= shortestCycle && d <= longestMonth {
			n++
		}
	}
	return 2*n > len(line)
}
