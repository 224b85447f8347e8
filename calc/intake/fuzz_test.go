package intake

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"splittally/calc/calendar"
	"splittally/calc/intake/scan"
	"splittally/calc/ledger"
)

// FuzzRead reads anything. It never panics, accounts for every line once, and
// every problem points into the text.
func FuzzRead(f *testing.F) {
	names, _ := filepath.Glob("../../testdata/pasted/*.txt")
	for _, name := range names {
		if strings.HasSuffix(name, ".want.txt") {
			continue
		}
		raw, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(raw), 0, 0, "")
	}
	f.Add("03/04/2023 11.9\n04/05/2023 14.7", 19450, 19600, "day-first")
	f.Add("2024-01-01,12,4\n2024-01-02,9,8", 19450, 19600, "columns")
	f.Add("12.4\n9.8", 19450, 19452, "2023-04-01")
	f.Fuzz(func(t *testing.T, text string, near, end int, answer string) {
		o := Options{Path: "monitors.0", Answers: map[string]string{}, Near: calendar.Span{First: calendar.Day(near % 40000), End: calendar.Day(end % 40000)}}
		for _, id := range []string{"day-order", "year", "unit", "register", "decimal-mark", "zeros", "first-day", "totals-of-weeks", "doubled-days", "power", "commas", "column-parts", "leg-sign", "utc-evenings"} {
			o.Answers["monitors.0."+id] = answer
		}
		checkSound(t, text, Read(text, o))
		checkSound(t, text, Read(text, Options{Today: calendar.Day(near % 40000)}))
	})
}

// checkSound checks what holds of every result.
func checkSound(t *testing.T, text string, r Result) {
	t.Helper()
	lines := scan.Lines(text)
	if len(lines) != len(r.Lines) {
		t.Fatalf("%d lines accounted for, the text has %d", len(r.Lines), len(lines))
	}
	wrong, told := map[int]bool{}, map[int]bool{}
	for i, l := range r.Lines {
		if l.Number != i+1 || l.Use > Wrong || l.Use != Used && l.Why == "" {
			t.Fatalf("line %d: %+v", i+1, l)
		}
		wrong[l.Number] = l.Use == Wrong
	}
	for _, p := range r.Problems {
		if p.Line == 0 {
			continue
		}
		if p.Line > len(lines) || p.Column < 1 || p.Column > utf8.RuneCountInString(lines[p.Line-1])+1 || !wrong[p.Line] {
			t.Fatalf("problem %+v points outside the text, or at a line that is not wrong", p)
		}
		told[p.Line] = true
	}
	for line, is := range wrong {
		if is && !told[line] {
			t.Fatalf("line %d is wrong, but no problem says so", line)
		}
	}
	for _, l := range r.Ledgers {
		if len(l.Days) == 0 || len(l.Days) > ledger.MaxDays {
			t.Fatalf("a ledger of %d days", len(l.Days))
		}
		checkSlots(t, l)
		for i, e := range l.Days {
			if e.Rounding < 0 || e.Line < 0 || e.Line > len(lines) || e.State == ledger.Spread && !e.Total.Has(l.First+calendar.Day(i)) {
				t.Fatalf("%s: %+v", l.First+calendar.Day(i), e)
			}
		}
	}
	for _, q := range r.Questions {
		found := false
		for _, c := range q.Choices {
			found = found || c.ID == q.Taken
		}
		if !found {
			t.Fatalf("question %s rests on %q, which is no choice", q.ID, q.Taken)
		}
	}
}
