package changes

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"splittally/calc"
	"splittally/calc/billing"
	"splittally/calc/example"
	"splittally/calc/link"
)

// cases gives the scenarios and the worked example.
func cases(t testing.TB) map[string]calc.Case {
	t.Helper()
	files, _ := filepath.Glob("../../testdata/scenario/*.case.json")
	out := map[string]calc.Case{"the-worked-example": opened(t, example.Text)}
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		out[strings.TrimSuffix(filepath.Base(file), ".case.json")] = opened(t, string(text))
	}
	if len(out) < 30 {
		t.Fatal("no scenarios")
	}
	return out
}

func opened(t testing.TB, text string) calc.Case {
	t.Helper()
	c, problems := calc.Open(text)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	return c
}

func keysOf(items []Item) (keys []string) {
	for _, i := range items {
		keys = append(keys, i.Key)
	}
	return keys
}

// A link that comes back as it was sent has changed nothing.
func TestNothingDiffersAfterALink(t *testing.T) {
	for name, c := range cases(t) {
		for _, o := range []link.Options{{}, {Names: true}, {Hours: true}, {Names: true, Hours: true}} {
			back, err := link.Read(link.Write(c, o))
			if err != nil {
				t.Fatal(name, err)
			}
			for _, i := range Between(c, back) {
				t.Errorf("%s %+v: %+v", name, o, i)
			}
		}
		if items := Between(c, c); len(items) > 0 {
			t.Errorf("%s: differs from itself: %+v", name, items)
		}
		if diff := cmp.Diff(c, Take(c, c, nil)); diff != "" {
			t.Errorf("%s: nothing taken: %s", name, diff)
		}
	}
}

func TestOneThingEach(t *testing.T) {
	mine := cases(t)["the-worked-example"]
	for _, c := range []struct {
		name   string
		change func(c *calc.Case)
		want   Item
	}{
		{"a figure of a bill", func(c *calc.Case) { c.Periods[1].KWh = "700" }, Item{Where: "Bill 2", What: "energy billed", Theirs: "700 kWh"}},
		{"a bill less", func(c *calc.Case) { c.Periods = append(c.Periods[:0:0], c.Periods[1:]...) }, Item{Where: "Bill 1", What: "all of it"}},
		{"a bill more", func(c *calc.Case) {
			c.Periods = append([]billing.Period{{From: "2020-01-01", To: "2020-02-01", KWh: "300"}}, c.Periods...)
		}, Item{Where: "Added: Bill 1", What: "all of it", Theirs: "2020-01-01, 2020-02-01, 300 kWh"}},
		{"a monitor less", func(c *calc.Case) { c.Monitors = c.Monitors[1:] }, Item{Where: mine.Monitors[0].Name, What: "all of it"}},
		{"confidence", func(c *calc.Case) { c.Confidence = "90" }, Item{Where: "The case", What: "confidence of every ±", Theirs: "90 %"}},
		{"which dates belong", func(c *calc.Case) { c.Periods[0].Convention = "both-belong" }, Item{Where: "Bill 1", What: "which dates belong", Theirs: "both dates"}},
		{"an answer", func(c *calc.Case) {
			c.Answers = append(c.Answers[:len(c.Answers):len(c.Answers)], calc.Answer{Question: "periods.0.convention", Choice: "both-belong"})
		}, Item{Where: "Bill 1", What: "the answer to a question: which dates belong", Theirs: "both dates"}},
	} {
		for _, o := range []link.Options{{}, {Names: true, Hours: true}} {
			theirs := link.Clean(mine, o)
			c.change(&theirs)
			items := Between(mine, theirs)
			if len(items) != 1 {
				t.Errorf("%s: %+v", c.name, items)
				continue
			}
			got := items[0]
			if got.Where != c.want.Where || got.What != c.want.What || c.want.Theirs != "" && got.Theirs != c.want.Theirs {
				t.Errorf("%s: %+v, want %+v", c.name, got, c.want)
			}
			taken := Take(mine, theirs, keysOf(items))
			if left := Between(taken, theirs); len(left) > 0 {
				t.Errorf("%s: all taken, and it differs: %+v", c.name, left)
			}
		}
	}
}
