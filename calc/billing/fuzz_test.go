package billing

import (
	"strings"
	"testing"
)

func FuzzParseDate(f *testing.F) {
	for _, s := range []string{"2023-10-03", "3 Oct 2023", "03/04/2024", "Tue 3rd of Oct. 98", "20231003", "2023-1", "29 Feb 2024", "٣ Oct 2023", "1-2-3-4"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		d := parseDate(text)
		if d.state != dateSure {
			return
		}
		for _, again := range []string{d.day.String(), d.day.Long()} {
			if got := parseDate(again); got.state != dateSure || got.day != d.day {
				t.Errorf("parseDate(%q) = %s, but %q reads as %s", text, d.day, again, outcome(got))
			}
		}
	})
}

func FuzzRead(f *testing.F) {
	f.Add("2023-10-03", "2023-11-02", "30", "412", "", "", "", "", "", "", "", "")
	f.Add("2023-10-03", "2 Nov 2023", "31 days", "", "99871", "00412", "x40", "5", "yes", "1.0376", "maybe", "9:30 pm")
	f.Add("03/04/2024", "05/04/2024", "2", "1,234 kWh", "1,234", "1.903", "1,000", "9", "no", "3,76 %", "yes", "24")
	f.Add("2024-02-29", "2024-02-29", "0", "1e12 MWh", "0,00001", "1e-5", "1e9", "3", "", "0", "no", "noon")
	f.Fuzz(func(t *testing.T, from, to, days, kWh, previous, present, multiplier, digits, estimated, factor, included, hour string) {
		p := Period{
			From: from, To: to, Days: days, KWh: kWh, Previous: previous, Present: present, Multiplier: multiplier,
			Digits: digits, Estimated: estimated, LossFactor: factor, LossIncluded: included, ReadHour: hour,
		}
		r := Read([]Period{p, {}, p}, Options{})
		if len(r.Statements) != 3 {
			t.Fatalf("%d statements for 3 periods", len(r.Statements))
		}
		for i, s := range r.Statements {
			switch {
			case s.Given == (s.Waits != ""):
				t.Errorf("period %d: given %v and waits for %q", i+1, s.Given, s.Waits)
			case s.Given && (s.Days() < 1 || s.Days() > longest || s.Reference <= 0 || s.Billed <= 0):
				t.Errorf("period %d: given with %d days, reference %s, billed %s", i+1, s.Days(), s.Reference, s.Billed)
			}
		}
		for _, q := range r.Questions {
			if len(q.Choices) < 2 || q.Taken == "" {
				t.Errorf("question %+v has nothing to choose", q)
			}
		}
		for _, problem := range r.Problems {
			if !strings.HasPrefix(problem.Path, "periods.") || problem.Wanted == "" {
				t.Errorf("problem without place or words: %+v", problem)
			}
		}
	})
}
