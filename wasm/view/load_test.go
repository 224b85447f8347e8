package view

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"

	"splittally/calc"
	"splittally/calc/billing"
	"splittally/calc/calendar"
	"splittally/calc/chart"
	"splittally/calc/fill"
	"splittally/calc/ledger"
	"splittally/calc/load"
	"splittally/calc/load/loadtest"
)

// sheetOf gives a sheet of one instrument and bills of thirty days, each with
// its missing days filled, and the load of that instrument.
func sheetOf(l ledger.Ledger, withMeter bool, open map[string]bool) (*sheet, loaded) {
	inst := calc.Instrument{Name: l.Name, Ledger: l, Load: load.Of(l, 0.95), IsLoad: true, BasePrice: decimal.RequireFromString("0.25"), IsBasePriced: true}
	f := calc.Findings{Confidence: 0.95, Instruments: []calc.Instrument{inst}, Meter: l, MeterLoad: inst.Load, IsMeterLoad: withMeter}
	for first := l.First + 5; first+30 <= l.Span().End; first += 30 {
		span := calendar.Span{First: first, End: first + 30}
		f.Periods = append(f.Periods, billing.Statement{Dated: true, Span: span})
		r := calc.Result{}
		for d := span.First; d < span.End; d++ {
			if e := l.At(d); e.State != ledger.Measured {
				r.Filled.Days = append(r.Filled.Days, fill.Day{Day: d, Energy: e.Energy + 7e9, Filled: true, State: e.State})
			}
		}
		f.Instruments[0].Results = append(f.Instruments[0].Results, r)
	}
	s := &sheet{f: f, open: open, slots: map[string]string{}}
	inst = f.Instruments[0]
	return s, loaded{Load: inst.Load, ledger: l, at: "load-0", name: l.Name, results: inst.Results}
}

// unfolded draws a load with every part open.
func unfolded(t testing.TB, l ledger.Ledger, withMeter bool) string {
	t.Helper()
	open := map[string]bool{}
	for {
		s, _ := sheetOf(l, withMeter, open)
		s.put("load", s.loads())
		before := len(open)
		for _, rest := range strings.Split(s.slots["load"], "<details ")[1:] {
			_, rest, _ = strings.Cut(rest, ` id="`)
			id, _, _ := strings.Cut(rest, `"`)
			open[id] = true
		}
		if len(open) == before {
			return s.slots["load"]
		}
	}
}

func TestLoadGolden(t *testing.T) {
	first, _ := calendar.Date(2024, 2, 20)
	golden(t, "load-three-weeks.html", Drawing{Slots: map[string]string{"load": unfolded(t, loadtest.Home(first, 26), false)}})
}

// A year of hours is a small picture, and so is a year of days.
func TestLoadIsSmall(t *testing.T) {
	l := loadtest.Home(19783, 366)
	s, of := sheetOf(l, false, nil)
	span := of.Span()
	for what, c := range map[string]struct {
		drawn string
		most  int
	}{
		"hours": {chart.HoursByDay(heat(of, span)).String(), 60_000},
		"days":  {piece(s.loadCalendar(of)).(interface{ String() string }).String(), 20_000},
	} {
		t.Logf("a year of %s: %d bytes", what, len(c.drawn))
		if len(c.drawn) > c.most {
			t.Errorf("a year of %s has %d bytes, want %d at most", what, len(c.drawn), c.most)
		}
	}
	if all := unfolded(t, l, false); strings.Count(all, "<svg") != 4 {
		t.Errorf("%d drawings, want 4", strings.Count(all, "<svg"))
	}
}

// Several years have a band each, the latest hours first; ids stay unique.
func TestLoadOfYears(t *testing.T) {
	first, _ := calendar.Date(2018, 5, 1)
	all := unfolded(t, loadtest.Home(first, 2200), true)
	seen := map[string]bool{}
	for _, rest := range strings.Split(all, ` id="`)[1:] {
		id, _, _ := strings.Cut(rest, `"`)
		if seen[id] {
			t.Errorf("id %s twice", id)
		}
		seen[id] = true
	}
	if i, j := strings.Index(all, "Every hour of 2024"), strings.Index(all, "Every hour of 2018"); i < 0 || j < i {
		t.Errorf("the hours of 2024 at %d, of 2018 at %d", i, j)
	}
	if !strings.Contains(all, "The days of earlier years") {
		t.Error("all years are drawn at once")
	}
}

func TestHeatKnowsTheClock(t *testing.T) {
	l := loadtest.Home(19783, 366)
	_, of := sheetOf(l, false, nil)
	h := heat(of, of.Span())
	never, unknown := 0, 0
	for _, d := range h.Days {
		for _, v := range d {
			switch {
			case v != v:
				unknown++
			case v == chart.Never:
				never++
			}
		}
	}
	// One hour left out in March; nine days are lost, and thirteen times four hours.
	if never != 1 || unknown != 9*24+13*4 {
		t.Errorf("%d hours never were, %d are unknown", never, unknown)
	}
}

func TestBands(t *testing.T) {
	day := func(y, m, d int) calendar.Day { out, _ := calendar.Date(y, m, d); return out }
	for _, c := range []struct {
		span calendar.Span
		want []string
	}{
		{calendar.Span{First: day(2024, 1, 1), End: day(2025, 1, 1)}, []string{"1 Jan 2024 to 31 Dec 2024"}},
		{calendar.Span{First: day(2024, 7, 1), End: day(2025, 7, 1)}, []string{"1 Jul 2024 to 30 Jun 2025"}},
		{calendar.Span{First: day(2024, 7, 1), End: day(2026, 1, 2)}, []string{"1 Jul 2024 to 31 Dec 2024", "1 Jan 2025 to 31 Dec 2025", "1 Jan 2026 to 1 Jan 2026"}},
	} {
		var got []string
		for _, s := range bands(c.span) {
			got = append(got, s.String())
		}
		if d := cmp.Diff(c.want, got); d != "" {
			t.Error(d)
		}
	}
}

func TestHalves(t *testing.T) {
	first, _ := calendar.Date(2024, 2, 29) // a Thursday
	for days, want := range map[int]int{1: 1, 27*7 - 3: 1, 27*7 - 2: 2, 366: 2} {
		got := halves(calendar.Span{First: first, End: first + calendar.Day(days)})
		if len(got) != want || got[len(got)-1].End != first+calendar.Day(days) || got[0].First != first {
			t.Errorf("%d days are cut into %v, want %d parts", days, got, want)
		}
		if len(got) == 2 && (got[0].End != got[1].First || got[1].First.Weekday() != 1) {
			t.Errorf("%d days are cut into %v", days, got)
		}
	}
}

func BenchmarkLoadYear(b *testing.B) {
	s, of := sheetOf(loadtest.Home(19783, 366), false, nil)
	b.Run("closed", func(b *testing.B) {
		for b.Loop() {
			s.slots = map[string]string{}
			s.put("load", s.loads())
		}
	})
	b.Run("hours", func(b *testing.B) {
		for b.Loop() {
			_ = chart.HoursByDay(heat(of, of.Span())).String()
		}
	})
}
