//go:build !js

package e2e

import (
	"context"
	"encoding/json"
	"fmt"
	"net/url"
	"os/exec"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
)

// A race is several contenders at one file. Each has a tab and so a process of
// its own; they run by turns, so that what else the machine does hits them all.
type race struct {
	testing.TB
	form    string
	file    made
	runners []*runner
}

type runner struct {
	name   string
	tab    context.Context // nil for a native program
	firsts []float64       // ms, each in a new tab
	laps   []float64       // ms
	pid    int             // of the tab
	most   int             // MB that a native program held at most
}

func newRace(tb testing.TB, form string) *race {
	return &race{TB: tb, form: form, file: makeFile(tb, form, 0)}
}

// enter times the first run of each contender in so many new tabs, by turns.
// The last tab of each stays for the warm runs.
func (r *race) enter(times int, names ...string) {
	r.Helper()
	for _, name := range names {
		if trouble := benchSite(r.TB).trouble; name == "engine" && trouble != nil {
			r.Errorf("no engine to race: %v", trouble)
			continue
		}
		r.runners = append(r.runners, &runner{name: name})
	}
	for i := range times {
		for _, c := range r.runners {
			closeTab := r.first(c)
			if i < times-1 {
				closeTab()
			}
		}
	}
	for _, c := range r.runners {
		r.check(c)
		c.pid = rendererOf(r.TB, c.tab)
	}
}

// first times the first run of a contender in a new tab.
func (r *race) first(c *runner) (closeTab func()) {
	r.Helper()
	c.tab, closeTab = newTab(r.TB, benchSite(r.TB).address+"/peers/race.html")
	inTab[chromedp.Void](r.TB, c.tab, fmt.Sprintf(`race.enter(%q, %q, %q)`, c.name, "/files/"+url.PathEscape(filepath.Base(r.file.path)), r.form))
	c.firsts = append(c.firsts, inTab[float64](r.TB, c.tab, `race.lap()`))
	return closeTab
}

// check compares what the last run came to.
func (r *race) check(c *runner) {
	r.Helper()
	var got came
	if err := json.Unmarshal([]byte(inTab[string](r.TB, c.tab, `race.result()`)), &got); err != nil {
		r.Fatalf("%s: %v", c.name, err)
	}
	r.file.check(r.TB, c.name, got)
}

// forget leaves out of the table the runs so far, but for the first ones.
func (r *race) forget() {
	for _, c := range r.runners {
		c.laps = nil
	}
}

// warm lets all run again, by turns.
func (r *race) warm(rounds int) {
	r.Helper()
	for range rounds {
		for _, c := range r.runners {
			if c.tab != nil {
				c.laps = append(c.laps, inTab[float64](r.TB, c.tab, `race.lap()`))
			}
		}
	}
	for _, c := range r.runners {
		if c.tab != nil {
			r.check(c)
		}
	}
}

// natives are the programs outside the browser, in the folder native, and what
// runs them; the first that can, does.
var natives = map[string]struct {
	script string
	with   []string
	try    []string
}{
	"pandas": {"pandas_lap.py", []string{"python3", "/usr/bin/python3"}, []string{"-c", "import pandas"}},
	"polars": {"polars.mjs", []string{"node"}, []string{"--version"}},
	"duckdb": {"duckdb.mjs", []string{"node"}, []string{"--version"}},
}

// native lets a program outside the browser run, once cold and then warm.
func (r *race) native(name string, laps int) {
	r.Helper()
	n := natives[name]
	runs := slices.IndexFunc(n.with, func(with string) bool { return exec.Command(with, n.try...).Run() == nil })
	if runs < 0 {
		fmt.Printf("\n%s is left out: it is not installed\n", name)
		return
	}
	cmd := exec.Command(n.with[runs], n.script, r.file.path, fmt.Sprint(laps))
	cmd.Dir = filepath.Join(peersFolder(), "native")
	out, err := cmd.Output()
	if err != nil {
		fmt.Printf("\n%s did not run and is left out: %v\n", name, err)
		return
	}
	var said struct {
		Times     []float64
		Megabytes int
		Result    came
	}
	if err := json.Unmarshal(out, &said); err != nil {
		r.Fatalf("%s: %v", name, err)
	}
	r.file.check(r.TB, name, said.Result)
	r.runners = append(r.runners, &runner{
		name: "native-" + name, firsts: said.Times[:1], laps: said.Times[1:], most: said.Megabytes,
	})
}

// median is the median time of a contender's warm runs; 0 if it did not run.
func (r *race) median(name string) float64 {
	for _, c := range r.runners {
		if c.name == name {
			return median(c.laps)
		}
	}
	return 0
}

// least is the least time of a contender's warm runs; 0 if it did not run.
func (r *race) least(name string) float64 {
	for _, c := range r.runners {
		if c.name == name && len(c.laps) > 0 {
			return slices.Min(c.laps)
		}
	}
	return 0
}

func median(times []float64) float64 {
	if len(times) == 0 {
		return 0
	}
	sorted := slices.Sorted(slices.Values(times))
	return sorted[len(sorted)/2]
}

// print prints the race as a table, with ratios to one contender: of medians,
// and of least times, which say most when the machine is busy.
func (r *race) print(title, base string) {
	var b *runner
	for _, c := range r.runners {
		if c.name == base {
			b = c
		}
	}
	fmt.Printf("\n%s; median (least)\n\n| contender | first ms | warm ms | first, to %s | warm, to %[2]s | most MB held |\n|---|---:|---:|---:|---:|---:|\n", title, base)
	for _, c := range r.runners {
		if c.pid != 0 {
			c.most = peak(c.pid)
		}
		fmt.Printf("| %s | %.0f (%.0f) | %.1f (%.1f) | %.2f (%.2f) | %.2f (%.2f) | %d |\n", c.name,
			median(c.firsts), slices.Min(c.firsts), median(c.laps), slices.Min(c.laps),
			median(c.firsts)/median(b.firsts), slices.Min(c.firsts)/slices.Min(b.firsts),
			median(c.laps)/median(b.laps), slices.Min(c.laps)/slices.Min(b.laps), c.most)
	}
}

// newTab opens an address in a tab with a profile of its own.
func newTab(tb testing.TB, address string) (context.Context, func()) {
	tb.Helper()
	parent, err := chromium()
	if err != nil {
		tb.Fatalf("starting chromium: %v", err)
	}
	tab, closeTab := chromedp.NewContext(parent, chromedp.WithNewBrowserContext())
	tb.Cleanup(closeTab)
	if err := chromedp.Do(tab); err != nil {
		tb.Fatalf("opening a tab: %v", err)
	}
	ctx, cancel := context.WithTimeout(tab, patience)
	defer cancel()
	if err := chromedp.Do(ctx, chromedp.Navigate(address)); err != nil {
		tb.Fatalf("opening %s: %v", address, err)
	}
	return tab, closeTab
}

// inTab runs script in a tab and waits for what it promises, minutes if need be.
func inTab[T any](tb testing.TB, tab context.Context, script string) T {
	tb.Helper()
	ctx, cancel := context.WithTimeout(tab, 5*time.Minute)
	defer cancel()
	v, err := chromedp.Run(ctx, chromedp.Evaluate[T](script, chromedp.EvalAwaitPromise))
	if err != nil {
		tb.Fatalf("in a tab: %s: %v", script, err)
	}
	return v
}
