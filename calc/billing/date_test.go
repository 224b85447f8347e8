package billing

import (
	"strings"
	"testing"
)

func TestParseDate(t *testing.T) {
	for text, want := range map[string]string{
		"2023-10-03":                "2023-10-03",
		"2023-10-03T09:30:00+02:00": "2023-10-03",
		"2023-10-03 09:30":          "2023-10-03",
		" 2023/10/3 ":               "2023-10-03",
		"20231003":                  "2023-10-03",
		"3 Oct 2023":                "2023-10-03",
		"3rd of October, 2023":      "2023-10-03",
		"Tuesday 3 October 2023":    "2023-10-03",
		"Oct 3, 2023":               "2023-10-03",
		"OCT-03-23":                 "2023-10-03",
		"3-Oct-70":                  "1970-10-03",
		"3-Oct-69":                  "2069-10-03",
		"2023 Oct 3":                "2023-10-03",
		"3. Oktober 2023":           "2023-10-03",
		"1er octobre 2023":          "2023-10-01",
		"3 de octubre de 2023":      "2023-10-03",
		"di 3 okt 2023":             "2023-10-03",
		"3 März 2024":               "2024-03-03",
		"3 Sept 2023":               "2023-09-03",
		"30/10/2023":                "2023-10-30",
		"10/30/2023":                "2023-10-30",
		"10.10.2023":                "2023-10-10",
		"29 Feb 2024":               "2024-02-29",
		"03/10/2023":                "either way",
		"3.4.24":                    "either way",
		"":                          "absent",
		"\u00a0":                    "absent",
		"2":                         "unfinished",
		"2023":                      "unfinished",
		"202310":                    "unfinished",
		"2023-1":                    "unfinished",
		"2023-10-":                  "unfinished",
		"0202-10-03":                "unfinished",
		"3 O":                       "unfinished",
		"3 Oct":                     "unfinished",
		"Oct 3":                     "unfinished",
		"3 Oct 202":                 "unfinished",
		"31 April 2024":             "wrong",
		"29 Feb 2023":               "wrong",
		"2023-13-01":                "wrong",
		"31/31/2024":                "wrong",
		"3 J 2023":                  "wrong",
		"3 2023 Oct":                "wrong",
		"Oct June 2023":             "wrong",
		"1850-10-03":                "wrong",
		"3 Oct 2023 to 2 Nov 2023":  "wrong",
		"2023-10-03 to 2023-11-02":  "wrong",
		"Wed 3 Oct 2023":            "wrong",
		"Tue 3/10/2023":             "2023-10-03",
		"Fri 3/10/2023":             "2023-03-10",
		"Wed 3/10/2023":             "wrong",
		"soon":                      "wrong",
		"3x Oct 2023":               "wrong",
		"123456789":                 "wrong",
	} {
		if got := outcome(parseDate(text)); got != want {
			t.Errorf("parseDate(%q) = %s, want %s", text, got, want)
		}
	}
}

func outcome(d date) string {
	if d.state == dateSure {
		return d.day.String()
	}
	return [...]string{"absent", "unfinished", "wrong", "sure", "either way"}[d.state]
}

func TestOrderOfDayAndMonth(t *testing.T) {
	for _, c := range []struct {
		name    string
		periods []Period
		answer  string
		first   string // the days of the first period
		said    []string
	}{
		{
			"shown by another date",
			[]Period{{From: "03/04/2024", To: "02/05/2024", Days: "29"}, {From: "02/05/2024", To: "30/05/2024", Days: "28"}},
			"", "3 Apr 2024 to 1 May 2024",
			[]string{"notice date-order periods.0.from"},
		},
		{
			"the other way runs backwards",
			[]Period{{From: "03/10/2023", To: "02/11/2023", Days: "30"}},
			"", "3 Oct 2023 to 1 Nov 2023",
			[]string{"notice date-order periods.0.from"},
		},
		{
			"month first, or backwards",
			[]Period{{From: "10/03/2023", To: "11/02/2023", Days: "30"}},
			"", "3 Oct 2023 to 1 Nov 2023",
			[]string{"notice date-order periods.0.from"},
		},
		{
			"only the last date in doubt",
			[]Period{{From: "2023-10-03", To: "11/02/2023", Days: "30"}},
			"", "3 Oct 2023 to 1 Nov 2023",
			[]string{"notice date-order periods.0.to"},
		},
		// 4 Jan to 5 Feb or 1 Apr to 2 May: nobody can know.
		{
			"asked",
			[]Period{{From: "04/01/2024", To: "05/02/2024"}},
			"", "4 Jan 2024 to 4 Feb 2024",
			[]string{"question periods.date-order = day-first", "question periods.0.convention = last-excluded"},
		},
		{
			"answered",
			[]Period{{From: "04/01/2024", To: "05/02/2024"}},
			"month-first", "1 Apr 2024 to 1 May 2024",
			[]string{"question periods.date-order = month-first, answered", "question periods.0.convention = last-excluded"},
		},
		// Both orders run forwards; one makes a month, the other four days.
		{
			"the usual length is provisional",
			[]Period{{From: "01/04/2024", To: "02/04/2024"}},
			"", "4 Jan 2024 to 3 Feb 2024",
			[]string{"question periods.date-order = month-first", "question periods.0.convention = last-excluded"},
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := Read(c.periods, Options{Answers: map[string]string{"periods.date-order": c.answer}})
			if got := r.Statements[0].Span.String(); got != c.first {
				t.Errorf("span %s, want %s", got, c.first)
			}
			wantSaid(t, r, c.said...)
		})
	}
}

func TestOrderQuestionShowsBothDates(t *testing.T) {
	r := Read([]Period{{From: "04/01/2024", To: ""}}, Options{})
	if len(r.Questions) != 1 {
		t.Fatalf("questions %v, want one", r.Questions)
	}
	var gives []string
	for _, c := range r.Questions[0].Choices {
		gives = append(gives, c.Gives)
	}
	if got := strings.Join(gives, " | "); got != "4 Jan 2024 to … | 1 Apr 2024 to …" {
		t.Errorf("gives %s", got)
	}
}

func TestParseHour(t *testing.T) {
	for text, want := range map[string]float64{
		"0": 0, "24": 24, "24:00": 24, "9:30": 9.5, "9.30": 9.5, "9.5": 9.5, "9,5": 9.5, "09": 9, "midnight": 0, "Noon": 12,
		"9 am": 9, "9:30 pm": 21.5, "12 am": 0, "12 pm": 12, "12:15am": 0.25, "14 h": 14, "１４": 14,
	} {
		if got, state := parseHour(text); state != dateSure || got != want {
			t.Errorf("parseHour(%q) = %v, %v; want %v", text, got, state, want)
		}
	}
	for text, want := range map[string]dateState{
		"": dateAbsent, " ": dateAbsent, "9:": dateUnfinished, "mid": dateUnfinished,
		"25": dateWrong, "24:01": dateWrong, "-1": dateWrong, "9:60": dateWrong, "9.5:30": dateWrong,
		"13 pm": dateWrong, "0 am": dateWrong, "morning": dateWrong, "9:5:5": dateWrong, "1,234": dateWrong,
	} {
		if got, state := parseHour(text); state != want {
			t.Errorf("parseHour(%q) = %v, state %v; want state %v", text, got, state, want)
		}
	}
}

func TestReadOffset(t *testing.T) {
	for _, c := range []struct {
		days, hour string
		want       float64
	}{
		{"30", "9:30", 9.5}, // the last date is excluded: the read is after the midnight that ends the span
		{"31", "9:30", -14.5},
		{"30", "0", 0},
		{"31", "midnight", 0},
		{"30", "24", 0},
		{"31", "24", 0},
		{"31", "", 0},
	} {
		r := Read([]Period{month(func(p *Period) { p.Days, p.ReadHour = c.days, c.hour })}, Options{})
		if got := r.Statements[0].ReadOffset; got != c.want {
			t.Errorf("%s days, read at %q: offset %v h, want %v", c.days, c.hour, got, c.want)
		}
	}
	if got := FirstExcluded.ReadOffset(18); got != -6 {
		t.Errorf("first date excluded, read at 18: offset %v h, want -6", got)
	}
}
