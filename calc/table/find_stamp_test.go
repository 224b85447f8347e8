package table

import (
	"testing"

	"splittally/calc/calendar"
)

// wall gives the time that a stamp shows under a form, in milliseconds.
func wall(t *testing.T, text string, form Form) (ms int64, offset int) {
	t.Helper()
	s, ok := readStamp([]byte(text))
	if !ok {
		t.Fatalf("readStamp(%q) does not take it", text)
	}
	if s.shape == clockOnly {
		return s.clock, s.offset
	}
	day, ok := s.day(form)
	if !ok {
		t.Fatalf("%q is no day in form %d", text, form)
	}
	return int64(day)*dayLength + max(s.clock, 0), s.offset
}

func at(year, month, day int, clock int64) int64 {
	d, _ := calendar.Date(year, month, day)
	return int64(d)*dayLength + clock
}

func TestReadStamp(t *testing.T) {
	t.Parallel()
	quarter := int64(15 * minuteLength)
	noon := at(2024, 3, 1, 12*hourLength)
	for _, c := range []struct {
		text   string
		form   Form
		want   int64
		offset int
	}{
		{"2024-03-01 12:00", YearFirst, noon, 0},
		{"2024-03-01T12:00:00", YearFirst, noon, 0},
		{"2024/3/1 12:00:00.000", YearFirst, noon, 0},
		{"2024.03.01 12.00", YearFirst, noon, 0},
		{"20240301 1200", YearFirst, noon, 0},
		{"20240301T120000Z", YearFirst, noon, 0},
		{"202403011200", YearFirst, noon, 0},
		{"20240301120000", YearFirst, noon, 0},
		{"2024-Mar-01 12:00", YearFirst, noon, 0},
		{"2024-03-01", YearFirst, noon - 12*hourLength, 0},
		{"2024-03-01T12:00:00+02:00", YearFirst, noon, 7200},
		{"2024-03-01 12:00:00 -0600", YearFirst, noon, -6 * 3600},
		{"2024-03-01 12:00:00.5-03:30", YearFirst, noon + 500, -(3*3600 + 1800)},
		{"2024-03-01 12:00 UTC", YearFirst, noon, 0},
		{"3/1/2024 12:00:00 PM EST", MonthFirst, noon, -5 * 3600},
		{"1.3.2024 12:00", DayFirst, noon, 0},
		{"01/03/24 12:00", DayFirst, noon, 0},
		{"3/1/2024 12:00 PM", MonthFirst, noon, 0},
		{"3/1/2024 12:15 AM", MonthFirst, noon - 12*hourLength + quarter, 0},
		{"3/1/2024 11:59:59 p.m.", MonthFirst, noon + 12*hourLength - 1000, 0},
		{"1-3-2024 5 pm", DayFirst, noon + 5*hourLength, 0},
		{"1 Mar 2024 12:00", MonthFirst, noon, 0}, // a name leaves no choice
		{"Mar 1, 2024 12:00", DayFirst, noon, 0},
		{"Fri 1 March 2024, 12:00", DayFirst, noon, 0},
		{"Friday, March 1, 2024 12:00 PM", MonthFirst, noon, 0},
		{"1. März 2024 12:00", DayFirst, noon, 0},
		{"1 août 2024 00:00", DayFirst, at(2024, 8, 1, 0), 0},
		{"2024-03-01 24:00", YearFirst, noon + 12*hourLength, 0},
		{"2024-03-01 12:00 - 12:15", YearFirst, noon, 0},
		{"2024-03-01 12:00 – 2024-03-01 12:15", YearFirst, noon, 0},
		{"00:15", YearFirst, quarter, 0},
		{"12:15:00 AM", YearFirst, quarter, 0},
		{"00:15-00:30", YearFirst, quarter, 0},
		{"24:00", YearFirst, 24 * hourLength, 0},
		{"05-06", YearFirst, 5 * hourLength, 0},
	} {
		if ms, offset := wall(t, c.text, c.form); ms != c.want || offset != c.offset {
			t.Errorf("%q is %d with offset %d, want %d with %d", c.text, ms, offset, c.want, c.offset)
		}
	}
}

func TestReadStampRefuses(t *testing.T) {
	t.Parallel()
	for _, text := range []string{
		"", "1.234", "12.5", "1,5", "12345", "1234567", "kWh", "Total", "12:60", "25:00", "24:01", "13:00 PM", "2024-03",
		"1.2.345", "2024-03-01 12:00 kWh", "2024-03-01x", "12.000.000", "1 234 567", "192.168.1.1", "01/02", "-5", "5-7", "20241301", "Mar",
		"10:00 and then", "99/99/99999 00:00", "0.5 kWh",
	} {
		if s, ok := readStamp([]byte(text)); ok {
			t.Errorf("readStamp(%q) = %+v, want it refused", text, s)
		}
	}
}

// TestPublishedStamps holds the examples of RFC 3339, section 5.8 (from memory),
// that lie within the years of package calendar.
func TestPublishedStamps(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ text, utc string }{
		{"1985-04-12T23:20:50.52Z", "1985-04-12T23:20:50.52Z"},
		{"1996-12-19T16:39:57-08:00", "1996-12-20T00:39:57Z"},
		{"1990-12-31T23:59:60Z", "1991-01-01T00:00:00Z"}, // a leap second runs on into the next
		{"1990-12-31T15:59:60-08:00", "1991-01-01T00:00:00Z"},
	} {
		got, offset := wall(t, c.text, YearFirst)
		want, _ := wall(t, c.utc, YearFirst)
		if got-int64(offset)*1000 != want {
			t.Errorf("%s is %d, want %d as %s", c.text, got-int64(offset)*1000, want, c.utc)
		}
	}
}

func TestReadUnix(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		text   string
		ms     int64
		millis bool
	}{
		{"1709251200", at(2024, 3, 1, 0), false},
		{"1709251200.25", at(2024, 3, 1, 250), false},
		{"1709251200.0000000", at(2024, 3, 1, 0), false},
		{"1709251200000", at(2024, 3, 1, 0), true},
	} {
		if ms, millis, ok := readUnix([]byte(c.text)); !ok || ms != c.ms || millis != c.millis {
			t.Errorf("readUnix(%q) = %d, %v, %v", c.text, ms, millis, ok)
		}
	}
	for _, text := range []string{"", "12345", "700000000000", "1709251200x", "-1709251200", "17092512000000000", "1709251200,5"} {
		if _, _, ok := readUnix([]byte(text)); ok {
			t.Errorf("readUnix(%q) takes it", text)
		}
	}
}

// TestReadSerial checks serials against dates that spreadsheets show for them:
// 25569 is 1970-01-01 and 45292 is 2024-01-01 (common practice, no source).
func TestReadSerial(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		text string
		ms   int64
	}{
		{"45292", at(2024, 1, 1, 0)},
		{"45352.5", at(2024, 3, 1, 12*hourLength)},
		{"45352,0104166667", at(2024, 3, 1, 15*minuteLength)},
		{"45352.010417", at(2024, 3, 1, 15*minuteLength)},
		{"45352.9999999", at(2024, 3, 2, 0)},
	} {
		if ms, _, ok := serialOf([]byte(c.text)); !ok || ms != c.ms {
			t.Errorf("serialOf(%q) = %d, %v, want %d", c.text, ms, ok, c.ms)
		}
	}
	for _, text := range []string{"", "4529", "452920", "99999", "45292.", "45292.x", "-45292"} {
		if ms, places, ok := serialOf([]byte(text)); ok && places > 0 {
			t.Errorf("serialOf(%q) = %d", text, ms)
		}
	}
}
