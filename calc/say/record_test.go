package say_test

import (
	"maps"
	"slices"
	"strings"
	"testing"

	"splittally/calc/calendar"
	"splittally/calc/record"
	"splittally/calc/say"
)

func TestRecordWords(t *testing.T) {
	for ms, want := range map[int64]string{0: "less than 1 s", 1000: "1 s", 61_000: "1 min 1 s", 3_605_000: "1 h", 7_500_000: "2 h 5 min", 90_000_000: "1 d 1 h"} {
		if got := strings.ReplaceAll(say.Lasting(ms), "\u202f", " "); got != want {
			t.Errorf("%d ms: %s, want %s", ms, got, want)
		}
	}
	for n, want := range map[int]string{0: "0", 999: "999", 1000: "1 000", 31_500_000: "31 500 000"} {
		if got := strings.ReplaceAll(say.Thousands(n), "\u202f", " "); got != want {
			t.Errorf("%d: %s, want %s", n, got, want)
		}
	}
	day, _ := calendar.Date(2024, 3, 5)
	for wall, want := range map[int64]string{int64(day) * record.DayLength: "5 Mar 2024 00:00", int64(day)*record.DayLength - 1000: "4 Mar 2024 23:59:59", -1000: "31 Dec 1969 23:59:59"} {
		if got := say.WallClock(wall); got != want {
			t.Errorf("%d: %s, want %s", wall, got, want)
		}
	}
	at := int64(day) * record.DayLength
	for to, want := range map[int64]string{at + 60_000: "5 Mar 2024 00:00 to 00:01", at + record.DayLength: "5 Mar 2024 00:00 to 6 Mar 2024 00:00"} {
		if got := say.WallSpan(at, to); got != want {
			t.Errorf("until %d: %s, want %s", to, got, want)
		}
	}
	kinds := []record.Kind{
		record.Duplicate, record.Conflict, record.Overlap, record.Disorder, record.Unreadable, record.NoFigure, record.Reset, record.RollOver,
		record.BelowZero, record.TooLarge, record.ClockBack, record.ClockOn, record.Finer, record.Marked,
	}
	said := map[string]bool{}
	for _, k := range kinds {
		said[say.RecordOddity(record.Oddity{Kind: k, Count: 1})] = true
	}
	roles := []record.Role{record.Import, record.Export, record.Production, record.LegA, record.LegB, record.LegC, record.Circuit}
	for _, r := range roles {
		said[say.Role(r)] = true
	}
	if words := slices.Sorted(maps.Keys(said)); len(words) != len(kinds)+len(roles) {
		t.Errorf("some kind has no words of its own: %q", words)
	}
}
