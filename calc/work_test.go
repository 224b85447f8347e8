package calc_test

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"splittally/calc"
	"splittally/calc/example"
	"splittally/calc/report"
)

var update = flag.Bool("update", false, "rewrite the golden findings; read the difference before keeping it")

// TestScenarios works every NAME.case.json in testdata/scenario, which is what
// the page saves and opens, and compares the report with NAME.findings.txt.
func TestScenarios(t *testing.T) {
	paths, err := filepath.Glob("../testdata/scenario/*.case.json")
	if err != nil || len(paths) == 0 {
		t.Fatalf("no scenarios: %v", err)
	}
	for _, path := range paths {
		name := strings.TrimSuffix(filepath.Base(path), ".case.json")
		t.Run(name, func(t *testing.T) {
			text, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			golden(t, string(text), strings.TrimSuffix(path, ".case.json")+".findings.txt")
		})
	}
}

func TestExample(t *testing.T) {
	golden(t, example.Text, "../testdata/scenario/the-worked-example.findings.txt")
}

func golden(t *testing.T, saved, path string) {
	t.Helper()
	c, problems := calc.Open(saved)
	if len(problems) > 0 {
		t.Fatalf("the case does not open: %v", problems)
	}
	got := report.Text(c, calc.Work(c))
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(strings.Split(string(want), "\n"), strings.Split(got, "\n")); diff != "" {
		t.Errorf("findings have changed (-want +got):\n%s", diff)
	}
}

func TestWorkIsPure(t *testing.T) {
	c, problems := calc.Open(example.Text)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	first := report.Text(c, calc.Work(c))
	if calc.Save(c) != calc.Save(mustOpen(t, example.Text)) {
		t.Error("Work changed the case it was given")
	}
	for range 20 {
		if again := report.Text(c, calc.Work(c)); again != first {
			t.Fatalf("equal cases gave other findings:\n%s", cmp.Diff(first, again))
		}
	}
}

func mustOpen(t *testing.T, text string) calc.Case {
	t.Helper()
	c, problems := calc.Open(text)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	return c
}

func TestWorkOnNothing(t *testing.T) {
	f := calc.Work(calc.Case{})
	if len(f.Problems)+len(f.Questions)+len(f.Instruments) != 0 {
		t.Errorf("an empty case gives %+v", f)
	}
}
