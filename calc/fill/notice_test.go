package fill

import (
	"strings"
	"testing"

	"splittally/calc/ledger"
)

// The sentences that an owner reads, whole.
func TestNotices(t *testing.T) {
	part := days(9, 9.5, 4, 10, 9, 8)
	part.Days[2] = ledger.Entry{State: ledger.Partial, Energy: measured(4).Energy, Hours: 10}
	for _, c := range []struct {
		r    Request
		want string
	}{
		{Request{Ledger: days(-1, 9, 10, 8, 9), Span: span(0, 5), Method: Mean}, "Missing days lie at the end of the record, so they could be estimated from one side only. " +
			"The same gap could be tried out at only 3 other places, so what is said of how good the estimate is rests mostly on how much measured days differ from one another."},
		{Request{Ledger: days(9, 9.5, 10, 8, -1, -1, -1, -1, 9, 9), Span: span(4, 10), Method: Near}, "Only 2 days were measured of the 6 of this period; most of its total is an estimate. " +
			"The same gap could be tried out at only one other place, so what is said of how good the estimate is rests mostly on how much measured days differ from one another."},
		{Request{Ledger: days(9, 9.5, 10, 8, -1, 9, 9), Span: span(4, 5), Method: Ratio}, "These data do not allow filling by ratio; near-days was used instead. " +
			"No day of this period was measured; all of its total is an estimate."},
		{Request{Ledger: part, Span: span(0, 6), Method: Near}, "1 day was measured only in part; what was measured is kept and the missing 14 hours are estimated."},
	} {
		var got []string
		for _, n := range fillOK(t, c.r).Notices {
			got = append(got, n.Text)
		}
		if s := strings.Join(got, " "); s != c.want {
			t.Errorf("got  %s\nwant %s", s, c.want)
		}
	}
}

func TestWords(t *testing.T) {
	seen := map[string]Method{}
	for _, m := range append(Methods(), Choose) {
		w := m.Words()
		if other, twice := seen[w]; twice {
			t.Errorf("%q and %q have the same words", m, other)
		}
		seen[w] = m
	}
}
