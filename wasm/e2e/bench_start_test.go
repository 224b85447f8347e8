//go:build !js

package e2e

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/network"
	cdppage "github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// An opening is one way in which pages are opened: how, on what processor, on what
// line.
type opening struct {
	name   string
	pages  [2]string // addresses: of ours, of the empty page
	slower float64   // the processor is throttled to one part in so many
	line   float64   // bytes a second; 0 is as fast as the machine is
	again  again     // whether it has been here before
	rounds int
}

// again says what the browser has kept of the page: then the second time counts.
type again int

const (
	first  again = iota
	cached       // what its cache has; it asks the server whether that is still right
	worker       // all of ours, by the service worker; of the empty page the cache
)

// line16 is 1.6 Mbit/s, latency the time that each request waits for its first
// byte on such a line: what developers' tools call a slow mobile network.
const (
	line16  = 1.6e6 / 8
	latency = 150 // ms
)

// BenchmarkStart opens the page and an empty page in Go by turns, each time in a
// profile of its own, and times from the navigation on:
//
//   - first paint: the first text that the browser draws;
//   - usable: a key that is typed into a field arrives there. Keys are sent from
//     the first paint on, every 25 ms or so;
//   - answer: the findings hold the verdict of a month and a bill that stood in
//     the fields when the engine came; for the empty page, that its program runs.
//
// bench_empty_test.go says how the empty page is handed out. Nothing is asserted:
// the aims are ratios of one run on a quiet machine.
func BenchmarkStart(b *testing.B) {
	h := startHosts(b)
	hosted, disk := [2]string{h.ours, h.empty}, [2]string{singleFileAddress(b), h.emptyFile}
	zipped := [2]string{h.zipped, h.empty}
	var table strings.Builder
	for _, s := range []opening{
		{name: "localhost", pages: hosted, rounds: 5},
		{name: "localhost, again", pages: hosted, again: cached, rounds: 5},
		{name: "kept by its worker", pages: hosted, again: worker, rounds: 5},
		{name: "from disk", pages: disk, rounds: 5},
		{name: "1.6 Mbit/s", pages: hosted, line: line16, rounds: 3},
		{name: "1.6 Mbit/s, texts by gzip", pages: zipped, line: line16, rounds: 3},
	} {
		for _, s.slower = range []float64{1, 4} {
			b.Run(fmt.Sprintf("%s,processor=1/%v", strings.ReplaceAll(s.name, " ", "-"), s.slower), func(b *testing.B) {
				for b.Loop() {
					s.run(b, &table)
				}
				b.ReportMetric(0, "ns/op")
			})
		}
	}
	fmt.Printf("\nFrom navigation, ms: median (least); ratio of medians, of least\n\n| | processor | first paint | usable | answer | empty page | answer, to empty |\n|---|---|---:|---:|---:|---:|---:|\n%s\n", table.String())
}

// times are those of one page, in ms since its navigation began.
type times struct {
	Paint, Usable, Answer float64
	Before                string // how far the engine was when the key arrived
}

// run opens both pages by turns and adds a line to the table.
func (s opening) run(b *testing.B, table *strings.Builder) {
	var paint, usable, answer, empty []float64
	before := 0
	for range s.rounds {
		ours := s.open(b, s.pages[0])
		paint, usable, answer = append(paint, ours.Paint), append(usable, ours.Usable), append(answer, ours.Answer)
		if ours.Before != "ready" {
			before++
		}
		empty = append(empty, s.open(b, s.pages[1]).Answer)
	}
	toEmpty := [2]float64{median(answer) / median(empty), slices.Min(answer) / slices.Min(empty)}
	cell := func(ms []float64) string { return fmt.Sprintf("%.0f (%.0f)", median(ms), slices.Min(ms)) }
	fmt.Fprintf(table, "| %s | 1/%v | %s | %s | %s | %s | %.2f, %.2f |\n", s.name, s.slower,
		cell(paint), cell(usable), cell(answer), cell(empty), toEmpty[0], toEmpty[1])
	b.ReportMetric(median(paint), "ms-paint")
	b.ReportMetric(median(usable), "ms-usable")
	b.ReportMetric(median(answer), "ms-answer")
	b.ReportMetric(toEmpty[0], "to-empty")
	b.ReportMetric(float64(before)/float64(s.rounds), "usable-before-engine")
}

// timer runs in the page before its own scripts. A month and its bill are put
// into the fields as soon as these are there, so that the engine finds them. They
// are put in while nothing is shown: a field that is shown and filled by a script
// has the browser lay out the page at once, five times in a row, which no typing
// does and took a quarter of a start.
const timer = `{
	const t = window.startTimes = { Paint: 0, Usable: 0, Answer: 0, Before: "" };
	const root = () => document.documentElement;
	document.addEventListener("input", () => {
		if (!t.Usable) { t.Usable = performance.now(); t.Before = root().dataset.engine || ""; }
	});
	document.addEventListener("readystatechange", () => {
		if (document.readyState !== "interactive") return;
		document.body.style.display = "none";
		for (const [field, text] of %s) {
			const f = document.querySelector(field);
			if (f) f.value = text;
		}
		document.body.style.display = "";
		const verdict = document.querySelector('[data-slot="verdict"]');
		const look = () => {
			if (t.Answer || root().dataset.engine !== "ready" || verdict && !verdict.textContent.includes("%%")) return;
			t.Answer = performance.now();
		};
		new MutationObserver(look).observe(root(), { attributeFilter: ["data-engine"] });
		if (verdict) new MutationObserver(look).observe(verdict, { subtree: true, childList: true, characterData: true });
		look();
	});
}`

// step is run over and over: it says what to do next.
const step = `(() => {
	const t = window.startTimes, field = document.querySelector("#monitors-0-name");
	const paint = performance.getEntriesByName("first-contentful-paint")[0];
	if (!t || !field || !paint) return "wait";
	t.Paint = paint.startTime;
	if (t.Usable) return t.Answer ? "done" : "wait";
	field.focus();
	return "type";
})()`

// open opens one page in a new profile and waits for all its times.
func (s opening) open(b *testing.B, address string) times {
	b.Helper()
	parent, err := chromium()
	if err != nil {
		b.Fatalf("starting chromium: %v", err)
	}
	tab, closeTab := chromedp.NewContext(parent, chromedp.WithNewBrowserContext())
	defer closeTab()
	if err := chromedp.Do(tab); err != nil {
		b.Fatalf("opening a tab: %v", err)
	}
	ctx, cancel := context.WithTimeout(tab, patience)
	defer cancel()
	if err := chromedp.Do(ctx, chromedp.Func(s.prepare)); err != nil {
		b.Fatalf("preparing the tab: %v", err)
	}
	if _, err := chromedp.Call(ctx, cdppage.Navigate, cdppage.NavigateParams{URL: address}); err != nil {
		b.Fatalf("opening %s: %v", address, err)
	}
	s.use(b, ctx)
	if s.again != first {
		time.Sleep(time.Second) // what the engine and the browser keep a moment later
		if s.again == worker && address == s.pages[0] {
			inTab[chromedp.Void](b, tab, `new Promise((done) => { const look = () => navigator.serviceWorker.controller ? done() : setTimeout(look, 50); look(); })`)
		}
		inTab[chromedp.Void](b, tab, `delete window.startTimes; localStorage.clear()`)
		if _, err := chromedp.Call(ctx, cdppage.Reload, cdppage.ReloadParams{}); err != nil {
			b.Fatalf("reloading %s: %v", address, err)
		}
		s.use(b, ctx)
	}
	return inTab[times](b, tab, `window.startTimes`)
}

// use types into the page as soon as it is drawn, and waits for the engine.
func (s opening) use(b *testing.B, ctx context.Context) {
	b.Helper()
	for {
		// Between two documents there is none to ask.
		switch next, _ := chromedp.Run(ctx, chromedp.Evaluate[string](step)); next {
		case "done":
			return
		case "type":
			if err := chromedp.Do(ctx, chromedp.KeyEvent("a")); err != nil {
				b.Fatalf("typing: %v", err)
			}
		}
		if ctx.Err() != nil {
			b.Fatalf("%s: the page never answered", s.name)
		}
		time.Sleep(20 * time.Millisecond)
	}
}

func (s opening) prepare(ctx context.Context, _ *chromedp.Target) error {
	m := months[0]
	month := strings.Join(strings.SplitAfter(dailyTotals(0), "\n")[:29], "")
	var fields []string
	for _, f := range [][2]string{
		{"#monitors-0-readings", month}, {"#periods-0-from", m.from}, {"#periods-0-to", m.to}, {"#periods-0-days", m.days}, {"#periods-0-kwh", m.kwh},
	} {
		fields = append(fields, "["+quote(f[0])+","+quote(f[1])+"]")
	}
	script := cdppage.AddScriptToEvaluateOnNewDocumentParams{Source: fmt.Sprintf(timer, "["+strings.Join(fields, ",")+"]")}
	if _, err := chromedp.Call(ctx, cdppage.AddScriptToEvaluateOnNewDocument, script); err != nil {
		return err
	}
	if _, err := chromedp.Call(ctx, emulation.SetFocusEmulationEnabled, emulation.SetFocusEmulationEnabledParams{Enabled: true}); err != nil {
		return err
	}
	if _, err := chromedp.Call(ctx, emulation.SetCPUThrottlingRate, emulation.SetCPUThrottlingRateParams{Rate: s.slower}); err != nil {
		return err
	}
	if _, err := chromedp.Call(ctx, network.Enable, network.EnableParams{}); err != nil {
		return err
	}
	bypass := network.SetBypassServiceWorkerParams{Bypass: s.again != worker}
	if _, err := chromedp.Call(ctx, network.SetBypassServiceWorker, bypass); err != nil || s.line == 0 {
		return err
	}
	_, err := chromedp.Call(ctx, network.EmulateNetworkConditionsByRule, network.EmulateNetworkConditionsByRuleParams{
		MatchedNetworkConditions: []*network.Conditions{{Latency: latency, DownloadThroughput: s.line, UploadThroughput: s.line}},
	})
	return err
}
