package holiday

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"splittally/calc/calendar"
)

func observed(region string, year int) string {
	var days []string
	for _, h := range Of(region, year) {
		days = append(days, h.Day.String())
	}
	slices.Sort(days)
	return strings.Join(days, " ")
}

func wantDays(t *testing.T, region string, year int, want string) {
	t.Helper()
	if d := cmp.Diff(strings.Fields(want), strings.Fields(observed(region, year))); d != "" {
		t.Errorf("%s %d (-want +got):\n%s", region, year, d)
	}
}

// Ontario Electricity Financial Corporation, holiday calendar of its power
// purchase agreements, 2025 in full. The days were read there.
func TestPublishedOntario2025(t *testing.T) {
	wantDays(t, "CA-ON", 2025, "2025-01-01 2025-02-17 2025-04-18 2025-05-19 2025-07-01 2025-08-04 2025-09-01 2025-10-13 2025-12-25 2025-12-26")
}

// A distributor's copy of the Ontario Energy Board's time-of-use holidays, 2017
// in full: New Year's Day on a Sunday, Canada Day on a Saturday.
func TestPublishedOntario2017(t *testing.T) {
	wantDays(t, "CA-ON", 2017, "2017-01-02 2017-02-20 2017-04-14 2017-05-22 2017-07-03 2017-08-07 2017-09-04 2017-10-09 2017-12-25 2017-12-26")
}

// Ontario Electricity Financial Corporation, the same calendar: holidays moved
// from a weekend to the next weekday that is not a holiday.
func TestPublishedOntarioMoved(t *testing.T) {
	for _, c := range []struct {
		name string
		year int
		want string
	}{
		{christmas, 2021, "2021-12-27"},
		{boxing, 2021, "2021-12-28"},
		{newYear, 2022, "2022-01-03"},
		{christmas, 2022, "2022-12-26"},
		{boxing, 2022, "2022-12-27"},
	} {
		day, ok := calendar.ParseISO(c.want)
		if name, is := is("CA-ON", day); !ok || !is || name != c.name {
			t.Errorf("%s is %q, want %s", c.want, name, c.name)
		}
	}
}

// NERC, additional off-peak days 2010 to 2015: 2010 in full, and New Year's Day
// 2011, which stays on its Saturday. Read in a copy of the list.
func TestPublishedPowerTrade(t *testing.T) {
	wantDays(t, "US-NERC", 2010, "2010-01-01 2010-05-31 2010-07-05 2010-09-06 2010-11-25 2010-12-25")
	day, _ := calendar.ParseISO("2011-01-01")
	if name, ok := is("US-NERC", day); !ok {
		t.Errorf("1 January 2011 is %q, want a holiday", name)
	}
}

// The dates of Matariki for 2022 to 2028: New Zealand's government, July 2021,
// as printed in a newspaper. Later ones are from memory; each must be a Friday
// of June or July, which the same announcement says.
func TestPublishedMatariki(t *testing.T) {
	for _, d := range strings.Fields("2022-06-24 2023-07-14 2024-06-28 2025-06-20 2026-07-10 2027-06-25 2028-07-14") {
		day, _ := calendar.ParseISO(d)
		if name, _ := is("NZ", day); name != "Matariki" {
			t.Errorf("%s is %q, want Matariki", d, name)
		}
	}
	for year := 2022; year <= 2052; year++ {
		for _, h := range Of("NZ", year) {
			if _, m, _ := h.Day.Date(); h.Name == "Matariki" && (dayOfWeek(h.Day) != friday || m != 6 && m != 7) {
				t.Errorf("Matariki %d is %s", year, h.Day)
			}
		}
	}
	if got := len(Of("NZ", 2053)); got != 10 {
		t.Errorf("%d holidays in 2053, want the ten without Matariki", got)
	}
}

// Dates of Easter Sunday: U.S. Naval Observatory, The Date of Easter (from
// memory), with the earliest and the latest of these centuries.
func TestPublishedEaster(t *testing.T) {
	for _, want := range strings.Fields("2000-04-23 2008-03-23 2011-04-24 2019-04-21 2024-03-31 2025-04-20 2038-04-25 2049-04-18") {
		day, _ := calendar.ParseISO(want)
		year, _, _ := day.Date()
		if got, ok := Easter(year); !ok || got != day {
			t.Errorf("Easter %d is %s, want %s", year, got, want)
		}
	}
}
