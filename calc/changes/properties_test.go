package changes

import (
	"maps"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"splittally/calc"
	"splittally/calc/document"
	"splittally/calc/link"
)

// mend changes a case in a few ways, as whoever a link was sent to would.
func mend(t *rapid.T, c calc.Case) calc.Case {
	f := flat(c)
	paths := slices.Sorted(maps.Keys(f.Texts))
	for range rapid.IntRange(1, 4).Draw(t, "changes") {
		path := rapid.SampledFrom(paths).Draw(t, "path")
		switch {
		case path == "today", strings.HasSuffix(path, "name"), strings.HasSuffix(path, ".on"), strings.HasPrefix(path, "answers."):
		case strings.HasSuffix(path, ".readings"):
			f.Texts[path] = mendDays(t, f.Texts[path])
		case strings.HasSuffix(path, ".record"), strings.HasSuffix(path, ".marks"):
		default:
			f.Texts[path] = rapid.SampledFrom([]string{"", "1", "2", "97.5", "2024-02-03", "yes"}).Draw(t, "text")
		}
	}
	var out calc.Case
	if problems := document.Read(f.Node(), out.Fields); len(problems) > 0 {
		t.Fatal(problems)
	}
	if n := len(out.Periods); n > 1 && rapid.Bool().Draw(t, "a bill less") {
		i := rapid.IntRange(0, n-1).Draw(t, "which")
		out.Periods = slices.Delete(slices.Clone(out.Periods), i, i+1)
		out.Answers = nil
	}
	return out
}

// withoutFiles gives the scenarios whose figures are all in days: the hours of a
// file come back in watt-hours, and so a hair away.
func withoutFiles(t *testing.T) (all map[string]calc.Case, names []string) {
	all = cases(t)
	maps.DeleteFunc(all, func(_ string, c calc.Case) bool {
		return c.Meter.Record != "" || slices.ContainsFunc(c.Monitors, func(m calc.Monitor) bool { return m.Record != "" })
	})
	return all, slices.Sorted(maps.Keys(all))
}

// mendDays changes some days of a sheet, or takes them out.
func mendDays(t *rapid.T, text string) string {
	lines := strings.Split(text, "\n")
	for range rapid.IntRange(1, 3).Draw(t, "days") {
		i := rapid.IntRange(0, len(lines)-1).Draw(t, "line")
		cells := strings.Split(lines[i], "\t")
		if i == 0 || len(cells) < 2 {
			continue
		}
		if rapid.Bool().Draw(t, "out") {
			lines = slices.Delete(lines, i, i+1)
			continue
		}
		cells[1] = strconv.Itoa(rapid.IntRange(5, 60).Draw(t, "kWh")) + ".5"
		lines[i] = strings.Join(cells, "\t")
	}
	return strings.Join(lines, "\n")
}

// What comes of taking all works out as theirs does, and what comes of taking
// nothing is mine to the letter.
func TestTakingAllAndNothing(t *testing.T) {
	all, names := withoutFiles(t)
	rapid.Check(t, func(t *rapid.T) {
		mine := all[rapid.SampledFrom(names).Draw(t, "case")]
		theirs := mend(t, link.Clean(mine, link.Options{Names: true, Hours: true}))
		items := Between(mine, theirs)
		keys := map[string]bool{}
		for _, i := range items {
			if keys[i.Key] || i.Where == "" || i.What == "" {
				t.Fatalf("%+v", i)
			}
			keys[i.Key] = true
		}
		if diff := cmp.Diff(mine, Take(mine, theirs, nil)); diff != "" {
			t.Fatal(diff)
		}
		taken := Take(mine, theirs, keysOf(items))
		if left := Between(taken, theirs); len(left) > 0 {
			t.Fatalf("all of\n%+v\nis taken, and it differs:\n%+v", items, left)
		}
		for i, m := range taken.Monitors {
			if !slices.ContainsFunc(items, func(item Item) bool { return strings.Contains(item.Key, "monitors.") }) && m.Readings != mine.Monitors[i].Readings {
				t.Fatalf("no day of monitor %d was taken, and its text is another", i+1)
			}
		}
		if diff := cmp.Diff(verdicts(theirs), verdicts(taken)); diff != "" {
			t.Fatalf("%+v\n%s", items, diff)
		}
	})
}

// verdicts is what a case works out to, without what was said about the texts.
func verdicts(c calc.Case) (out []string) {
	f := calc.Work(c)
	for _, i := range f.Instruments {
		for _, r := range i.Results {
			out = append(out, r.Waits, r.Filled.Total.Text(1), r.Compared.Percent.StringFixed(1), string(r.Compared.Verdict))
		}
	}
	for _, a := range f.Accounts {
		out = append(out, a.Priced.Total.String())
	}
	return out
}

// Any of the items can be taken, alone or with others: then just those no longer
// differ.
func TestTakingSome(t *testing.T) {
	all, names := withoutFiles(t)
	rapid.Check(t, func(t *rapid.T) {
		mine := all[rapid.SampledFrom(names).Draw(t, "case")]
		theirs := mend(t, link.Clean(mine, link.Options{Names: rapid.Bool().Draw(t, "names")}))
		var keys []string
		items := Between(mine, theirs)
		for _, i := range items {
			if rapid.Bool().Draw(t, i.Key) {
				keys = append(keys, i.Key)
			}
		}
		left := Between(Take(mine, theirs, keys), theirs)
		if len(left) != len(items)-len(keys) {
			t.Fatalf("of %+v\n%q is taken, and left is\n%+v", items, keys, left)
		}
	})
}
