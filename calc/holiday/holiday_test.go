package holiday

import (
	"testing"

	"pgregory.net/rapid"

	"splittally/calc/calendar"
)

func TestHolidays(t *testing.T) {
	for _, c := range []struct{ region, day, want string }{
		{"US", "2021-12-31", newYear}, // of 2022, a Saturday
		{"US", "2022-01-01", ""},
		{"US", "2020-06-19", ""}, // before there was one
		{"US", "2027-06-18", "Juneteenth"},
		{"US-NERC", "2022-01-01", newYear},
		{"GB-ENG", "2020-05-04", ""},
		{"GB-ENG", "2020-05-08", mayDay},
		{"GB-ENG", "2022-05-30", ""},
		{"GB-ENG", "2022-06-02", spring},
		{"GB-ENG", "2012-06-05", jubilee},
		{"NZ", "2010-04-26", ""}, // Anzac Day on a Sunday, before 2014
		{"NZ", "2021-04-26", "Anzac Day"},
		{"NZ", "2023-01-03", "Day after New Year’s Day"},
		{"AU", "2021-04-26", ""}, // stays on its Sunday
		{"AU", "2021-04-25", "Anzac Day"},
		{"IE", "2030-02-01", "Saint Brigid’s Day"},
		{"CA-ON", "2007-02-19", ""}, // Family Day began in 2008
		{"FR", "2024-05-09", ascension},
		{"US", "1999-12-25", ""}, // before FirstYear
		{"", "2024-12-25", ""},
		{"us", "2024-12-25", ""},
	} {
		day, ok := calendar.ParseISO(c.day)
		if !ok {
			t.Fatalf("%s is no day", c.day)
		}
		if name, is := is(c.region, day); name != c.want || is != (c.want != "") {
			t.Errorf("%s %s: %q, want %q", c.region, c.day, name, c.want)
		}
	}
}

func TestRegions(t *testing.T) {
	before := Region{}
	for _, r := range Regions() {
		if r.Name <= before.Name {
			t.Errorf("%s does not come after %s", r.Name, before.Name)
		}
		if !Known(r.ID) || len(Of(r.ID, 2025)) < 6 {
			t.Errorf("%s has %d holidays in 2025", r.ID, len(Of(r.ID, 2025)))
		}
		before = r
	}
}

// No two holidays of a region are observed on one day, but for those that fall
// together without being moved; and what is moved is never on a weekend.
func TestObservedProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := rapid.SampledFrom(regions).Draw(t, "region")
		year := rapid.IntRange(FirstYear, calendar.LastYear-1).Draw(t, "year")
		for _, h := range Of(r.ID, year) {
			if y, _, _ := h.Day.Date(); y != year {
				t.Fatalf("%s %d has %s", r.ID, year, h.Day)
			}
			if name, ok := is(r.ID, h.Day); !ok || name == "" {
				t.Fatalf("%s is no holiday", h.Day)
			}
		}
		for _, rule := range r.rules {
			day, ok := rule.day(year)
			if !ok || rule.move == stays {
				continue
			}
			if to := rule.moved(day, nil, nil); isWeekend(to) && (rule.move != sundays || dayOfWeek(to) != saturday) {
				t.Fatalf("%s %d is observed on %s", rule.name, year, to)
			}
		}
	})
}

// is says whether d is a holiday of the region, and its name. An unknown region
// and a year before FirstYear have none.
func is(region string, d calendar.Day) (name string, ok bool) {
	year, _, _ := d.Date()
	for _, h := range Of(region, year) {
		if h.Day == d {
			return h.Name, true
		}
	}
	return "", false
}
