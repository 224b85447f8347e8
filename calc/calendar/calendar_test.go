package calendar

import (
	"testing"
	"time"

	"pgregory.net/rapid"
)

func TestDate(t *testing.T) {
	for _, c := range []struct {
		y, m, d int
		want    string
	}{
		{2024, 2, 29, "2024-02-29"},
		{2000, 2, 29, "2000-02-29"},
		{1970, 1, 1, "1970-01-01"},
		{2023, 2, 29, ""},
		{2100, 2, 29, ""},
		{2024, 4, 31, ""},
		{2024, 13, 1, ""},
		{2024, 0, 1, ""},
		{1969, 12, 31, ""},
		{20024, 1, 1, ""},
	} {
		got, ok := Date(c.y, c.m, c.d)
		if ok != (c.want != "") || (ok && got.String() != c.want) {
			t.Errorf("Date(%d, %d, %d) = %s, %v; want %q", c.y, c.m, c.d, got, ok, c.want)
		}
	}
}

func TestDayAgainstTheStandardLibrary(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := Day(rapid.Int32Range(0, 80000).Draw(t, "day"))
		y, m, dd := d.Date()
		back, ok := Date(y, m, dd)
		if !ok || back != d {
			t.Fatalf("%s came back as %s, %v", d, back, ok)
		}
		if iso, ok := ParseISO(d.String()); !ok || iso != d {
			t.Fatalf("%s parses to %s, %v", d, iso, ok)
		}
		if next := (d + 1).Weekday(); next != (d.Weekday()+1)%7 {
			t.Fatalf("%s is followed by a %s", d, next)
		}
	})
}

func TestParseISOAgainstTheStandardLibrary(t *testing.T) {
	for _, text := range []string{
		"", "2024-02-29", "2023-02-29", "2024-2-29", "2024-02-9", "24-02-29", "02024-02-29", "2024-02-29 ", " 2024-02-29",
		"2024/02/29", "2024-02-29T00:00", "2024-+2-29", "+024-02-29", "2024-02--9", "2024-00-10", "2024-13-10", "2024-04-31",
		"2_24-02-29", "２０２４-02-29", "2024-0x-29", "1970-01-01", "2199-12-31",
	} {
		checkISO(t, text)
	}
	rapid.Check(t, func(t *rapid.T) {
		checkISO(t, rapid.StringMatching(`[0-9+-]{4,5}-[0-9+]{1,2}-[0-9]{1,3}`).Draw(t, "text"))
	})
}

// checkISO compares with time.Parse, which knows years that no bill has.
func checkISO(t interface{ Errorf(string, ...any) }, text string) {
	want, err := time.Parse(time.DateOnly, text)
	wantOK := err == nil && want.Year() >= FirstYear && want.Year() <= LastYear
	got, ok := ParseISO(text)
	if ok != wantOK || ok && got.String() != text {
		t.Errorf("ParseISO(%q) = %s, %v; the standard library says %v", text, got, ok, wantOK)
	}
}

func TestWeekdayFromMemory(t *testing.T) {
	// 1 January 2000 was a Saturday (from memory).
	d, _ := Date(2000, 1, 1)
	if d.Weekday() != time.Saturday {
		t.Errorf("2000-01-01 is a %s", d.Weekday())
	}
}

func TestSpan(t *testing.T) {
	a, _ := Date(2024, 2, 27)
	b, _ := Date(2024, 3, 2)
	s := Span{a, b}
	if s.Days() != 4 || s.Last().String() != "2024-03-01" || s.Has(b) || !s.Has(a) {
		t.Errorf("%v: %d days, last %s", s, s.Days(), s.Last())
	}
	if c := s.Common(Span{b, b + 9}); c.Days() != 0 || c.String() != "no day" {
		t.Errorf("spans that touch share %v", c)
	}
	if got := s.String(); got != "27 Feb 2024 to 1 Mar 2024" {
		t.Errorf("String = %s", got)
	}
}

func TestAt(t *testing.T) {
	for _, c := range []struct {
		ms   int64
		day  string
		rest int64
	}{{0, "1970-01-01", 0}, {86_399_999, "1970-01-01", 86_399_999}, {86_400_000, "1970-01-02", 0}, {-1, "1969-12-31", 86_399_999}, {-86_400_000, "1969-12-31", 0}} {
		if d, rest := At(c.ms); d.String() != c.day || rest != c.rest {
			t.Errorf("%d ms: %s and %d, want %s and %d", c.ms, d, rest, c.day, c.rest)
		}
	}
}
