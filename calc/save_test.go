package calc_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"splittally/calc"
	"splittally/calc/billing"
	"splittally/calc/example"
)

func TestOpenRefuses(t *testing.T) {
	for _, c := range []struct{ name, text, path, found string }{
		{"nothing", "", "", "not JSON"},
		{"a picture", "\x89PNG\r\n", "", "not JSON"},
		{"other JSON", `{"name": "x", "version": 3}`, "", "JSON of another kind"},
		{"a list", `[1, 2]`, "", "JSON of another kind"},
		{"another version", `{"splittally": "99"}`, "splittally", "99"},
		{"a field of no case", `{"splittally": "1", "meters": []}`, "meters", "meters"},
		{"a wrong kind", `{"splittally": "1", "periods": [{"from": ["a"]}]}`, "periods.0.from", "a list"},
		{"cut off", strings.TrimSuffix(example.Text, "}\n"), "", "not JSON"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, problems := calc.Open(c.text)
			if len(problems) == 0 {
				t.Fatal("was opened")
			}
			if p := problems[0]; p.Path != c.path || !strings.Contains(p.Found, c.found) || p.Wanted == "" {
				t.Errorf("got %+v", p)
			}
			if diff := cmp.Diff(calc.Case{}, got); diff != "" {
				t.Errorf("a refused file left something:\n%s", diff)
			}
		})
	}
}

func TestSavedCaseOpensTheSame(t *testing.T) {
	c := mustOpen(t, example.Text)
	c.Periods = append(c.Periods, billing.Period{From: "half ty", LossIncluded: "yes", Convention: "both-belong"})
	c.Answers = []calc.Answer{{Question: "periods.0.convention", Choice: "both-belong"}}
	if diff := cmp.Diff(c, mustOpen(t, calc.Save(c))); diff != "" {
		t.Error(diff)
	}
}

// FuzzOpen: whatever opens is worked without a panic, and saves and opens as
// the same case.
func FuzzOpen(f *testing.F) {
	f.Add(example.Text)
	f.Add(`{"splittally": "1"}`)
	f.Add(`{"splittally": 1, "confidence": "NaN", "periods": [{"from": "2024-02-30", "to": "x", "kwh": "1e999"}]}`)
	f.Add(`{"splittally": "1", "monitors": [{"readings": ["Oct 3 12.4"], "accuracy": "-1", "method": "x"}], "periods": [{"from": "2023-10-01", "to": "2023-11-01", "previous": "99999", "present": "3"}]}`)
	f.Fuzz(func(t *testing.T, text string) {
		c, problems := calc.Open(text)
		if len(problems) > 0 {
			return
		}
		calc.Work(c)
		again, problems := calc.Open(calc.Save(c))
		if len(problems) > 0 {
			t.Fatalf("what was saved does not open: %v", problems)
		}
		if diff := cmp.Diff(c, again); diff != "" {
			t.Fatal(diff)
		}
	})
}
