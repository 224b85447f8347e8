package calc

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"splittally/calc/billing"
)

func TestNext(t *testing.T) {
	last := billing.Period{
		From: "2025-10-03", To: "2025-11-04", Days: "32", KWh: "412", Apart: "3", Produced: "4", Exported: "5", Total: "61.20", Solve: "loss-factor",
		Lines:    []billing.Line{{Name: "Energy", Amount: "40"}, {Name: "Fixed", Amount: "21.20"}},
		Uses:     []billing.Line{{Name: "Day", Amount: "300"}},
		Previous: "100", Present: "512", Multiplier: "1", Digits: "5", Estimated: "yes", LossFactor: "3.76", LossIncluded: "no", ReadHour: "9", Convention: "last-excluded",
	}
	want := billing.Period{
		From:  "2025-11-04",
		Lines: []billing.Line{{Name: "Energy"}, {Name: "Fixed"}}, Uses: []billing.Line{{Name: "Day"}},
		Previous: "512", Multiplier: "1", Digits: "5", LossFactor: "3.76", LossIncluded: "no", ReadHour: "9", Convention: "last-excluded",
	}
	c := Case{Title: "x", Periods: []billing.Period{last}}
	got, at := Next(c)
	if diff := cmp.Diff(Case{Title: "x", Periods: []billing.Period{last, want}}, got); diff != "" || at != 1 {
		t.Errorf("at %d:\n%s", at, diff)
	}
	if len(c.Periods) != 1 {
		t.Error("the case itself was changed")
	}
}

// The first date of the next bill, after one from the second date on.
func TestNextBegins(t *testing.T) {
	for _, c := range []struct{ from, to, days, want string }{
		{"2025-10-03", "2025-11-04", "32", "2025-11-04"}, // one date belongs
		{"2025-10-03", "2025-11-03", "32", "2025-11-04"}, // both do
		{"2025-10-01", "2025-10-31", "31", "2025-11-01"},
		{"2025-12-01", "2025-12-31", "31", "2026-01-01"},
		{"3 Oct 2025", "3 Nov 2025", "32", "4 Nov 2025"},
		{"Oct 1, 2025", "Oct 31, 2025", "31", "Nov 1, 2025"},
		{"1 OCTOBER 2025", "31 OCTOBER 2025", "31", "1 NOVEMBER 2025"},
		{"10/01/2025", "10/31/2025", "31", "11/01/2025"},
		{"01.10.2025", "31.10.2025", "31", "01.11.2025"},
		{"1.10.25", "31.10.25", "31", "1.11.25"},
		{"20251001", "20251031", "31", "1 Nov 2025"}, // not imitated
		{"Wed 1 Oct 2025", "Fri 31 Oct 2025", "31", "1 Nov 2025"},
		{"1 oktober 2025", "31 oktober 2025", "31", "1 Nov 2025"},
		{"3 Oct 2025", "3 Nov 2025", "", ""}, // nothing tells whether both belong
		{"3 Oct 2025", "", "", ""},
		{"3 Oct 2025", "x", "", ""},
	} {
		got, at := Next(Case{Periods: []billing.Period{{From: c.from, To: c.to, Days: c.days}}})
		if at != 1 || got.Periods[1].From != c.want {
			t.Errorf("after %q to %q, %q days: %q, want %q", c.from, c.to, c.days, got.Periods[at].From, c.want)
		}
	}
}

// What the next bill begins with is read back as the day that it is.
func TestNextGoesOn(t *testing.T) {
	c := Case{Periods: []billing.Period{{From: "10/01/2025", To: "10/31/2025", Days: "31"}}}
	for _, to := range []string{"11/30/2025", "12/31/2025", "01/31/2026"} {
		var at int
		c, at = Next(c)
		c.Periods[at].To = to
	}
	read := billing.Read(c.Periods, billing.Options{})
	if len(read.Problems)+len(read.Questions) > 0 {
		t.Errorf("%v %v", read.Problems, read.Questions)
	}
	for i := 1; i < len(read.Statements); i++ {
		if !read.Statements[i].Dated || read.Statements[i].Span.First != read.Statements[i-1].Span.End {
			t.Errorf("bill %d begins on %v, the one before ends at %v", i+1, read.Statements[i].Span.First, read.Statements[i-1].Span.End)
		}
	}
}

func TestNextTakesTheFirstBlankBill(t *testing.T) {
	one := billing.Period{From: "2025-10-03", To: "2025-11-04", Days: "32"}
	blank := billing.Period{Lines: []billing.Line{{}, {}}}
	got, at := Next(Case{Periods: []billing.Period{one, blank, blank}})
	if at != 1 || len(got.Periods) != 3 || got.Periods[1].From != "2025-11-04" {
		t.Errorf("%d of %d, from %q", at, len(got.Periods), got.Periods[at].From)
	}
	earlier := billing.Period{From: "2025-09-03", To: "2025-10-03", Days: "30"}
	if got, at = Next(Case{Periods: []billing.Period{one, earlier}}); got.Periods[at].From != "2025-11-04" {
		t.Errorf("it goes on from the bill typed last, not from the latest: %q", got.Periods[at].From)
	}
	if got, at = Next(Case{Periods: []billing.Period{blank}}); at != -1 || len(got.Periods) != 1 {
		t.Errorf("at %d of %d, with no bill to go on from", at, len(got.Periods))
	}
}
