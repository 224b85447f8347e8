package billing

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"splittally/calc/energy"
	"splittally/calc/remark"
	"splittally/calc/remark/remarktest"
)

// month is a period without anything odd, for tests to change.
func month(change func(*Period)) Period {
	p := Period{From: "2023-10-03", To: "2023-11-02", KWh: "412"}
	if change != nil {
		change(&p)
	}
	return p
}

func said(r Result) []string { return remarktest.Said(r.Problems, r.Questions, r.Notices) }

func wantSaid(t *testing.T, r Result, want ...string) {
	t.Helper()
	remarktest.Want(t, said(r), want...)
}

func wantSpan(t *testing.T, s Statement, want string, c Convention, b Basis) {
	t.Helper()
	if got := s.Span.String(); got != want || s.Convention != c || s.Basis != b {
		t.Errorf("span %s, %s by %s; want %s, %s by %s", got, s.Convention, s.Basis, want, c, b)
	}
}

func kWh(t *testing.T, e energy.Energy, want string) {
	t.Helper()
	if got := e.Decimal().String(); got != want {
		t.Errorf("energy %s kWh, want %s", got, want)
	}
}

func TestConventionFromPrintedDays(t *testing.T) {
	for _, c := range []struct {
		days, span string
		convention Convention
		said       []string
	}{
		{"31", "3 Oct 2023 to 2 Nov 2023", BothBelong, nil},
		{"30", "3 Oct 2023 to 1 Nov 2023", LastExcluded, nil},
		{"30 days", "3 Oct 2023 to 1 Nov 2023", LastExcluded, nil},
		{"３１", "3 Oct 2023 to 2 Nov 2023", BothBelong, nil},
		// A number that fits no count, and one that has only been begun.
		{"29", "3 Oct 2023 to 1 Nov 2023", LastExcluded, []string{"problem periods.0.days", "question periods.0.convention = last-excluded"}},
		{"3", "3 Oct 2023 to 1 Nov 2023", LastExcluded, []string{"question periods.0.convention = last-excluded"}},
		{"a month", "3 Oct 2023 to 1 Nov 2023", LastExcluded, []string{"problem periods.0.days", "question periods.0.convention = last-excluded"}},
		{"30.5", "3 Oct 2023 to 1 Nov 2023", LastExcluded, []string{"problem periods.0.days", "question periods.0.convention = last-excluded"}},
	} {
		t.Run(c.days, func(t *testing.T) {
			r := Read([]Period{month(func(p *Period) { p.Days = c.days })}, Options{})
			basis := BasisPrinted
			if c.said != nil {
				basis = BasisAssumed
			}
			wantSpan(t, r.Statements[0], c.span, c.convention, basis)
			wantSaid(t, r, c.said...)
		})
	}
}

func TestPrintedDaysNameBothCounts(t *testing.T) {
	r := Read([]Period{month(func(p *Period) { p.Days = "28" })}, Options{})
	want := "found “28”, expected 31 (both dates belong) or 30 (one of them does not): the dates 3 Oct 2023 and 2 Nov 2023 allow no other"
	if len(r.Problems) != 1 || r.Problems[0].String() != want {
		t.Errorf("problems %v, want %s", r.Problems, want)
	}
}

func TestConventionAsked(t *testing.T) {
	periods := []Period{month(nil)}
	r := Read(periods, Options{})
	want := []remark.Question{{
		ID: "periods.0.convention", Path: "periods.0.to",
		Asks: "Which days belong to the bill of 3 Oct 2023 to 2 Nov 2023?",
		Why:  "The two dates alone do not tell, and no other bill shows how they are meant.",
		Choices: []remark.Choice{
			{ID: "both-belong", Label: "Both dates belong", Gives: "3 Oct 2023 to 2 Nov 2023, 31 days"},
			{ID: "last-excluded", Label: "The last date does not belong (from read to read)", Gives: "3 Oct 2023 to 1 Nov 2023, 30 days"},
			{ID: "first-excluded", Label: "The first date does not belong", Gives: "4 Oct 2023 to 2 Nov 2023, 30 days"},
		},
		Taken: "last-excluded",
	}}
	if d := cmp.Diff(want, r.Questions); d != "" {
		t.Errorf("question (-want +got):\n%s", d)
	}
	wantSpan(t, r.Statements[0], "3 Oct 2023 to 1 Nov 2023", LastExcluded, BasisAssumed)
	if n := len(r.Statements[0].Ways); n != 3 {
		t.Errorf("%d ways, want 3", n)
	}

	r = Read(periods, Options{Answers: map[string]string{"periods.0.convention": "first-excluded"}})
	wantSpan(t, r.Statements[0], "4 Oct 2023 to 2 Nov 2023", FirstExcluded, BasisAnswered)
	wantSaid(t, r, "question periods.0.convention = first-excluded, answered")
}

func TestConventionOfOneBill(t *testing.T) {
	for _, c := range []struct {
		name       string
		period     Period
		span       string
		convention Convention
		basis      Basis
		said       []string
	}{
		{"a calendar month has both", Period{From: "2024-02-01", To: "2024-02-29"}, "1 Feb 2024 to 29 Feb 2024", BothBelong, BasisAssumed, []string{"question periods.0.convention = both-belong"}},
		{"told in its field", Period{From: "2024-02-01", To: "2024-02-29", Convention: "first-excluded"}, "2 Feb 2024 to 29 Feb 2024", FirstExcluded, BasisAnswered, nil},
		{"told against the days", Period{From: "2024-02-01", To: "2024-02-29", Days: "29", Convention: "last-excluded"}, "1 Feb 2024 to 28 Feb 2024", LastExcluded, BasisAnswered, []string{"notice convention-against-days periods.0.convention"}},
		{"told nonsense", Period{From: "2024-02-01", To: "2024-02-29", Days: "29", Convention: "both"}, "1 Feb 2024 to 29 Feb 2024", BothBelong, BasisPrinted, []string{"problem periods.0.convention"}},
		{"read as the day begins", Period{From: "2024-02-01", To: "2024-02-29", ReadHour: "midnight"}, "1 Feb 2024 to 28 Feb 2024", LastExcluded, BasisReadHour, nil},
		{"read as the day ends", Period{From: "2024-02-01", To: "2024-02-29", ReadHour: "24"}, "2 Feb 2024 to 29 Feb 2024", FirstExcluded, BasisReadHour, nil},
		{"read as the day ends, days printed", Period{From: "2024-02-01", To: "2024-02-29", ReadHour: "24:00", Days: "28"}, "2 Feb 2024 to 29 Feb 2024", FirstExcluded, BasisPrinted, nil},
		{"one day", Period{From: "2024-02-01", To: "2024-02-01"}, "1 Feb 2024 to 1 Feb 2024", BothBelong, BasisOnlyWay, []string{"notice off-cycle periods.0.to"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := Read([]Period{c.period}, Options{})
			wantSpan(t, r.Statements[0], c.span, c.convention, c.basis)
			wantSaid(t, r, c.said...)
		})
	}
}

func TestWrongDates(t *testing.T) {
	for _, c := range []struct{ name, from, to, path, wanted string }{
		{"no such day", "2024-04-31", "2024-05-30", "periods.0.from", "a date with day, month and year"},
		{"no date at all", "2024-04-01", "soon", "periods.0.to", "a date with day, month and year"},
		{"backwards", "2024-04-30", "2024-04-01", "periods.0.to", "not before the first one (30 Apr 2024)"},
		{"over a year", "2023-04-30", "2024-07-01", "periods.0.to", "this would be 429 days"},
		{"a day too many", "2023-01-01", "2024-02-05", "periods.0.to", "this would be 401 days"},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := Read([]Period{{From: c.from, To: c.to, KWh: "412"}}, Options{})
			s := r.Statements[0]
			if len(r.Problems) != 1 || r.Problems[0].Path != c.path || !strings.Contains(r.Problems[0].Wanted, c.wanted) {
				t.Errorf("problems %v, want one at %s that wants %q", r.Problems, c.path, c.wanted)
			}
			if s.Given || s.Dated || s.Waits == "" {
				t.Errorf("given %v, dated %v, waits %q; want neither, and why", s.Given, s.Dated, s.Waits)
			}
			kWh(t, s.Reference, "412") // the energy is kept
		})
	}
}

func TestNoDay(t *testing.T) {
	r := Read([]Period{{From: "2024-04-30", To: "2024-04-30", KWh: "12", Convention: "last-excluded"}}, Options{})
	wantSaid(t, r, "problem periods.0.to")
	if s := r.Statements[0]; s.Given || s.Dated {
		t.Errorf("a period without a day is given: %+v", s)
	}
}

// What is not typed yet is waited for, not scolded.
func TestUnfinished(t *testing.T) {
	for _, c := range []struct {
		name   string
		period Period
		waits  string
	}{
		{"nothing", Period{}, "the first date is missing; the last date is missing; the billed kWh, or both register reads, are missing"},
		{"no last date", Period{From: "2023-10-03", KWh: "412"}, "the last date is missing"},
		{"a date begun", Period{From: "2023-10-03", To: "2023-1", KWh: "412"}, "the last date (“2023-1”) is not complete"},
		{"a year begun in a date field", Period{From: "2023-10-03", To: "0020-11-02", KWh: "412"}, "the last date (“0020-11-02”) is not complete"},
		{"one read", Period{From: "2023-10-03", To: "2023-11-02", Days: "30", Previous: "40081"}, "the present read is missing"},
		{"the other read", Period{From: "2023-10-03", To: "2023-11-02", Days: "30", Present: "40081"}, "the previous read is missing"},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := Read([]Period{c.period}, Options{})
			wantSaid(t, r)
			if s := r.Statements[0]; s.Given || s.Waits != c.waits {
				t.Errorf("given %v, waits %q; want %q", s.Given, s.Waits, c.waits)
			}
		})
	}
}

func TestPathIsTheCallers(t *testing.T) {
	r := Read([]Period{{From: "x"}}, Options{Path: "bills.2.periods"})
	wantSaid(t, r, "problem bills.2.periods.0.from")
}
