package link

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"splittally/calc"
	"splittally/calc/document"
)

var update = flag.Bool("update", false, "add the golden links that are not there yet; those that are stay as they are for ever")

// golden are the links of version 1 that are kept, by name.
func golden(t *testing.T) map[string]string {
	all := cases(t)
	bare, full := Options{}, Options{Names: true, Hours: true}
	links := map[string]string{
		"empty": Write(calc.Case{}, bare), "two-months": Write(twoMonths(2), bare), "two-months-named": Write(twoMonths(3), full),
	}
	for _, name := range []string{
		"the-worked-example", "an-evening-at-the-meter", "legs-in-two-columns", "weekly-totals-cut-by-the-period",
		"three-tariffs-compared", "time-of-use-with-daily-totals", "hourly-readings-by-time-of-use", "half-lost-days",
		"legs-panels-and-export-in-one-file", "minutes-with-gaps-beside-the-meter", "register-rolls-over", "two-wrong-lines",
	} {
		c, ok := all[name]
		if !ok {
			t.Fatalf("no scenario %s", name)
		}
		links[name], links[name+"-full"] = Write(c, bare), Write(c, full)
	}
	return links
}

// Every link that was ever made opens for ever: what stands in testdata is read
// as the case beside it. -update adds links, and changes none.
func TestGoldenLinks(t *testing.T) {
	if *update {
		for name, link := range golden(t) {
			file := filepath.Join("testdata", "version1", name+".link")
			if _, err := os.Stat(file); err == nil {
				continue
			}
			c, err := Read(link)
			if err != nil {
				t.Fatal(name, err)
			}
			keep(t, file, link+"\n")
			keep(t, strings.TrimSuffix(file, ".link")+".case.json", calc.Save(c))
		}
	}
	files, _ := filepath.Glob("testdata/version*/*.link")
	if len(files) < 20 {
		t.Fatalf("only %d golden links", len(files))
	}
	for _, file := range files {
		link, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		want, err := os.ReadFile(strings.TrimSuffix(file, ".link") + ".case.json")
		if err != nil {
			t.Fatal(err)
		}
		c, err := Read(string(link))
		if err != nil {
			t.Errorf("%s: %v", file, err)
			continue
		}
		if diff := cmp.Diff(string(want), calc.Save(c)); diff != "" {
			t.Errorf("%s:\n%s", file, diff)
		}
	}
}

func keep(t *testing.T, file, text string) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

// A field that a case gained and the table lacks goes by its name, which works
// but is long: add its path at the end of the table.
func TestTableHasEveryField(t *testing.T) {
	var paths []string
	var walk func(p *place, path string)
	walk = func(p *place, path string) {
		for _, child := range p.places {
			walk(child, path+"."+child.name)
		}
		if p.item != nil {
			walk(p.item, path+".*")
		}
		if p.item == nil && p.places == nil {
			paths = append(paths, strings.TrimPrefix(path, "."))
		}
	}
	root, n := fields(-1)
	walk(root, "")
	if len(paths) != n || len(strings.Fields(table)) != n {
		t.Errorf("%d fields from a table of %d", len(paths), n)
	}
	// A case with one item in each list and a text in each field has all fields.
	flat := document.Flat{Texts: map[string]string{}}
	for _, path := range paths {
		flat.Texts[strings.ReplaceAll(path, "*", "0")] = "1"
	}
	var c calc.Case
	if problems := document.Read(flat.Node(), c.Fields); len(problems) > 0 {
		t.Errorf("the table has fields that a case lacks: %v", problems)
	}
	seen := map[string]bool{}
	for _, path := range paths {
		seen[path] = true
	}
	for _, path := range allFields() {
		if !seen[path] {
			t.Errorf("%s is missing at the end of the table", path)
		}
	}
}
