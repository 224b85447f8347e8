package metered

import (
	"cmp"
	"math"
	"slices"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/ledger"
)

// sheet is one record and its bills on the way to a Result.
type sheet struct {
	record ledger.Ledger
	rows   []row // by time
	found  []Finding
}

// row is one bill on its way.
type row struct {
	Bill
	metered, within energy.Energy
	missing         int
	kind            Kind
}

func (r row) differs() energy.Energy { return r.Billed - r.metered }

func (r row) agrees() bool { return r.differs().Abs() <= r.within }

// open says that the row is judged, and not yet explained.
func (r row) open() bool { return r.kind == "" }

func (s *sheet) add(bills []Bill) {
	for _, b := range bills {
		if b.Span.Days() == 0 {
			continue
		}
		r := row{Bill: b}
		r.metered, r.within, r.missing = s.sum(b.Span)
		r.within += b.Step
		switch {
		case !b.Given || r.missing > 0:
			r.kind = Waits
		case r.agrees():
			r.kind = Agrees
		}
		s.rows = append(s.rows, r)
	}
	slices.SortStableFunc(s.rows, func(a, b row) int { return cmp.Compare(a.Span.First, b.Span.First) })
}

func (s *sheet) covered() int {
	n := 0
	for _, r := range s.rows {
		if r.kind != Waits {
			n++
		}
	}
	return n
}

// sum adds up the record's days of a span, exactly. within is twice the standard
// uncertainty that rounding of the days leaves: that of the finest day, since
// many files drop zeros at the end of a figure. A total over several days counts
// if they all belong.
//
// A bill's own figure is the difference of two reads of a register, each cut or
// rounded to a step, so that it is within one step of what was counted.
func (s *sheet) sum(span calendar.Span) (total, within energy.Energy, missing int) {
	finest := energy.Energy(math.MaxInt64)
	for d := span.First; d < span.End; d++ {
		e := s.record.At(d)
		whole := e.State == ledger.Measured || e.State == ledger.Spread && span.Common(e.Total) == e.Total
		if !whole {
			missing++
			continue
		}
		total = plus(total, e.Energy)
		finest = min(finest, e.Rounding)
	}
	if missing < span.Days() {
		within = energy.Energy(2 * float64(finest) * math.Sqrt(float64(span.Days()-missing)/3))
	}
	return total, within, missing
}

// plus adds; a sum beyond what an Energy holds, that of no home, stays as it is.
func plus(a, b energy.Energy) energy.Energy {
	if sum, err := a.Add(b); err == nil {
		return sum
	}
	return a
}

// day gives the energy of a day of the record, and if it is known.
func (s *sheet) day(d calendar.Day) (energy.Energy, bool) {
	e := s.record.At(d)
	return e.Energy, e.State == ledger.Measured
}

// runs gives, by their first and last row, the runs of two to four rows that
// follow one another without a gap, all judged and given; shorter ones first.
func (s *sheet) runs() (out [][2]int) {
	const longest = 4
	for n := 2; n <= longest; n++ {
		for i := 0; i+n <= len(s.rows); i++ {
			if s.joined(i, i+n-1) {
				out = append(out, [2]int{i, i + n - 1})
			}
		}
	}
	return out
}

// joined says that rows i to j follow one another and are judged.
func (s *sheet) joined(i, j int) bool {
	for k := i; k <= j; k++ {
		if s.rows[k].kind == Waits || k > i && s.rows[k].Span.First != s.rows[k-1].Span.End {
			return false
		}
	}
	return true
}

// whole gives rows i to j as one.
func (s *sheet) whole(i, j int) row {
	out := s.rows[i]
	out.Span.End = s.rows[j].Span.End
	for _, r := range s.rows[i+1 : j+1] {
		out.Billed += r.Billed
		out.Exported += r.Exported
		out.metered += r.metered
		out.within = max(out.within, r.within)
	}
	return out
}

// take marks rows i to j and adds what was found of them.
func (s *sheet) take(i, j int, f Finding) {
	for k := i; k <= j; k++ {
		s.rows[k].kind = f.Kind
		f.Bills = append(f.Bills, s.rows[k].Index)
	}
	s.found = append(s.found, f)
}

// rest calls what was not explained by that name.
func (s *sheet) rest() {
	for i := range s.rows {
		if r := &s.rows[i]; r.open() {
			s.take(i, i, Finding{Kind: Unexplained, Words: unexplainedWords(*r)})
		}
	}
}

func (s *sheet) result() Result {
	out := Result{Covered: s.covered(), Found: s.found}
	for _, r := range s.rows {
		if r.kind == Agrees {
			out.Agree++
		}
		j := Judged{Index: r.Index, Span: r.Span, Billed: r.Billed, Metered: r.metered, Missing: r.missing, Within: r.within, Kind: r.kind}
		if r.kind != Waits {
			j.Differs = r.differs()
		}
		out.Bills = append(out.Bills, j)
	}
	at := map[int]int{}
	for i, r := range s.rows {
		at[r.Index] = i
	}
	slices.SortStableFunc(out.Found, func(a, b Finding) int { return cmp.Compare(at[a.Bills[0]], at[b.Bills[0]]) })
	out.Words = summary(out)
	return out
}
