package scan

import (
	"fmt"
	"strings"
	"testing"

	"splittally/calc/number"
)

// show writes the items of the lines of a text so that a table can hold them.
func show(s *Sheet) string {
	var out []string
	for i := range s.Lines {
		for _, it := range s.Of(i) {
			t := ""
			switch it.Kind {
			case Word:
				t = it.Fold
				if it.Unit != 0 {
					t += "/" + it.Unit.Name()
				}
			case DateOf:
				t = showDate(it.Date)
			case TimeOf:
				t = fmt.Sprintf("@%d:%02d", it.Minute/60, it.Minute%60)
				if it.Zoned {
					t += fmt.Sprintf("%+d", it.Offset)
				}
			case Number:
				t = "#" + showNumber(it.Readings) + it.Unit.Name()
			case Missing:
				t = "missing"
			case Dash:
				t = "dash"
			}
			if it.Bracket {
				t = "(" + t + ")"
			}
			out = append(out, t)
		}
	}
	return strings.Join(out, " ")
}

func showNumber(rs []number.Reading) string {
	var out []string
	for _, r := range rs {
		out = append(out, r.Value.String())
	}
	return strings.Join(out, "|")
}

func showDate(d Date) string {
	year := ""
	if d.Year != 0 {
		year = fmt.Sprintf("%d", d.Year)
	}
	switch d.Form {
	case DayMonth:
		return fmt.Sprintf("D:%d?%d:%s", d.A, d.B, year)
	case TwoDigit:
		return fmt.Sprintf("D:%d?%d?%d", d.A, d.B, d.C)
	case Month:
		return fmt.Sprintf("M:%s-%d", year, d.Month)
	case Week:
		return fmt.Sprintf("W:%s-%d", year, d.Day)
	}
	return fmt.Sprintf("D:%s-%d-%d", year, d.Month, d.Day)
}

func TestItems(t *testing.T) {
	for text, want := range map[string]string{
		"Oct 3  12.4":                       "D:-10-3 #12.4",
		"Monday 3 October — 12,4 kWh":       "monday D:-10-3 dash #12.4kWh",
		"3rd of October 2023: 12.4kWh":      "D:2023-10-3 #12.4kWh",
		"October 3rd, 2023, 1,234 Wh":       "D:2023-10-3 #1.234|1234Wh",
		"3. Oktober 2023 12,4":              "D:2023-10-3 #12.4",
		"3 de octubre de 2023 12,4":         "D:2023-10-3 #12.4",
		"1er août 2023 : 12,4 kWh":          "D:2023-8-1 #12.4kWh",
		"03-OCT-23 12.4":                    "D:2023-10-3 #12.4",
		"Oct-3-2023 12.4":                   "D:2023-10-3 #12.4",
		"Oct '23 412":                       "M:2023-10 #412",
		"October 2023 412":                  "M:2023-10 #412",
		"mar 3 oct 12,4":                    "mar D:-10-3 #12.4",
		"mar. 03/10/2023 12,4":              "mar D:3?10:2023 #12.4",
		"Oct3 12.4":                         "D:-10-3 #12.4",
		"2024-01-15 00:00 1.4":              "D:2024-1-15 @0:00 #1.4",
		"2023-11-05T01:00:00-05:00 2.0":     "D:2023-11-5 @1:00-300 #2",
		"2023-11-05 01:00:00-0500 2.0":      "D:2023-11-5 @1:00-300 #2",
		"2023-11-05T01:00:00Z 2.0":          "D:2023-11-5 @1:00+0 #2",
		"2023-11-05 01:00-02:00 2.0":        "D:2023-11-5 @1:00 @2:00 #2",
		"2023-11-05 01:00 - 01:30 2.0":      "D:2023-11-5 @1:00 dash @1:30 #2",
		"10/26/2023 1:30 PM 2.0":            "D:10?26:2023 @13:30 #2",
		"10/26/2023 12 a.m. 2.0":            "D:10?26:2023 @0:00 #2",
		"24:00 1.2":                         "@24:00 #1.2",
		"10/26/23 10.2":                     "D:10?26?23 #10.2",
		"29.12.2023 15,63":                  "D:29?12:2023 #15.63",
		"29.12. 15,63":                      "D:29?12: #15.63",
		"29. 12. 2023 15,63":                "D:29?12:2023 #15.63",
		"20231003 12.4":                     "D:2023-10-3 #12.4",
		"2023/10/03 12.4":                   "D:2023-10-3 #12.4",
		"10-03 12.4":                        "D:10?3: #12.4",
		"3/10 12.4":                         "D:3?10: #12.4",
		"2023-W40 88.2":                     "W:2023-40 #88.2",
		"Week 40 2023: 88.2 kWh":            "W:2023-40 #88.2kWh",
		"KW 40: 88,2":                       "W:-40 #88.2",
		"Week 40: 2 Oct - 8 Oct 88.2":       "week D:-10-2 dash D:-10-8 #88.2",
		"3 Oct 1o.1":                        "D:-10-3 #",
		"3 Oct: 12.4 kWh on 2nd floor":      "D:-10-3 #12.4kWh on 2nd floor",
		"1 Oct - 7 Oct  88.2":               "D:-10-1 dash D:-10-7 #88.2",
		"Oct 1-7  88.2":                     "D:-10-1 D:-10-7 #88.2",
		"1-7 Oct 2023 88.2":                 "D:2023-10-1 D:2023-10-7 #88.2",
		"Oct 3 -12.4":                       "D:-10-3 #-12.4",
		"Oct 3 - 12.4":                      "D:-10-3 dash #12.4",
		"Oct 3 −12.4":                       "D:-10-3 #-12.4",
		"- Oct 3: 12.4":                     "dash D:-10-3 #12.4",
		"1. 2024-01-01 12.4":                "D:2024-1-1 #12.4",
		"1) Oct 3 12.4":                     "D:-10-3 #12.4",
		"3 Oct: 12.4 kWh (cloudy)":          "D:-10-3 #12.4kWh (cloudy)",
		"3 Oct: 14.2 (2 guests)":            "D:-10-3 #14.2 (#2another quantity)",
		"12.4kWh on Oct 3":                  "#12.4kWh on D:-10-3",
		"Oct 3 12.4 kW h $3.12":             "D:-10-3 #12.4kWh #3.12money",
		"Oct 3 12.4 3,12 €":                 "D:-10-3 #12.4 #3.12money",
		"Oct 3 12.4 CHF 3.12":               "D:-10-3 #12.4 chf/money #3.12money",
		"Oct 3 12.4 18°C":                   "D:-10-3 #12.4 #18another quantity",
		"Oct 3 no data":                     "D:-10-3 missing",
		"Oct 3 n/a":                         "D:-10-3 missing",
		"Oct 3 --":                          "D:-10-3 missing",
		"Oct 3 -":                           "D:-10-3 dash",
		"Oct 3 ?":                           "D:-10-3 missing",
		"Oct 3 1\u202f234,5 Wh":             "D:-10-3 #1234.5Wh",
		"Oct 3 1'234.5 Wh":                  "D:-10-3 #1234.5Wh",
		"Oct 3 1 234,5 Wh":                  "D:-10-3 #1 #234.5Wh",
		"Oct 3 12.4.5":                      "D:-10-3 #",
		"Ｏｃｔ ３　１２．４ ｋＷｈ":                    "D:-10-3 #12.4kWh",
		"2023年10月3日 12.4":                   "D:2023-10-3 #12.4",
		"We were away 2 days, bill 143.20.": "we were away #2another quantity bill #143.2",
		"Sensor1 12.4":                      "sensor1 #12.4",
		"☀️ Oct 3 ➜ 12.4 kWh 🎉":             "D:-10-3 #12.4kWh",
		"<td>2024-01-01</td><td>12.4</td>":  "D:2024-1-1 #12.4",
		`{"date":"2024-01-01","kwh":12.4},`: "date D:2024-1-1 kwh/kWh #12.4",
		"2024-01-01\t14 865,8":              "D:2024-1-1 #14865.8",
		"2024-01-01\t(12.4)":                "D:2024-1-1 #-12.4",
		"2024-01-01;;12.4":                  "D:2024-1-1 #12.4",
		"| 2024-01-01 | **12.4** |":         "D:2024-1-1 #12.4",
		`2024-01-01,"12,4"`:                 "D:2024-1-1 #12.4",
		"2024-01-01,18.481":                 "D:2024-1-1 #18.481|18481",
		"2024-04-01,01:00,1.39":             "D:2024-4-1 @1:00 #1.39",
		"Oct 3, 12.4":                       "D:-10-3 #12.4",
		"45200\t27.7":                       "#45200 #27.7",
		"3 Oct 12,4":                        "D:-10-3 #12.4",
	} {
		if got := show(Read(text)); got != want {
			t.Errorf("%q\n got %s\nwant %s", text, got, want)
		}
	}
}

func TestLines(t *testing.T) {
	for text, want := range map[string]string{
		"a\nb": "a|b", "a\r\nb\r\n": "a|b", "a\rb": "a|b", "a\n\nb": "a||b", "": "", "\ufeffa\n": "a", "\n": "",
	} {
		if got := strings.Join(Lines(text), "|"); got != want {
			t.Errorf("Lines(%q) = %q, want %q", text, got, want)
		}
	}
}

func TestColumnCountsCharacters(t *testing.T) {
	if got := Column("é☀x", len("é☀")); got != 3 {
		t.Errorf("column of x = %d, want 3", got)
	}
}

// TestTwoBytes reads a text that was saved with two bytes to a character, as
// bytes and as a decoder for UTF-8 hands it on.
func TestTwoBytes(t *testing.T) {
	wide := strings.Join(strings.Split("2023-10-03\t12.4\r\n2023-10-04\t9.8", ""), "\x00") + "\x00"
	for _, mark := range []string{"\xff\xfe", "\uFFFD\uFFFD", ""} {
		if got, want := show(Read(mark+wide)), "D:2023-10-3 #12.4 D:2023-10-4 #9.8"; got != want {
			t.Errorf("with %q: %s, want %s", mark, got, want)
		}
	}
}
