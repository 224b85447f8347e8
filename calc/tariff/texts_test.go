package tariff

import (
	"slices"
	"testing"
)

func TestYearDays(t *testing.T) {
	for text, want := range map[string]yearDay{
		"1 May": 501, "May 1": 501, "05-01": 501, "1st of May": 501, "31 Oct": 1031, "31/10": 1031, "10.31.": 1031, "Feb 29": 229,
		"1. Mai": 501, "5/5": 505, "1-Nov": 1101, " 30 apr ": 430,
	} {
		if d, s := readYearDay(text); s != good || d != want {
			t.Errorf("%q: %d, state %d, want %d", text, d, s, want)
		}
	}
	for text, want := range map[string]state{
		"": absent, "1": begun, "M": begun, "1 M": begun, "1 Ju": begun, "05-": begun, "05-0": begun, "May": begun, "12": begun,
		"1/5": wrong, "31 Feb": wrong, "1 May 2024": wrong, "May June": wrong, "summer": wrong, "99": begun, "123": wrong, "05-41": wrong,
	} {
		if d, s := readYearDay(text); s != want {
			t.Errorf("%q: %d, state %d, want %d", text, d, s, want)
		}
	}
}

func TestDates(t *testing.T) {
	for _, text := range []string{"2024-05-13", "13 May 2024", "May 13, 2024", "13/05/2024", "5/13/2024", "2024/5/13", "13. Mai 2024", "2024 May 13"} {
		if d, s := readDate(text); s != good || d != day(t, "2024-05-13") {
			t.Errorf("%q: %s, state %d", text, d, s)
		}
	}
	for text, want := range map[string]state{
		"": absent, "2": begun, "2024": begun, "2024-05": begun, "2024-05-0": begun, "13 May": begun, "13 May 20": begun,
		"03/04/2024": wrong, "2024-13-01": wrong, "31 Apr 2024": wrong, "13 May 2024 x": wrong, "tomorrow": wrong, "1 2 3 4": wrong,
	} {
		if d, s := readDate(text); s != want {
			t.Errorf("%q: %s, state %d, want %d", text, d, s, want)
		}
	}
	if d, s := readDate("4/4/2024"); s != good || d != day(t, "2024-04-04") {
		t.Errorf("the fourth of April: %s, state %d", d, s)
	}
}

func TestHours(t *testing.T) {
	for text, want := range map[string][]hours{
		"7-11":               {{420, 660}},
		"7-11, 17-19":        {{420, 660}, {1020, 1140}},
		"22:30-6":            {{1350, 360}},
		"07:00 – 11:30":      {{420, 690}},
		"7.30 to 9h15":       {{450, 555}},
		"0-24":               {{0, 1440}},
		"22-0":               {{1320, 1440}},
		"18-24; 0-6":         {{1080, 1440}, {0, 360}},
		"4 p.m. to 9 p.m.":   {{960, 1260}},
		"4-9 pm":             {{960, 1260}},
		"11-2 pm":            {{660, 840}},
		"11-7 am":            {{1380, 420}},
		"7-11 am and 5-7 pm": {{420, 660}, {1020, 1140}},
		"9 pm to midnight":   {{1260, 1440}},
		"midnight to noon":   {{0, 720}},
		"12 am to 6 am":      {{0, 360}},
		"noon-6pm,":          {{720, 1080}},
		"11 pm - 7 am":       {{1380, 420}},
		"23:59-0:01":         {{1439, 1}},
		"7h-9h":              {{420, 540}},
	} {
		if got, s := readHours(text); s != good || !slices.Equal(got, want) {
			t.Errorf("%q: %v, state %d, want %v", text, got, s, want)
		}
	}
	for text, want := range map[string]state{
		"": absent, "7": begun, "7-": begun, "22:": begun, "22:3": begun, "22:30": begun, "7-11, 1": begun, "4 pm-9": begun,
		"25-3": wrong, "24-6": wrong, "7-7": wrong, "7-11:75": wrong, "seven": wrong, "13 pm-3 pm": wrong, ",": wrong, "0:00:00-6": wrong, "123-4": wrong,
	} {
		if got, s := readHours(text); s != want {
			t.Errorf("%q: %v, state %d, want %d", text, got, s, want)
		}
	}
}

func TestDays(t *testing.T) {
	for text, want := range map[string]string{ // Sunday first; then the same as holidays
		"":                    "1111111 1111111",
		"all":                 "1111111 1111111",
		"workdays":            "0111110 0000000",
		"rest":                "1000001 1111111",
		"Sat, Sun, holidays":  "1000001 1111111",
		"Mon-Fri":             "0111110 0111110",
		"Fridays to mondays,": "1100011 1100011",
		"weekend":             "1000001 1000001",
		"Holidays":            "0000000 1111111",
		"Dienstag":            "0010000 0010000",
		"workdays, Sunday":    "1111110 1000000",
	} {
		d, s := readDays(text)
		got := ""
		for _, holiday := range []bool{false, true} {
			for w := range 7 {
				got += map[bool]string{true: "1", false: "0"}[d.have(w, holiday)]
			}
			got += " "
		}
		if s != good && text != "" || got != want+" " {
			t.Errorf("%q: %s, state %d, want %s", text, got, s, want)
		}
	}
	for text, want := range map[string]state{
		"W": begun, "satur": begun, "Mon-": begun, "holi": begun, "Mon, Tu": begun, "weekdays": wrong, "sometimes": wrong, ",": wrong, "all-Fri": wrong,
	} {
		if _, s := readDays(text); s != want {
			t.Errorf("%q: state %d, want %d", text, s, want)
		}
	}
}
