//go:build !js

package e2e

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	cdppage "github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// siteFiles are the files that the hosted page may ask its server for, without
// the hashes that their names carry there. What its service worker asks for is
// no request of the page; see walk_offline_test.go.
var siteFiles = []string{"", "index.html", "engine.bin", "engine2.bin", "icon.svg", "manifest.webmanifest"}

// forTheBrowser are files that a browser fetches for itself whenever it likes.
var forTheBrowser = regexp.MustCompile(`^(icon(-\d+)?\.(svg|png)|manifest\.webmanifest)$`)

var inName = regexp.MustCompile(`\.[0-9a-f]{12}(\.\w+)$`)

// plainName takes the hash out of the name of a file of the site.
func plainName(name string) string { return inName.ReplaceAllString(name, "$1") }

// siteFile finds the file of a plain name in a folder with the hosted page.
func siteFile(t testing.TB, dir, plain string) string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		if plainName(e.Name()) == plain {
			return filepath.Join(dir, e.Name())
		}
	}
	t.Fatalf("%s has no %s", dir, plain)
	return ""
}

// A watch hears what one tab asks for and complains about.
type watch struct {
	home string // address of the page
	form form

	mu       sync.Mutex
	settled  bool     // the engine is ready: from now on nothing may be asked for
	requests []string // all of them, for walks that want to see
	breaches []string // requests that may not be
	trouble  []string // errors
	expected []string // errors that the walk wants
	ignored  bool     // errors are not what the walk is about
}

// hear is called for each event of the tab, in order.
func (w *watch) hear(event any) {
	switch e := event.(type) {
	case *network.EventRequestWillBeSent:
		w.request(e.Request.URL)
	case *network.EventWebSocketCreated:
		w.breach("a WebSocket to " + e.URL)
	case *cdppage.EventFrameRequestedNavigation: // even one that is cancelled
		if address, _, _ := strings.Cut(e.URL, "#"); !w.own(address) && !strings.HasPrefix(e.URL, "blob:") {
			w.breach("a navigation to " + e.URL)
		}
	case *cdppage.EventWindowOpen:
		w.breach("a window on " + e.URL)
	case *network.EventWebTransportCreated:
		w.breach("a WebTransport to " + e.URL)
	case *runtime.EventConsoleAPICalled:
		if e.Type == runtime.ConsoleAPICalledTypeError || e.Type == runtime.ConsoleAPICalledTypeAssert {
			w.complaint("console: " + arguments(e.Args))
		}
	case *runtime.EventExceptionThrown:
		w.complaint("exception: " + exception(e.ExceptionDetails))
	case *log.EventEntryAdded:
		if e.Entry.Level == log.EntryLevelError {
			w.complaint(fmt.Sprintf("%s: %s %s", e.Entry.Source, e.Entry.Text, e.Entry.URL))
		}
	}
}

// request judges one address.
func (w *watch) request(address string) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.requests = append(w.requests, address)
	if strings.HasPrefix(address, "data:") || strings.HasPrefix(address, "blob:") {
		return // these stay inside the browser
	}
	if !w.settled && w.own(address) {
		return
	}
	if w.form == hosted && forTheBrowser.MatchString(w.name(address)) {
		return
	}
	when := "while loading"
	if w.settled {
		when = "after the whole engine was there"
	}
	w.breaches = append(w.breaches, address+" "+when)
}

// own says whether an address is one of the page's own files.
func (w *watch) own(address string) bool {
	if w.form == singleFile {
		return address == w.home
	}
	return address == w.home || slices.Contains(siteFiles[1:], w.name(address))
}

// name is the plain name of one of the site's files, "" for what is elsewhere.
func (w *watch) name(address string) string {
	if name, mine := strings.CutPrefix(address, w.home); mine {
		return plainName(name)
	}
	return ""
}

func (w *watch) breach(what string) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.breaches = append(w.breaches, what)
}

func (w *watch) complaint(what string) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.trouble = append(w.trouble, what)
}

// arrive says that the browser goes to an address of the page; what follows its #
// is no part of a request.
func (w *watch) arrive(address string) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.home, _, _ = strings.Cut(address, "#")
	w.settled = false
	if strings.HasPrefix(w.home, "http") {
		w.form = hosted
	}
}

func (w *watch) settle()   { w.set(true) }
func (w *watch) unsettle() { w.set(false) }

func (w *watch) set(settled bool) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.settled = settled
}

// windows looks for a window that the page has opened.
func (w *watch) windows(ctx context.Context) {
	own := chromedp.FromContext(ctx)
	if own == nil || own.Target == nil {
		return
	}
	infos, err := chromedp.Targets(ctx)
	if err != nil {
		return // the tab is gone, and what it did has been heard
	}
	for _, info := range infos {
		if info.OpenerID == own.Target.TargetID {
			w.breach("a window on " + info.URL)
		}
	}
}

// report fails the walk for what it did not expect, and for what it expected in
// vain.
func (w *watch) report(p testing.TB) {
	p.Helper()
	w.mu.Lock()
	defer w.mu.Unlock()
	for _, b := range w.breaches {
		p.Errorf("the page asked for %s", b)
	}
	if w.ignored {
		return
	}
	seen := map[string]bool{}
	for _, t := range w.trouble {
		i := slices.IndexFunc(w.expected, func(e string) bool { return strings.Contains(t, e) })
		if i < 0 {
			p.Errorf("the page complained: %s", t)
			continue
		}
		seen[w.expected[i]] = true
	}
	for _, e := range w.expected {
		if !seen[e] {
			p.Errorf("the page did not complain of %q", e)
		}
	}
}

// expectTrouble says that the page will report an error holding text.
func (p *page) expectTrouble(text string) {
	p.watch.mu.Lock()
	defer p.watch.mu.Unlock()
	p.watch.expected = append(p.watch.expected, text)
}

// ignoreTrouble says that errors are not what this walk is about.
func (p *page) ignoreTrouble() {
	p.watch.mu.Lock()
	defer p.watch.mu.Unlock()
	p.watch.ignored = true
}

// takeBreaches takes the requests that may not be, so that a walk can look at
// them itself.
func (w *watch) takeBreaches() []string {
	w.mu.Lock()
	defer w.mu.Unlock()
	b := w.breaches
	w.breaches = nil
	return b
}

func arguments(args []*runtime.RemoteObject) string {
	var words []string
	for _, a := range args {
		if len(a.Value) > 0 {
			words = append(words, string(a.Value))
		} else {
			words = append(words, a.Description)
		}
	}
	return strings.Join(words, " ")
}

func exception(e *runtime.ExceptionDetails) string {
	if e.Exception != nil && e.Exception.Description != "" {
		return e.Text + " " + e.Exception.Description
	}
	return fmt.Sprintf("%s %s:%d", e.Text, e.URL, e.LineNumber+1)
}
