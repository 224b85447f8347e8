//go:build !js

package calc

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// As far as the first verdict goes it is that of Work, in every scenario.
func TestVerdictIsThatOfWork(t *testing.T) {
	names, err := filepath.Glob("../testdata/scenario/*.case.json")
	if err != nil {
		t.Fatal(err)
	}
	plain := 0
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		c, problems := Open(string(text))
		if len(problems) > 0 {
			t.Fatalf("%s: %v", name, problems)
		}
		if !c.IsPlain() {
			continue
		}
		plain++
		var m Memory
		first, all := m.Verdict(c), m.Work(c)
		if diff := cmp.Diff(judgedOf(all), judgedOf(first)); diff != "" {
			t.Errorf("%s: of Work, but not of Verdict:\n%s", filepath.Base(name), diff)
		}
	}
	if plain < 3 {
		t.Errorf("%d scenarios are plain", plain)
	}
}

// judgedOf is what both find.
func judgedOf(f Findings) (out []any) {
	out = append(out, f.Confidence)
	for _, p := range f.Periods {
		out = append(out, p.Span, p.Reference, p.Dated, p.Given)
	}
	for _, inst := range f.Instruments {
		out = append(out, inst.Name, inst.IsPooled)
		for _, r := range inst.Results {
			out = append(out, r.Waits, r.Compared.Verdict, r.Compared.Percent.String(), r.Compared.Expanded, r.Filled.Total)
		}
	}
	return out
}
