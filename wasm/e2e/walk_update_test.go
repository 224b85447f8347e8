//go:build !js

package e2e

import (
	"context"
	"os"
	"path"
	"path/filepath"
	"strings"
	"testing"

	cdppage "github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

const startNew = `[data-do="take-update"]`

// A new version starts when somebody asks for it: what was typed is kept, another
// tab is told and goes on, and nobody's files are put away before it is done.
func TestUpdate(t *testing.T) {
	before, after := packedSite(t), packedNext(t)
	if engineHash(t, before) == engineHash(t, after) {
		t.Fatal("both versions have the same engine")
	}
	h := newHost(t, packedSite(t))
	p := open(t, look{site: h.address})
	p.kept()
	h.show(packedNext(t))
	p.reload() // which lets the browser look for a new sw.js
	other := p.again()
	for _, tab := range []*page{p, other} {
		tab.waitFor("#new-version", "A new version is ready")
		tab.runs(before)
	}
	p.pasteInto("#monitors-0-readings", threeDays)
	for _, b := range bill {
		p.typeInto(b[0], b[1])
	}
	p.waitFor("#findings", threeKWh)

	p.startNew()
	p.runs(after)
	p.kept()
	if got := p.value("#monitors-0-readings"); got != threeDays {
		t.Errorf("the new version shows %q, want what was typed", got)
	}
	p.waitFor("#findings", threeKWh)
	if p.visible("#new-version") {
		t.Errorf("the new version says %q", p.text("#new-version"))
	}

	other.waitFor("#new-version", "started in another tab")
	other.runs(before)
	other.typeInto("#periods-1-kwh", "77")
	checkTaken(t, other) // from what is kept of its own version
	if got := p.builds(); len(got) != 2 {
		t.Errorf("kept are %q, want both versions", got)
	}
	other.startNew()
	other.runs(after)
	other.kept()
	other.until("the old version to be put away", func() bool { return len(other.builds()) == 1 })
	h.stop()
	other.reload()
	other.runs(after)
}

// Where the browser keeps nothing that is typed, a new version would lose it: the
// page says so and waits to be asked again.
func TestUpdateWhereNothingIsKept(t *testing.T) {
	h := newHost(t, packedSite(t))
	p := open(t, look{site: h.address, before: `Storage.prototype.setItem = () => { throw new DOMException("no room", "QuotaExceededError"); }`})
	p.kept()
	h.show(packedNext(t))
	p.reload()
	p.waitFor("#new-version", "A new version is ready")
	p.targets("a new version is ready")
	p.typeInto("#periods-0-kwh", "412")
	p.tap(startNew)
	p.waitFor("#page-notice", "Save it to a file first")
	if got := p.value("#periods-0-kwh"); got != "412" {
		t.Errorf("the field holds %q, want what was typed", got)
	}
	p.accept() // the browser itself asks, too
	p.startNew()
	p.runs(packedNext(t))
}

// accept lets the person say yes to the next question of the browser.
func (p *page) accept() {
	p.Helper()
	asks := chromedp.Events(p.ctx, cdppage.JavascriptDialogOpening)
	go func() {
		for _, err := range asks {
			if err == nil {
				chromedp.Call(p.ctx, cdppage.HandleJavaScriptDialog, cdppage.HandleJavaScriptDialogParams{Accept: true})
			}
			return
		}
	}()
}

// runs checks which version a tab runs, from its page to the parts of its engine.
func (p *page) runs(site string) {
	p.Helper()
	hash := engineHash(p, site)
	if got := p.text("footer"); !strings.Contains(got, "engine "+hash) {
		p.Errorf("the footer says %q, want engine %s", got, hash)
	}
	p.until("all parts of the engine", func() bool { return p.attribute("html", "data-whole") == "yes" })
	// What was unpacked at an earlier start is kept by its name, and not loaded again.
	for _, loaded := range evaluate[[]string](p, `performance.getEntriesByType("resource").map((e) => e.name).filter((n) => n.endsWith(".bin"))`) {
		ours := false
		for _, part := range engineParts {
			ours = ours || path.Base(loaded) == filepath.Base(siteFile(p, site, part))
		}
		if !ours {
			p.Errorf("the page loaded %s, a part of another engine", loaded)
		}
	}
}

// builds names the caches of whole builds.
func (p *page) builds() []string {
	p.Helper()
	return evaluate[[]string](p, `caches.keys().then((names) => names.filter((name) => name.startsWith("split-tally ")))`)
}

// startNew presses the button and waits for the page that comes of it.
func (p *page) startNew() {
	p.Helper()
	ctx, cancel := context.WithTimeout(p.ctx, patience)
	defer cancel()
	loaded := chromedp.Events(ctx, cdppage.LoadEventFired)
	p.watch.unsettle()
	p.tap(startNew)
	for _, err := range loaded {
		if err != nil {
			p.Fatalf("waiting for the page to come again: %v", err)
		}
		break
	}
	p.ready()
}

// A version that is not there as a whole changes nothing.
func TestHalfUpdate(t *testing.T) {
	for name, c := range map[string]struct {
		wrong string // the plain name, as a worker asks for it
		half  func(h *host, dir string) error
	}{
		"engine missing":      {"engine.bin", func(_ *host, dir string) error { return os.Remove(siteFile(t, dir, "engine.bin")) }},
		"second part missing": {"engine2.bin", func(_ *host, dir string) error { return os.Remove(siteFile(t, dir, "engine2.bin")) }},
		"engine cut":          {"engine.bin", func(h *host, _ string) error { h.cut("engine.bin"); return nil }},
		"another page": {"", func(_ *host, dir string) error {
			return os.WriteFile(filepath.Join(dir, "index.html"), []byte("<!DOCTYPE html>"), 0o600)
		}},
	} {
		t.Run(name, func(t *testing.T) {
			h := newHost(t, packedSite(t))
			p := open(t, look{site: h.address})
			p.kept()
			dir := filepath.Join(t.TempDir(), "site")
			if err := os.CopyFS(dir, os.DirFS(packedNext(t))); err != nil {
				t.Fatal(err)
			}
			if err := c.half(h, dir); err != nil {
				t.Fatal(err)
			}
			h.show(dir)
			h.take()
			p.reload()
			p.until("the browser to try the new version and to give up", func() bool {
				return evaluate[bool](p, `navigator.serviceWorker.getRegistration().then((r) => !r.installing && !r.waiting && !!r.active)`) && h.askedAfter("sw.js", c.wrong)
			})
			p.runs(packedSite(t))
			if p.visible("#new-version") {
				t.Error("half a version is offered")
			}
			if got := p.builds(); len(got) != 1 {
				t.Errorf("kept are %q, want the old version alone", got)
			}
			h.stop()
			p.reload()
			p.runs(packedSite(t))

			h.cut("")
			h.show(packedNext(t))
			h.begin()
			p.reload()
			p.waitFor("#new-version", "A new version is ready")
			p.startNew()
			p.runs(packedNext(t))
		})
	}
}
