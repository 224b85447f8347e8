//go:build !js

package e2e

import (
	"context"
	"encoding/json"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	cdppage "github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"splittally/calc"
)

// benchTasks runs before a page's own scripts and notes the longest task that
// the browser tells of (it tells of those over 50 ms) and the longest that a
// timer of 5 ms had to wait, which is what a person's key would.
const benchTasks = `{
	const seen = window.tasks = { long: [], gap: 0 };
	new PerformanceObserver((list) => {
		for (const e of list.getEntries()) seen.long.push(e.duration);
	}).observe({ type: "longtask" });
	let last = performance.now();
	setInterval(() => {
		const now = performance.now();
		seen.gap = Math.max(seen.gap, now - last);
		last = now;
	}, 5);
	seen.reset = () => { seen.long = []; seen.gap = 0; last = performance.now(); };
}`

// A streamed file is how one way of reading it went.
type streamed struct {
	ms   float64
	long []float64 // ms, tasks over 50 ms
	gap  float64   // ms
	*gauge
}

func (s streamed) row(name string, f made) string {
	const mb = 1e6
	long := "none"
	if len(s.long) > 0 {
		long = fmt.Sprintf("%d, the longest %.0f", len(s.long), slices.Max(s.long))
	}
	return fmt.Sprintf("| %s | %.0f | %.0f | %.0f | %.0f | %.1f | %.1f | %.1f | %s | %.0f |", name, s.ms, s.ran, s.waited, float64(f.Bytes)/1e3/s.ms,
		float64(s.above())/mb, float64(s.aboveAll())/mb, float64(s.after)/mb, long, s.gap)
}

const streamedHead = "| way | ms | of them the page's thread ran | waited for a processor | MB/s | MB above idle, the page's process | all of the browser | left over | tasks over 50 ms | longest wait of a timer ms |\n|---|---:|---:|---:|---:|---:|---:|---:|---|---:|"

// benchSeconds gives a file of a year of seconds to the page's own picker, and
// to the fastest loop by hand that was found.
func benchSeconds(b *testing.B) {
	f := makeFile(b, "seconds", 0)
	b.Cleanup(f.drop)
	fmt.Printf("\nA year of seconds from the disk through a picker: %s\n\n%s\n", f.about(), streamedHead)
	loop := streamByHand(b, f, false)
	fmt.Println(loop.row("loop by hand, one buffer of 1 MiB", f))
	breathing := streamByHand(b, f, true)
	fmt.Println(breathing.row("the same, letting the page breathe every 10 ms", f))
	ours := streamByPage(b, f)
	fmt.Println(ours.row("the page", f))
	b.ReportMetric(ours.ms/loop.ms, "page/loop")
	b.ReportMetric(float64(ours.above())/1e6, "MB-above-idle")
	b.ReportMetric(float64(len(ours.long)), "tasks-over-50-ms")
}

// benchMemory shows how memory goes with the size of a file. What the page keeps
// are the hours, so that days count too: the last two files are both of a year,
// with a minute and with a second to a row.
func benchMemory(b *testing.B) {
	fmt.Printf("\nMemory by size of the file, through the page's picker:\n\n%s\n", streamedHead)
	for _, file := range []struct {
		form  string
		limit int64
	}{{"seconds", 1e6}, {"seconds", 1e7}, {"seconds", 1e8}, {"common", 0}, {"seconds", 0}} {
		f := makeFile(b, file.form, file.limit)
		s := streamByPage(b, f)
		fmt.Println(s.row(fmt.Sprintf("%.0f MB, %d days", float64(f.Bytes)/1e6, len(f.Days)), f))
		f.drop()
	}
}

// streamByHand reads a file in a page with nothing but the loop.
func streamByHand(b *testing.B, f made, breathe bool) streamed {
	b.Helper()
	tab, closeTab := newTab(b, "about:blank")
	defer closeTab()
	before := cdppage.AddScriptToEvaluateOnNewDocumentParams{Source: benchTasks}
	err := chromedp.Do(tab, chromedp.Func(func(ctx context.Context, _ *chromedp.Target) error {
		_, err := chromedp.Call(ctx, cdppage.AddScriptToEvaluateOnNewDocument, before)
		return err
	}), chromedp.Navigate(benchSite(b).address+"/peers/stream.html"))
	if err != nil {
		b.Fatalf("opening the page of the loop: %v", err)
	}
	inTab[chromedp.Void](b, tab, fmt.Sprintf(`stream.breathe = %v`, breathe))
	g := watchMemory(b, tab)
	inTab[chromedp.Void](b, tab, `tasks.reset()`)
	path, err := filepath.Abs(f.path)
	if err != nil {
		b.Fatal(err)
	}
	if err := chromedp.Do(tab, chromedp.SetUploadFiles(chromedp.CSS("#file"), []string{path})); err != nil {
		b.Fatalf("choosing the file: %v", err)
	}
	for end := time.Now().Add(5 * time.Minute); inTab[string](b, tab, `stream.state`) != "done"; time.Sleep(100 * time.Millisecond) {
		if time.Now().After(end) {
			b.Fatal("the loop by hand never ended")
		}
	}
	s := streamed{gauge: g, ms: inTab[float64](b, tab, `stream.ms`), long: inTab[[]float64](b, tab, `tasks.long`), gap: inTab[float64](b, tab, `tasks.gap`)}
	g.stop()
	var got came
	if err := json.Unmarshal([]byte(inTab[string](b, tab, `JSON.stringify(stream.came)`)), &got); err != nil {
		b.Fatal(err)
	}
	f.check(b, "loop by hand", got)
	return s
}

// benchCard notes when a file was given to the page and when its card stood there.
const benchCard = `
	addEventListener("change", (e) => { if (e.target.type === "file") window.given = performance.now(); }, { capture: true });
	new MutationObserver(() => {
		if (window.given && !window.carded && document.querySelector(".file strong") && !document.querySelector(".going")) window.carded = performance.now();
	}).observe(document, { subtree: true, childList: true });`

// streamByPage reads a file through the page's own picker, and compares what the
// case then keeps.
func streamByPage(b *testing.B, f made) streamed {
	b.Helper()
	p := open(b, look{form: hosted, before: benchTasks + benchCard})
	p.do("folding out the place of files", chromedp.Evaluate[chromedp.Void](`for (const d of document.querySelectorAll("details")) d.open = true`))
	g := watchMemory(b, p.ctx)
	evaluate[chromedp.Void](p, `tasks.reset()`)
	p.upload(pickFile, f.path)
	for end := time.Now().Add(5 * time.Minute); !evaluate[bool](p, `!!window.carded`); time.Sleep(100 * time.Millisecond) {
		if time.Now().After(end) {
			b.Fatal("the page never showed the file's card")
		}
	}
	s := streamed{gauge: g, ms: evaluate[float64](p, `carded - given`), long: evaluate[[]float64](p, `tasks.long`), gap: evaluate[float64](p, `tasks.gap`)}
	g.stop()
	var kept string
	p.until("the case to be stored", func() bool {
		kept = evaluate[string](p, `Object.entries(localStorage).find(([k]) => k.includes("/case/"))?.[1].match(/^{[^]*/m)?.[0] ?? ""`)
		return strings.Contains(kept, filepath.Base(f.path))
	})
	c, problems := calc.Open(kept)
	if len(problems) > 0 || len(c.Monitors) == 0 {
		b.Fatalf("the stored case cannot be read: %v", problems)
	}
	f.check(b, "the page", came{Record: c.Monitors[0].Record})
	return s
}
