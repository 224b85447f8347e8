package fill

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/ledger"
)

// days makes a ledger from day 0 (a Thursday) on, in kWh. A negative number is
// a missing day.
func days(kWh ...float64) ledger.Ledger {
	var l ledger.Ledger
	for d, x := range kWh {
		if x < 0 {
			l.Put(calendar.Day(d), ledger.Entry{})
			continue
		}
		l.Put(calendar.Day(d), measured(x))
	}
	return l
}

// repeat gives n days that repeat the pattern.
func repeat(n int, pattern ...float64) []float64 {
	var all []float64
	for i := range n {
		all = append(all, pattern[i%len(pattern)])
	}
	return all
}

func span(first, end int) calendar.Span {
	return calendar.Span{First: calendar.Day(first), End: calendar.Day(end)}
}

func fillOK(t *testing.T, r Request) Result {
	t.Helper()
	res, err := Fill(r)
	if err != nil {
		t.Fatal(err)
	}
	return res
}

func codes(r Result) string {
	var all []string
	for _, n := range r.Notices {
		all = append(all, strings.TrimPrefix(n.Code, "fill-"))
	}
	return strings.Join(all, " ")
}

func TestRefusals(t *testing.T) {
	huge := ledger.Ledger{Days: []ledger.Entry{
		{State: ledger.Measured, Energy: math.MaxInt64}, {State: ledger.Measured, Energy: math.MaxInt64},
	}}
	for _, c := range []struct {
		name string
		r    Request
		want error
	}{
		{"no day in the span", Request{Ledger: days(1)}, ErrNoPeriod},
		{"an empty ledger", Request{Span: span(0, 3)}, ErrNothingMeasured},
		{"only missing days", Request{Ledger: days(-1, -1), Span: span(0, 3)}, ErrNothingMeasured},
		{"a total beyond all range", Request{Ledger: huge, Span: span(0, 2)}, energy.ErrRange},
	} {
		if _, err := Fill(c.r); !errors.Is(err, c.want) {
			t.Errorf("%s: error %v, want %v", c.name, err, c.want)
		}
	}
}

// What each method gives for one day, by name.
func TestMethods(t *testing.T) {
	week := repeat(35, 10, 10, 20, 20, 10, 10, 10) // Saturdays and Sundays 20
	saturday := slices.Clone(week)
	saturday[16] = -1
	edge := append([]float64{8, 12, 8, 12, 8, 12, 8}, -1, -1)
	for _, c := range []struct {
		name   string
		l      ledger.Ledger
		span   calendar.Span
		m      Method
		day    int
		want   string
		notice string
	}{
		{"line, one day", days(5, 4, -1, 8, 4), span(0, 5), Line, 2, "6", "few-trials"},
		{"line, two runs", days(1, -1, 3, -1, 7), span(0, 5), Line, 3, "5", "few-trials"},
		{"line, at the end holds the mean of seven", days(edge...), span(0, 9), Line, 8, "9.714286", "edge-of-data"},
		{"like days, a Saturday", days(saturday...), span(7, 28), LikeDays, 16, "20", ""},
		{"like days, none known", days(5, 4, -1, 8, 3), span(0, 5), LikeDays, 2, "5", "few-trials"},
		{"mean of the period", days(100, 1, 2, 3, 4, -1, 5, 6, 7), span(1, 9), Mean, 5, "4", ""},
		{"mean of nearest days", days(100, 1, 2, -1, 4), span(1, 5), Mean, 3, "26.75", "few-trials"},
	} {
		res := fillOK(t, Request{Ledger: c.l, Span: c.span, Method: c.m})
		d := res.Days[c.day-int(c.span.First)]
		if got := d.Energy.Decimal().String(); got != c.want || !d.Filled || d.Method != c.m || res.Chosen {
			t.Errorf("%s: %s by %s, want %s", c.name, got, d.Method, c.want)
		}
		if got := codes(res); got != c.notice {
			t.Errorf("%s: notices %q, want %q", c.name, got, c.notice)
		}
		if res.Standard <= 0 || res.DoF < 1 {
			t.Errorf("%s: standard %g, degrees of freedom %g", c.name, res.Standard, res.DoF)
		}
	}
}

// Near learns from the record what days are alike.
func TestNearLearns(t *testing.T) {
	week := repeat(63, 10, 11, 20, 21, 10, 9, 10)
	week[30], week[31] = -1, -1 // a Saturday and a Sunday
	slope := make([]float64, 60)
	for i := range slope {
		slope[i] = 10 + float64(i)/2
	}
	for i := 28; i < 34; i++ {
		slope[i] = -1
	}
	for _, c := range []struct {
		name   string
		l      ledger.Ledger
		lo, hi float64
	}{
		{"life by the week", days(week...), 38, 43},
		{"a steady rise", days(slope...), 148, 154}, // truth 151.5
	} {
		res := fillOK(t, Request{Ledger: c.l, Span: span(20, 50), Method: Near})
		sum := 0.0
		for _, d := range res.Days {
			if d.Filled {
				sum += d.Energy.KilowattHours()
			}
		}
		if sum < c.lo || sum > c.hi {
			t.Errorf("%s: filled %.2f kWh, want %g to %g", c.name, sum, c.lo, c.hi)
		}
	}
}

func TestCompletePeriod(t *testing.T) {
	l := days(1, 2, 3, -1)
	l.Days[1].State = ledger.Spread
	res := fillOK(t, Request{Ledger: l, Span: span(0, 3), Others: []ledger.Ledger{days(1, 1, 1, 1)}})
	if res.Total != 6*energy.KilowattHour || res.Measured != 2 || res.Spread != 1 {
		t.Errorf("%+v", res)
	}
	if res.Standard != 0 || res.DoF != 0 || res.Method != "" || res.Other != -1 || len(res.Notices)+len(res.Trials) != 0 {
		t.Errorf("nothing was filled, but %+v", res)
	}
}

func TestCounts(t *testing.T) {
	l := days(9, -1, -1, 8, 7, 9, 8, -1, 9, 10)
	l.Days[4] = ledger.Entry{State: ledger.Partial, Energy: 4 * energy.KilowattHour, Hours: 12}
	res := fillOK(t, Request{Ledger: l, Span: span(0, 10)})
	if res.Measured != 6 || res.Partial != 1 || res.Filled != 4 || res.Longest != 2 {
		t.Errorf("%+v", res)
	}
	if !strings.Contains(codes(res), "partial-days") {
		t.Errorf("notices %q", codes(res))
	}
}

// A partly measured day keeps what was measured.
func TestPartialDays(t *testing.T) {
	flat := repeat(30, 9.9, 10.1)
	other := days(repeat(30, 5)...)
	other.Days[15] = measured(12)
	for _, c := range []struct {
		name   string
		kWh    float64
		hours  float64
		m      Method
		lo, hi float64
	}{
		{"half the day", 8, 12, Near, 12.9, 13.1},
		{"an hour missing on a day away", 1, 23, Near, 1.3, 1.5},
		{"hours not known, much used", 14, 0, Near, 14, 14},
		{"hours not known, little used", 2, 0, Near, 9.9, 10.1},
		{"another monitor has the whole day", 8, 12, Ratio, 23.9, 24.1},
		{"another monitor has less than was measured", 25, 12, Ratio, 25, 25},
	} {
		l := days(flat...)
		l.Days[15] = ledger.Entry{State: ledger.Partial, Energy: measured(c.kWh).Energy, Hours: c.hours}
		d := fillOK(t, Request{Ledger: l, Span: span(0, 30), Others: []ledger.Ledger{other}, Method: c.m}).Days[15]
		if got := d.Energy.KilowattHours(); got < c.lo || got > c.hi || !d.Filled || d.State != ledger.Partial {
			t.Errorf("%s: %+v, want %g to %g kWh", c.name, d, c.lo, c.hi)
		}
	}
}

// The missing part of a day is less than the whole, and so is its doubt, yet
// not in proportion.
func TestPartialDoubt(t *testing.T) {
	l := madeUp(1, 60, 5)[0].daily
	at := func(hours float64) float64 {
		l.Days[40] = ledger.Entry{State: ledger.Partial, Energy: energy.KilowattHour, Hours: hours}
		return fillOK(t, Request{Ledger: l, Span: span(15030, 15060), Method: Near}).Standard
	}
	l.Days[40] = ledger.Entry{}
	whole := fillOK(t, Request{Ledger: l, Span: span(15030, 15060), Method: Near}).Standard
	if half, little := at(12), at(23); !(little < half && half < whole && little > whole/24) {
		t.Errorf("one hour %g, twelve %g, all %g", little, half, whole)
	}
}

func TestRatio(t *testing.T) {
	r := []float64{12, 9, 15, 11, 18, 13, 10, 12, 16, 9, 11, 14, 10, 19, 8, 12, 13, 9, 17, 11}
	own, other, sparse := slices.Clone(r), slices.Clone(r), slices.Clone(r)
	for i := range other {
		other[i] *= 1.25
		sparse[i] *= 0.5
	}
	for i := 6; i < 10; i++ {
		own[i] = -1
	}
	sparse[7], other[9] = -1, -1
	res := fillOK(t, Request{Ledger: days(own...), Span: span(0, 20), Others: []ledger.Ledger{days(sparse...), days(other...)}})
	if res.Method != Ratio || !res.Chosen || res.Other != 0 && res.Other != 1 {
		t.Fatalf("%+v", res)
	}
	// Both others have three of the four days; what neither has is filled otherwise.
	for i, d := range res.Days[6:10] {
		if d.Method == Ratio && math.Abs(d.Energy.KilowattHours()-r[6+i]) > 1e-9 {
			t.Errorf("day %d = %s, want %g", 6+i, d.Energy, r[6+i])
		}
	}
	alone := fillOK(t, Request{Ledger: days(own...), Span: span(0, 20)})
	if alone.Method == Ratio || res.Standard >= alone.Standard {
		t.Errorf("with another monitor %g kWh, without %g by %s", res.Standard, alone.Standard, alone.Method)
	}
	forced := fillOK(t, Request{Ledger: days(own...), Span: span(0, 20), Method: Ratio})
	if forced.Method == Ratio || !strings.Contains(codes(forced), "method-not-possible") {
		t.Errorf("ratio to nothing: %s, %s", forced.Method, codes(forced))
	}
}

// Another instrument that has nothing to do with this one is not leaned on.
func TestRatioToAStranger(t *testing.T) {
	own := repeat(60, 10, 10.5, 9.8, 10.2)
	own[30] = -1
	strange := madeUp(1, 60, 9)[0].daily
	strange.First = 0
	if res := fillOK(t, Request{Ledger: days(own...), Span: span(20, 50), Others: []ledger.Ledger{strange}}); res.Method == Ratio {
		t.Errorf("leaned on a stranger: %+v", res.Trials)
	}
}

func TestHardPlaces(t *testing.T) {
	lone := repeat(60, -1)
	lone[0] = 12
	far := append(repeat(40, 10, 12, 11), repeat(60, -1)...)
	same := repeat(40, 7)
	same[20] = -1
	for _, c := range []struct {
		name   string
		kWh    []float64
		span   calendar.Span
		notice string
		lo, hi float64 // of Total
		least  float64 // of Standard
	}{
		{"one day known", lone, span(0, 30), "edge-of-data little-measured few-trials", 359, 361, 20},
		{"nothing in the period", far, span(60, 90), "edge-of-data little-measured", 300, 360, 3},
		{"all days the same", same, span(10, 40), "", 209.9999, 210.0001, 0},
	} {
		res := fillOK(t, Request{Ledger: days(c.kWh...), Span: c.span})
		if got := res.Total.KilowattHours(); got < c.lo || got > c.hi || res.Standard < c.least || res.DoF < 1 {
			t.Errorf("%s: total %g, standard %g, degrees of freedom %g", c.name, got, res.Standard, res.DoF)
		}
		if got := codes(res); got != c.notice {
			t.Errorf("%s: notices %q, want %q", c.name, got, c.notice)
		}
	}
}

// A gap at the end of the record is known less well than one inside.
func TestEdgeIsHarder(t *testing.T) {
	l := madeUp(1, 90, 3)[0].daily
	gap := func(first int) Result {
		own := ledger.Ledger{First: l.First, Days: slices.Clone(l.Days)}
		for i := first; i < first+5; i++ {
			own.Days[i] = ledger.Entry{}
		}
		return fillOK(t, Request{Ledger: own, Span: span(15060, 15090)})
	}
	inside, edge := gap(72), gap(85)
	if edge.Standard <= inside.Standard || codes(edge) != "edge-of-data" || codes(inside) != "" {
		t.Errorf("inside %g (%s), at the edge %g (%s)", inside.Standard, codes(inside), edge.Standard, codes(edge))
	}
}

// A mistyped year makes a period of a hundred years; it must not hang.
func TestVeryLongPeriod(t *testing.T) {
	res := fillOK(t, Request{Ledger: madeUp(1, 60, 3)[0].daily, Span: span(0, ledger.MaxDays)})
	if res.Filled != ledger.MaxDays-60 {
		t.Errorf("%d days filled", res.Filled)
	}
}
