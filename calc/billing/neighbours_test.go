package billing

import (
	"strings"
	"testing"
)

func TestConventionFromNeighbours(t *testing.T) {
	for _, c := range []struct {
		name    string
		periods []Period
		spans   []string
		basis   []Basis
		said    []string
	}{
		{
			"a shared read date",
			[]Period{{From: "2023-10-03", To: "2023-11-02", KWh: "400"}, {From: "2023-11-02", To: "2023-12-04", KWh: "500"}},
			[]string{"3 Oct 2023 to 1 Nov 2023", "2 Nov 2023 to 3 Dec 2023"},
			[]Basis{BasisNeighbour, BasisNeighbour},
			nil,
		},
		{
			"the next day begins the next period, in any order",
			[]Period{{From: "2023-11-03", To: "2023-12-04", KWh: "500"}, {From: "2023-10-03", To: "2023-11-02", KWh: "400"}},
			[]string{"3 Nov 2023 to 4 Dec 2023", "3 Oct 2023 to 2 Nov 2023"},
			[]Basis{BasisNeighbour, BasisNeighbour},
			nil,
		},
		{
			"another bill, not a neighbour",
			[]Period{{From: "2023-10-03", To: "2023-11-02", KWh: "400", Days: "31"}, {From: "2024-01-05", To: "2024-02-04", KWh: "500"}},
			[]string{"3 Oct 2023 to 2 Nov 2023", "5 Jan 2024 to 4 Feb 2024"},
			[]Basis{BasisPrinted, BasisOthers},
			[]string{"notice convention-taken periods.1.to", "notice period-gap periods.1.from"},
		},
		{
			"other bills that do not agree",
			[]Period{
				{From: "2023-10-03", To: "2023-11-02", KWh: "400", Days: "31"},
				{From: "2024-01-05", To: "2024-02-04", KWh: "500"},
				{From: "2024-03-05", To: "2024-04-04", KWh: "500", Days: "30"},
			},
			[]string{"3 Oct 2023 to 2 Nov 2023", "5 Jan 2024 to 3 Feb 2024", "5 Mar 2024 to 3 Apr 2024"},
			[]Basis{BasisPrinted, BasisAssumed, BasisPrinted},
			[]string{"notice period-gap periods.1.from", "notice period-gap periods.2.from", "question periods.1.convention = last-excluded"},
		},
		{
			"a bill of one day shows nothing of the others",
			[]Period{{From: "2023-10-03", To: "2023-10-03", KWh: "12"}, {From: "2024-01-05", To: "2024-02-04", KWh: "500"}},
			[]string{"3 Oct 2023 to 3 Oct 2023", "5 Jan 2024 to 3 Feb 2024"},
			[]Basis{BasisOnlyWay, BasisAssumed},
			[]string{"notice off-cycle periods.0.to", "notice period-gap periods.1.from", "question periods.1.convention = last-excluded"},
		},
		{
			"the neighbours contradict each other",
			[]Period{
				{From: "2023-10-03", To: "2023-11-02", KWh: "400", Days: "31"},
				{From: "2023-11-03", To: "2023-12-04", KWh: "500"},
				{From: "2023-12-04", To: "2024-01-05", KWh: "500", Days: "32"},
			},
			[]string{"3 Oct 2023 to 2 Nov 2023", "3 Nov 2023 to 3 Dec 2023", "4 Dec 2023 to 4 Jan 2024"},
			[]Basis{BasisPrinted, BasisAssumed, BasisPrinted},
			[]string{"question periods.1.convention = last-excluded"},
		},
		{
			"a first bill with both days leaves its last date out of the next",
			[]Period{{From: "2023-10-03", To: "2023-11-02", KWh: "400", Days: "31"}, {From: "2023-11-02", To: "2023-12-04", KWh: "500", Days: "32"}},
			[]string{"3 Oct 2023 to 2 Nov 2023", "3 Nov 2023 to 4 Dec 2023"},
			[]Basis{BasisPrinted, BasisPrinted},
			nil,
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := Read(c.periods, Options{})
			for i, s := range r.Statements {
				if got := s.Span.String(); got != c.spans[i] || s.Basis != c.basis[i] {
					t.Errorf("period %d: %s by %s, want %s by %s", i+1, got, s.Basis, c.spans[i], c.basis[i])
				}
			}
			wantSaid(t, r, c.said...)
		})
	}
}

func TestOverlapAndGap(t *testing.T) {
	for _, c := range []struct {
		name    string
		periods []Period
		said    []string
		text    string // part of what is said
	}{
		{
			"one day in both",
			[]Period{{From: "2023-10-03", To: "2023-11-02", Days: "31"}, {From: "2023-11-02", To: "2023-12-03", Days: "32"}},
			[]string{"problem periods.1.from"},
			"does not overlap bill 1: 1 day (2 Nov 2023) would be in both",
		},
		{
			"typed out of order",
			[]Period{{From: "2023-11-01", To: "2023-12-03", Days: "33"}, {From: "2023-10-03", To: "2023-11-02", Days: "31"}},
			[]string{"problem periods.0.from"},
			"does not overlap bill 2: 2 days (1 Nov 2023 to 2 Nov 2023) would be in both",
		},
		{
			"within a longer one, not only the one before",
			[]Period{{From: "2023-10-01", To: "2024-01-01", Days: "92"}, {From: "2023-10-05", To: "2023-11-05", Days: "31"}, {From: "2023-12-05", To: "2024-01-04", Days: "30"}},
			[]string{"notice off-cycle periods.0.to", "problem periods.1.from", "problem periods.2.from"},
			"does not overlap bill 1: 27 days",
		},
		{
			"a gap",
			[]Period{{From: "2023-10-03", To: "2023-11-02", Days: "31"}, {From: "2023-11-06", To: "2023-12-05", Days: "30"}},
			[]string{"notice period-gap periods.1.from"},
			"3 days (3 Nov 2023 to 5 Nov 2023) between bill 1 and bill 2 belong to no bill.",
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := Read(c.periods, Options{})
			wantSaid(t, r, c.said...)
			if all := texts(r); !strings.Contains(all, c.text) {
				t.Errorf("said\n%s\nwant %s", all, c.text)
			}
		})
	}
}

func texts(r Result) string {
	var b strings.Builder
	for _, p := range r.Problems {
		b.WriteString(p.String() + "\n")
	}
	for _, n := range r.Notices {
		b.WriteString(n.Text + "\n")
	}
	return b.String()
}

func TestSharedReads(t *testing.T) {
	r := Read([]Period{
		{From: "2023-10-03", To: "2023-11-02", Previous: "40000", Present: "40400", Estimated: "yes"},
		{From: "2023-11-02", To: "2023-12-04", Previous: "40400", Present: "40900"},
		{From: "2023-12-04", To: "2024-01-04", Previous: "00100", Present: "00600"},
	}, Options{})
	s := r.Statements
	if s[0].EndRead != "read 2023-11-02" || s[1].StartRead != s[0].EndRead {
		t.Errorf("the shared read is %q and %q", s[0].EndRead, s[1].StartRead)
	}
	if s[2].StartRead == s[1].EndRead {
		t.Errorf("reads of 40900 and 100 are both %q", s[2].StartRead)
	}
	if !s[0].EndEstimated || !s[1].StartEstimated || s[0].StartEstimated || s[1].EndEstimated || s[2].StartEstimated {
		t.Errorf("estimated: %+v", s)
	}
	wantSaid(t, r, "notice read-estimated periods.0.estimated", "notice reads-do-not-join periods.2.previous")
}

// Where both dates belong, the read at the end of the last date is the one that
// begins the next day.
func TestSharedReadOfAbuttingPeriods(t *testing.T) {
	r := Read([]Period{
		{From: "2023-10-03", To: "2023-11-02", KWh: "400"},
		{From: "2023-11-03", To: "2023-12-04", KWh: "500", Estimated: "perhaps"},
	}, Options{})
	if a, b := r.Statements[0].EndRead, r.Statements[1].StartRead; a != b || a != "read 2023-11-03" {
		t.Errorf("reads %q and %q", a, b)
	}
	wantSaid(t, r, "problem periods.1.estimated")
}

func TestOffCycle(t *testing.T) {
	monthly := []Period{{From: "2023-01-01", To: "2023-01-31", Days: "31"}, {From: "2023-02-01", To: "2023-02-28", Days: "28"}}
	for _, c := range []struct {
		name   string
		period Period
		said   []string
	}{
		{"25 days", Period{From: "2023-03-01", To: "2023-03-25", Days: "25"}, nil},
		{"24 days", Period{From: "2023-03-01", To: "2023-03-24", Days: "24"}, []string{"notice off-cycle periods.2.to"}},
		{"35 days", Period{From: "2023-03-01", To: "2023-04-04", Days: "35"}, nil},
		{"36 days among months", Period{From: "2023-03-01", To: "2023-04-05", Days: "36"}, []string{"notice off-cycle periods.2.to"}},
		{"71 days", Period{From: "2023-03-01", To: "2023-05-10", Days: "71"}, []string{"notice off-cycle periods.2.to"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			wantSaid(t, Read(append(monthly[:2:2], c.period), Options{}), c.said...)
		})
	}
	// Where bills come every two months, 60 days are nothing odd.
	wantSaid(t, Read([]Period{{From: "2023-01-01", To: "2023-03-01", Days: "60"}}, Options{}))
}
