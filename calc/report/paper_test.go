package report

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"splittally/calc"
	"splittally/calc/example"
)

// about is what the papers of the tests say of themselves.
var about = About{Today: "2026-01-05", Version: "1.0", Engine: "0123456789ab"}

// cases gives the worked example and all scenarios by their names.
func cases(t testing.TB) map[string]calc.Case {
	t.Helper()
	out := map[string]calc.Case{"the-worked-example": opened(t, "the example", example.Text)}
	files, err := filepath.Glob("../../testdata/scenario/*.case.json")
	if err != nil || len(files) < 30 {
		t.Fatalf("%d scenarios, %v", len(files), err)
	}
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		out[strings.TrimSuffix(filepath.Base(file), ".case.json")] = opened(t, file, string(text))
	}
	return out
}

func opened(t rapid.TB, name, text string) calc.Case {
	t.Helper()
	c, problems := calc.Open(text)
	if len(problems) > 0 {
		t.Fatalf("%s: %v", name, problems)
	}
	return c
}

// golden holds a text against the file of that name.
func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(strings.Split(string(want), "\n"), strings.Split(got, "\n")); diff != "" {
		t.Errorf("%s has changed (-want +got):\n%s", path, diff)
	}
}

func TestPapers(t *testing.T) {
	all := cases(t)
	for _, name := range []string{"the-worked-example", "six-months-for-a-line", "two-wrong-lines", "last-date-unclear", "no-bill-yet"} {
		c := all[name]
		f := calc.Work(c)
		p := Compose(c, f, about)
		golden(t, name+".md", p.Markdown())
		golden(t, name+".plain.txt", p.Plain())
		golden(t, name+".days.csv", DaysCSV(f))
		golden(t, name+".bills.csv", BillsCSV(f))
	}
}

// Each scenario's paper has what a clerk asks for first, and what protects who
// reads it.
func TestEveryPaper(t *testing.T) {
	for name, c := range cases(t) {
		f := calc.Work(c)
		p := Compose(c, f, about)
		got := p.Plain()
		wanted := []string{"not a legal proof", "engine 0123456789ab", "5 Jan 2026", "WHAT WAS MEASURED"}
		if _, compared := (&composer{f: &f}).leading(); compared.Verdict != "" {
			wanted = append(wanted, "HOW SURE THAT IS", "CHECK IT BY HAND", "Percentage error = 100 ×")
		}
		for _, i := range f.Instruments {
			if len(i.Corrections) > 0 {
				wanted = append(wanted, "Work inside a panel is for a licensed electrician")
			}
		}
		flat := strings.Join(strings.Fields(got), " ")
		for _, want := range wanted {
			if !strings.Contains(flat, want) {
				t.Errorf("the paper of %s lacks %q:\n%s", name, want, got)
			}
		}
		if tall := p.points(); tall > sheets {
			t.Errorf("the paper of %s takes %.0f points, more than %.0f", name, tall, sheets)
		}
	}
}

// The example is told to be one, and nobody's own case is.
func TestExampleIsToldToBeInvented(t *testing.T) {
	c := opened(t, "the example", example.Text)
	f := calc.Work(c)
	for _, is := range []bool{true, false} {
		a := about
		a.IsExample = is
		if got := strings.Contains(Compose(c, f, a).Plain(), "This home is invented"); got != is {
			t.Errorf("an example: %v, and called invented: %v", is, got)
		}
	}
}

func TestCleanAndCut(t *testing.T) {
	for text, want := range map[string]string{
		"":                            "",
		"plain":                       "plain",
		" a\tb\r\nc\x00d\x7f ":        "a b  c d",
		"left\u202eright\u2066\u200f": "leftright",
		"page\u2028two\u0085three":    "page two three",
		"wide\u00a0blank":             "wide\u00a0blank",
	} {
		if got := clean(text); got != want {
			t.Errorf("clean(%q) = %q, want %q", text, got, want)
		}
	}
	for _, c := range []struct {
		text    string
		letters int
		want    string
	}{{"", 3, ""}, {"abc", 3, "abc"}, {"abcd", 3, "abc…"}, {"äöü ß", 4, "äöü…"}, {"ab cd", 3, "ab…"}} {
		if got := cut(c.text, c.letters); got != c.want {
			t.Errorf("cut(%q, %d) = %q, want %q", c.text, c.letters, got, c.want)
		}
	}
	for name, want := range map[string]string{"": "", "attic": "attic", "cupboard": "cupboard", "cupboard under": "cupb…nder", "my attic clamps": "my a…amps", "the loft, leg B": "the…eg B"} {
		if got := short(name, 8); got != want {
			t.Errorf("short(%q, 8) = %q, want %q", name, got, want)
		}
	}
}
