package load

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"splittally/calc/calendar"
	"splittally/calc/energy"
	"splittally/calc/ledger"
	"splittally/calc/load/loadtest"
)

var update = flag.Bool("update", false, "write the golden files anew")

// told writes the numbers of a load, one a line.
func told(l Load) string {
	var b strings.Builder
	say := func(format string, of ...any) { fmt.Fprintf(&b, format+"\n", of...) }
	say("%d days with hours, %s; %d hours count, %d below zero", len(l.Days), l.Span(), l.Counted, l.Below)
	for _, share := range []float64{0, 0.01, 0.1, 0.5, 0.9, 1} {
		say("above for %g of the time: %.3f W", share, l.At(share))
	}
	for kind, name := range []string{"weekdays", "weekends"} {
		say("%s: %d", name, l.Typical[kind].Days)
		for h, q := range l.Typical[kind].Hours {
			say("  %02d %d hours, %.2f %.2f %.2f W", h, q.Count, q.Low, q.Median, q.High)
		}
	}
	say("base %+v", l.Base)
	say("a year of it %.1f kWh", PerYear(l.Base.Watts))
	for _, p := range l.Largest {
		say("largest %s %02d:00 again=%t part=%t %s", p.Day, p.Hour, p.IsAgain, p.IsPart, p.Energy)
	}
	say("largest day %s %s, least %s %s", l.LargestDay.Day, l.LargestDay.Energy, l.LeastDay.Day, l.LeastDay.Energy)
	for _, m := range l.Months {
		say("%s: %s, %d whole, %d partial, %d missing, %.3f a day", m.Span, m.Energy, m.Whole, m.Partial, m.Missing, m.PerDay())
		for i, p := range l.Parts(m.Span) {
			say("  from %02d:00 %d hours, %.1f W", i*PartHours, p.Hours, p.Watts)
		}
	}
	return b.String()
}

func TestGolden(t *testing.T) {
	got := told(Of(loadtest.Home(date(t, 2024, 1, 10), 366), 0.95))
	file := filepath.Join("testdata", "larch-house.txt")
	if *update {
		if err := os.MkdirAll("testdata", 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(string(want), got); d != "" {
		t.Errorf("%s (-update writes it anew):\n%s", file, d)
	}
}

// A ledger of days alone has months and no hours.
func TestDaysAlone(t *testing.T) {
	l := ledger.Ledger{First: date(t, 2025, 1, 30), Days: []ledger.Entry{
		{State: ledger.Measured, Energy: 5}, {State: ledger.Spread, Energy: 7}, {}, {State: ledger.Partial, Energy: 2}, {State: ledger.Measured, Energy: 9},
	}}
	got := Of(l, 0.95)
	first := l.First
	want := []Month{
		{Span: calendar.Span{First: first, End: first + 2}, Energy: 12, Whole: 2, InWhole: 12},
		{Span: calendar.Span{First: first + 2, End: first + 5}, Energy: 11, Whole: 1, Partial: 1, Missing: 1, InWhole: 9},
	}
	if d := cmp.Diff(want, got.Months); d != "" {
		t.Error(d)
	}
	if got.Counted != 0 || got.Base.IsKnown || len(got.Days)+len(got.Largest) > 0 {
		t.Errorf("hours from nowhere: %+v", got)
	}
	if want := (DayTotal{first + 4, 9}); got.LargestDay != want || !got.IsDaily {
		t.Errorf("largest day %+v, want %+v", got.LargestDay, want)
	}
	if of := Of(ledger.Ledger{}, 0.95); of.IsDaily || len(of.Months) > 0 || of.Span().Days() > 0 {
		t.Errorf("of nothing: %+v", of)
	}
}

func TestMonthAfter(t *testing.T) {
	for from, want := range map[string]string{
		"2024-02-01": "2024-03-01", "2024-02-29": "2024-03-01", "2023-02-28": "2023-03-01", "2024-12-31": "2025-01-01",
		"2024-01-31": "2024-02-01", "2024-04-28": "2024-05-01", "2024-04-30": "2024-05-01",
	} {
		d, _ := calendar.ParseISO(from)
		if got := monthAfter(d).String(); got != want {
			t.Errorf("after %s comes %s, want %s", from, got, want)
		}
	}
}

// Short hours count by their power, and not at all below a half.
func TestCovered(t *testing.T) {
	l := ledger.Ledger{First: 100, Days: []ledger.Entry{{State: ledger.Partial, Energy: 3}}}
	add := func(from, to int, e energy.Energy, short int32) {
		l.Slots = append(l.Slots, ledger.Slot{Day: 100, From: from, To: to, Energy: e, Short: short})
	}
	add(0, 60, 300*energy.WattHour, Whole/4)   // 400 W
	add(60, 120, 300*energy.WattHour, Whole/2) // 600 W
	add(120, 180, 900*energy.WattHour, Whole/2+1)
	add(180, 195, 25*energy.WattHour, 0) // half an hour of 100 W, in quarters
	add(195, 210, 25*energy.WattHour, 0)
	add(240, 360, 5000*energy.WattHour, 0) // two hours: tells of neither
	add(390, 435, 90, 0)                   // 06:30 to 07:15: 60 and 30 µWh
	got := Of(l, 0.95)
	if d := cmp.Diff([]float64{0, 100, 400, 600}, got.Powers); d != "" {
		t.Error(d)
	}
	d := got.Days[0]
	if d.Hours[6] != (Hour{60, Whole / 2}) || d.Hours[7] != (Hour{30, Whole / 4}) || d.Hours[4] != (Hour{}) || d.IsWhole {
		t.Errorf("hours %+v", d)
	}
	if p := got.Largest[0]; p.Hour != 2 || !p.IsPart {
		t.Errorf("largest %+v", p)
	}
}

// An hour that is not there never was on a whole day, unless a longer slot has it.
func TestWholeDays(t *testing.T) {
	hour := func(d calendar.Day, from, to int) ledger.Slot { return ledger.Slot{Day: d, From: from, To: to} }
	l := ledger.Ledger{First: 1, Days: []ledger.Entry{{State: ledger.Measured}, {State: ledger.Measured}, {State: ledger.Measured}, {State: ledger.Partial}}}
	l.Slots = []ledger.Slot{hour(1, 0, 60), hour(1, 60, 240), hour(2, 0, 60), hour(3, 0, 180), hour(3, 180, 240), hour(4, 0, 60)}
	var got []bool
	for _, d := range hours(l) {
		got = append(got, d.IsWhole)
	}
	if d := cmp.Diff([]bool{false, true, false, false}, got); d != "" {
		t.Error(d)
	}
}

func TestRunOfTwo(t *testing.T) {
	slot := func(again bool, e energy.Energy) ledger.Slot {
		return ledger.Slot{Day: 7, From: 60, To: 120, Energy: e, Again: again}
	}
	d := hours(ledger.Ledger{Slots: []ledger.Slot{slot(false, 3), slot(true, 5)}})[0]
	if got, want := d.Run(1), (Hour{8, 2 * Whole}); got != want || d.AgainAt != 1 || d.Again != (Hour{5, Whole}) {
		t.Errorf("both runs are %+v, want %+v, in %+v", got, want, d)
	}
}

// Whatever the slots, their energies add up to that of the hours, and nothing
// panics.
func TestHoursAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := ledger.Ledger{First: 100}
		var want energy.Energy
		at, day := 0, calendar.Day(100)
		for range rapid.IntRange(0, 80).Draw(t, "slots") {
			length := rapid.IntRange(1, 60).Draw(t, "minutes")
			if at += rapid.SampledFrom([]int{0, 0, 30, 300}).Draw(t, "hole"); at+length > 1440 {
				at, day = 0, day+1
			}
			s := ledger.Slot{Day: day, From: at, To: at + length, Energy: energy.Energy(rapid.Int64Range(-1e13, 1e13).Draw(t, "energy")), Again: rapid.Bool().Draw(t, "again")}
			s.Short = rapid.Int32Range(0, int32(length)*60_000-1).Draw(t, "short")
			if s.Short > int32(length)*60_000-60 { // too little is left to be split in two
				s.Short = 0
			}
			l.Slots = append(l.Slots, s)
			want += s.Energy
			at += length
		}
		load := Of(l, 0.95)
		var got energy.Energy
		for i := range load.Days {
			for h := range 24 {
				got += load.Days[i].Run(h).Energy
			}
		}
		if got != want {
			t.Fatalf("hours add up to %d, slots to %d", got, want)
		}
	})
}

func BenchmarkYear(b *testing.B) {
	l := loadtest.Home(19783, 366)
	b.ReportAllocs()
	for b.Loop() {
		Of(l, 0.95)
	}
}
