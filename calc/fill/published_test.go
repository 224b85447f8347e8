package fill

import (
	"testing"

	"splittally/calc/calendar"
)

// Direct Access Standards for Metering and Meter Data in California, attachment
// VEE (CPUC D.98-12-080): a short gap is filled by point-to-point linear
// interpolation between the readings at its ends. The method is theirs, the
// figures ours: three missing readings between 1.2 and 2.0.
//
// That rule is for gaps of up to two hours of interval data. For whole days
// the straight line is one method among others and has to win in trials.
func TestPointToPointLine(t *testing.T) {
	res := fillOK(t, Request{Ledger: days(1.2, -1, -1, -1, 2.0), Span: span(0, 5), Method: Line})
	for i, want := range []string{"1.2", "1.4", "1.6", "1.8", "2"} {
		if got := res.Days[i].Energy.Decimal().String(); got != want {
			t.Errorf("day %d = %s, want %s", i, got, want)
		}
	}
	if got := res.Total.Decimal().String(); got != "8" {
		t.Errorf("total %s, want 8", got)
	}
}

// Elexon change proposal CP0759, on BSCP502 4.2.1 (c) and (d), Great Britain:
// estimates use data of the same weekday, from no more than a month before or
// after the day. Four weeks are the whole weeks of a month: a like day 28 days
// away counts, one 35 days away does not.
func TestLikeDaysWithinAMonth(t *testing.T) {
	for _, c := range []struct {
		away int // days from the gap to the only like day
		want string
	}{{7, "99"}, {28, "99"}, {-7, "99"}, {-28, "99"}, {35, "10"}, {-35, "10"}} {
		kWh := repeat(81, 10)
		for d := 40 % 7; d < len(kWh); d += 7 {
			kWh[d] = -1
		}
		kWh[40+c.away] = 99
		res := fillOK(t, Request{Ledger: days(kWh...), Span: span(38, 43), Method: LikeDays})
		if got := res.Days[2].Energy.Decimal().String(); got != c.want {
			t.Errorf("like day %d days away: %s, want %s", c.away, got, c.want)
		}
	}
	// The same weekday, and no other.
	kWh := repeat(81, 1, 2, 3, 4, 5, 6, 7)
	kWh[40] = -1
	res := fillOK(t, Request{Ledger: days(kWh...), Span: span(38, 43), Method: LikeDays})
	if got, want := res.Days[2], calendar.Day(40).Weekday(); got.Energy.Decimal().String() != "6" {
		t.Errorf("%s filled with %s, want 6 as on every %s", got.Day, got.Energy, want)
	}
}

// CalTRACK methods, 2.2.2.1: a day of which part is missing is filled with the
// mean of what is present. Twenty hours of 24 with 16.0 kWh make 19.2 kWh
// there. Here the missing hours follow the days around instead, so that the
// two agree where those days are like the measured hours.
func TestPartOfADay(t *testing.T) {
	l := days(repeat(30, 19.2)...)
	l.Days[10].State, l.Days[10].Energy, l.Days[10].Hours = 3, measured(16).Energy, 20
	res := fillOK(t, Request{Ledger: l, Span: span(0, 30), Method: Near})
	if got := res.Days[10].Energy.Text(6); got != "19.200000" {
		t.Errorf("day = %s kWh, want 19.2", got)
	}
}

// JCGM 100:2008, G.4.1: the Welch-Satterthwaite formula. Two equal parts of ν
// degrees of freedom each make 2ν; a part without weight adds none.
func TestJoin(t *testing.T) {
	for _, c := range []struct{ a, b, na, nb, standard, freedom float64 }{
		{3, 3, 7, 7, 4.242640687119285, 14},
		{3, 4, 6, 8, 5, 13.736263736263735}, // 25² / (81/6 + 256/8)
		{3, 0, 7, 1, 3, 7},
	} {
		s, f := join(plan{standard: c.a, freedom: c.na}, plan{standard: c.b, freedom: c.nb})
		if !same(s, c.standard) || !same(f, c.freedom) {
			t.Errorf("join(%g/%g, %g/%g) = %g, %g, want %g, %g", c.a, c.na, c.b, c.nb, s, f, c.standard, c.freedom)
		}
	}
}

func same(got, want float64) bool { return got > want-1e-9 && got < want+1e-9 }
