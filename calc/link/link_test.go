package link

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"splittally/calc"
	"splittally/calc/example"
)

// cases gives the scenarios and the worked example.
func cases(t testing.TB) map[string]calc.Case {
	t.Helper()
	out := map[string]calc.Case{}
	files, err := filepath.Glob("../../testdata/scenario/*.case.json")
	if err != nil || len(files) == 0 {
		t.Fatal("no scenarios", err)
	}
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		c, problems := calc.Open(string(text))
		if len(problems) > 0 {
			t.Fatal(file, problems)
		}
		out[strings.TrimSuffix(filepath.Base(file), ".case.json")] = c
	}
	c, problems := calc.Open(example.Text)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	out["the-worked-example"] = c
	return out
}

func options4() []Options {
	return []Options{{}, {Names: true}, {Hours: true}, {Names: true, Hours: true}}
}

func TestWhatIsReadIsWhatWasCleaned(t *testing.T) {
	for name, c := range cases(t) {
		for _, o := range options4() {
			link := Write(c, o)
			back, err := Read(link)
			if err != nil {
				t.Errorf("%s: %v", name, err)
				continue
			}
			if diff := cmp.Diff(Clean(c, o), back); diff != "" {
				t.Errorf("%s %+v:\n%s", name, o, diff)
			}
			if again := Write(back, o); again != link {
				t.Errorf("%s %+v: a link of the link differs:\n%s", name, o, cmp.Diff(back, Clean(back, o)))
			}
		}
	}
}
