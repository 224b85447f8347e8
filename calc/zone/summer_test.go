package zone

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
)

// code packs a rule, for tests.
func code(month, operator, weekday, day, hour, second uint32) uint32 {
	return month<<28 | operator<<25 | day<<20 | weekday<<17 | hour<<12 | second
}

// The first row is NAESB REQ.21 ESPI, usage.xsd version 0.7.20190408,
// DstRuleType, with the rule that its sample files carry. The second is the
// example in the text of that type: the third Friday in March at 1:45.
func TestDecodeRule(t *testing.T) {
	for _, c := range []struct {
		code uint32
		want Rule
		ok   bool
	}{
		{0x360E2000, Rule{Month: 3, Operator: 3, Weekday: 7, Day: 0, Hour: 2, Second: 0}, true},
		{code(3, 4, 5, 0, 1, 2700), Rule{Month: 3, Operator: 4, Weekday: 5, Hour: 1, Second: 2700}, true},
		{0xB40E2000, Rule{Month: 11, Operator: 2, Weekday: 7, Hour: 2}, true},
		{0, Rule{}, false},
		{code(3, 0, 0, 0, 2, 0), Rule{Month: 3, Hour: 2}, false},              // the day 0 of a month
		{code(3, 2, 0, 0, 2, 0), Rule{Month: 3, Operator: 2, Hour: 2}, false}, // the first of no weekday
		{code(13, 2, 7, 0, 2, 0), Rule{Month: 13, Operator: 2, Weekday: 7, Hour: 2}, false},
	} {
		got, ok := DecodeRule(c.code)
		if ok != c.ok || !cmp.Equal(got, c.want) {
			t.Errorf("DecodeRule(%08X) = %+v, %v, want %+v, %v", c.code, got, ok, c.want, c.ok)
		}
	}
	if _, ok := DecodeRule(never); ok {
		t.Error("FFFFFFFF says that the clock is not changed")
	}
}

func TestDateOfRule(t *testing.T) {
	for _, c := range []struct {
		code uint32
		year int
		want string // empty if there is none
	}{
		{0x360E2000, 2012, "2012-03-11"},
		{0xB40E2000, 2012, "2012-11-04"},
		{0x360E2000, 2015, "2015-03-08"}, // 1 March is a Sunday
		{code(3, 7, 7, 0, 1, 0), 2024, "2024-03-31"},
		{code(10, 7, 7, 0, 1, 0), 2021, "2021-10-31"},
		{code(2, 7, 4, 0, 1, 0), 2024, "2024-02-29"},
		{code(4, 1, 7, 1, 3, 0), 2023, "2023-04-02"},
		{code(4, 1, 7, 2, 3, 0), 2023, "2023-04-02"},
		{code(4, 1, 7, 3, 3, 0), 2023, "2023-04-09"},
		{code(2, 0, 0, 29, 0, 0), 2024, "2024-02-29"},
		{code(2, 0, 0, 29, 0, 0), 2023, ""},
		{code(2, 6, 7, 0, 0, 0), 2024, ""}, // no fifth Sunday
		{code(3, 6, 7, 0, 0, 0), 2024, "2024-03-31"},
	} {
		r, ok := DecodeRule(c.code)
		if !ok {
			t.Fatalf("%08X is no rule", c.code)
		}
		got := ""
		if d, ok := r.Date(c.year); ok {
			got = d.String()
		}
		if got != c.want {
			t.Errorf("%+v in %d = %q, want %q", r, c.year, got, c.want)
		}
	}
}

// TestAgainstZoneData compares the offsets with those of Go's zone data, over
// years in which the rules of these places did not change.
func TestAgainstZoneData(t *testing.T) {
	for _, c := range []struct {
		place       string
		p           Parameters
		first, last int
		name        string
	}{
		{"America/New_York", Parameters{-18000, 3600, 0x360E2000, 0xB40E2000}, 2007, 2024, "UTC−5 with summer time"},
		{"America/St_Johns", Parameters{-12600, 3600, 0x360E2000, 0xB40E2000}, 2012, 2024, "UTC−3:30 with summer time"},
		{"Europe/Berlin", Parameters{3600, 3600, code(3, 7, 7, 0, 2, 0), code(10, 7, 7, 0, 3, 0)}, 1997, 2024, "UTC+1 with summer time"},
		{"Australia/Melbourne", Parameters{36000, 3600, code(10, 1, 7, 1, 2, 0), code(4, 1, 7, 1, 3, 0)}, 2009, 2024, "UTC+10 with summer time"},
		{"Australia/Brisbane", Parameters{36000, 0, never, never}, 1995, 2024, "UTC+10"},
	} {
		place, err := time.LoadLocation(c.place)
		if err != nil {
			t.Skip("no zone data here: ", err)
		}
		rules := c.p.Rules(c.first, c.last)
		if rules.Name != c.name {
			t.Errorf("%s is called %q, want %q", c.place, rules.Name, c.name)
		}
		end := time.Date(c.last+1, 1, 1, 0, 0, 0, 0, time.UTC).Unix()
		for at := time.Date(c.first, 1, 1, 0, 0, 0, 0, time.UTC).Unix(); at < end; at += 1800 {
			_, want := time.Unix(at, 0).In(place).Zone()
			if got, _, _ := rules.At(at); got != want {
				t.Fatalf("%s at %v: %d, want %d", c.place, time.Unix(at, 0).UTC(), got, want)
			}
		}
	}
}
