//go:build !js

package e2e

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	cdppage "github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// What the service worker asks for is told apart from what the page asks for:
// the page's tab is watched as in every walk, and its worker, which the tab does
// not hear, is watched by the server. It may ask for sw.js, and once for each
// file of its own build.

// kept waits until the worker has the whole page.
func (p *page) kept() {
	p.Helper()
	p.until("a copy to be kept", func() bool {
		state := p.attribute("html", "data-offline")
		if state == "none" {
			p.Fatalf("no copy is kept: %s", p.text("#offline-says"))
		}
		return state == "kept"
	})
}

// engineParts are the files of the engine by their plain names.
var engineParts = []string{"engine.bin", "engine2.bin"}

// engineHash is the beginning of the hash of a build's engine, all its parts one
// after another.
func engineHash(t testing.TB, site string) string {
	t.Helper()
	sum := sha256.New()
	for _, part := range engineParts {
		data, err := os.ReadFile(siteFile(t, site, part))
		if err != nil {
			t.Fatal(err)
		}
		sum.Write(data)
	}
	return fmt.Sprintf("%x", sum.Sum(nil))[:12]
}

// visible says whether an element can be seen, by scrolling at most.
func (p *page) visible(selector string) bool {
	p.Helper()
	return evaluate[bool](p, find(selector)+`.checkVisibility({ visibilityProperty: true })`)
}

// forgetUnpacked erases what boot.js keeps for the next start, if it is there.
const forgetUnpacked = `(async () => {
	const names = (await caches.keys()).filter((name) => name.startsWith("split-tally-unpacked"));
	return names.length > 0 && (await Promise.all(names.map((name) => caches.delete(name)))).every((gone) => gone);
})()`

func TestOffline(t *testing.T) {
	h := newHost(t, packedSite(t))
	p := open(t, look{site: h.address, width: 360})
	p.kept()
	asked := map[string]int{}
	for _, name := range h.take() {
		asked[name]++
	}
	// First the page itself, then the worker with what the browser has not kept.
	if asked["sw.js"] != 1 || asked["splittally.html"] != 1 || asked["engine.bin"] != 1 || asked[""] != 2 {
		t.Errorf("asked for %v", asked)
	}
	for _, e := range entries(t, packedSite(t)) {
		name := plainName(e)
		if n := asked[name]; n > 2 || n == 0 && name != "index.html" {
			t.Errorf("%s was asked for %d times", name, n)
		}
		delete(asked, name)
	}
	delete(asked, "")
	if len(asked) > 0 {
		t.Errorf("also asked for %v", asked)
	}

	h.stop()
	p.reload()
	p.kept()
	p.pasteInto("#monitors-0-readings", threeDays)
	for _, b := range bill {
		p.typeInto(b[0], b[1])
	}
	p.waitFor("#findings", threeKWh)
	p.fits()
	// What was unpacked may be gone; the packed engine is still what it was.
	p.until("the unpacked engine to be kept", func() bool { return evaluate[bool](p, forgetUnpacked) })
	p.reload()
	p.kept()
	second := p.again()
	second.waitFor("#findings", threeKWh)
	second.watch.unsettle()
	second.do("going by the other name", chromedp.Navigate(h.address+"index.html#somewhere"))
	second.ready()
	checkTaken(t, second)
	if asked := h.take(); len(asked) > 0 {
		t.Errorf("a stopped server was asked for %v", asked)
	}
}

// checkTaken saves the single file from the hosted page, to the letter.
func checkTaken(t *testing.T, p *page) {
	t.Helper()
	want, err := os.ReadFile(filepath.Join(packed(t), "splittally.html"))
	if err != nil {
		t.Fatal(err)
	}
	name, data := p.download(func() { p.tap("[data-take-page]") })
	if name != "splittally.html" || !bytes.Equal(data, want) {
		t.Errorf("took %s, %d bytes; want splittally.html as it was packed, %d bytes", name, len(data), len(want))
	}
	if p.visible("#take-page-says") {
		t.Errorf("the page complains: %s", p.text("#take-page-says"))
	}
}

func entries(t testing.TB, dir string) (names []string) {
	t.Helper()
	all, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range all {
		names = append(names, e.Name())
	}
	return names
}

// Where no worker may be, everything else works, and the page says so.
func TestWithoutWorker(t *testing.T) {
	for name, c := range map[string]struct{ before, want string }{
		"none":      {`delete Navigator.prototype.serviceWorker`, "keeps no copy"},
		"refused":   {`ServiceWorkerContainer.prototype.register = async () => { throw new DOMException("not in a private window"); }`, "not in a private window"},
		"no caches": {`delete window.caches; delete Navigator.prototype.serviceWorker`, "Take the file"},
	} {
		t.Run(name, func(t *testing.T) {
			h := newHost(t, packedSite(t))
			p := open(t, look{site: h.address, before: c.before})
			p.waitFor("#offline-says", c.want)
			p.typeInto("#periods-0-kwh", "412")
			h.take()
			checkTaken(t, p) // the one case in which something is fetched later: by the browser, as a download
			if got := h.take(); !slices.Equal(got, []string{"splittally.html"}) {
				t.Errorf("the server was asked for %q", got)
			}
			if got := p.watch.takeBreaches(); len(got) > 1 || len(got) == 1 && !strings.Contains(got[0], h.address+"splittally.html ") {
				t.Errorf("the page asked for %q", got)
			}
		})
	}
}

func TestSingleFileSaysThatItIsAll(t *testing.T) {
	p := open(t, look{form: singleFile, width: 360})
	p.waitFor(".in-file", "the whole program")
	if p.visible("[data-take-page]") || p.visible("#offline-says") {
		t.Error("the single file offers what only a site can")
	}
	hosted := open(t, look{width: 360})
	if hosted.visible(".in-file") || !hosted.visible("[data-take-page]") {
		t.Error("the hosted page says that it is a file")
	}
}

func TestInstallable(t *testing.T) {
	program(t, "chromium")
	parent, err := chromium()
	if err != nil {
		t.Fatal(err)
	}
	// Not in a context of its own: to the browser such a one is a private window, where nothing is installed.
	p := &page{TB: t, look: look{width: 1280, height: 800}, server: serve(t)}
	p.show(parent)
	p.kept()
	manifest, err := chromedp.Call(p.ctx, cdppage.GetAppManifest, cdppage.GetAppManifestParams{})
	if err != nil {
		t.Fatal(err)
	}
	if len(manifest.Errors) > 0 || !strings.Contains(manifest.Data, `"standalone"`) {
		t.Errorf("the manifest has %d errors: %+v\n%s", len(manifest.Errors), manifest.Errors, manifest.Data)
	}
	found, err := chromedp.Call(p.ctx, cdppage.GetInstallabilityErrors, cdp.Empty{})
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range found.InstallabilityErrors {
		t.Errorf("not installable: %s %+v", e.ErrorID, e.ErrorArguments)
	}
}

// The footer names version and engine; where it could not check the engine it
// says that, too.
func TestVersionAndHash(t *testing.T) {
	want := ", engine " + engineHash(t, packedSite(t))
	for _, f := range forms {
		p := open(t, look{form: f})
		if got := p.text("footer"); !strings.Contains(got, want) || strings.Contains(got, "not checked") {
			t.Errorf("%v: the footer says %q, want %q", f, got, want)
		}
		p = open(t, look{form: f, before: `Object.defineProperty(Crypto.prototype, "subtle", { value: undefined })`})
		if got := p.text("footer"); !strings.Contains(got, want+", which was not checked") {
			t.Errorf("%v: unchecked, the footer says %q, want %q", f, got, want)
		}
	}
}

func TestOfflineInOtherEngines(t *testing.T) {
	for name, start := range map[string]func(testing.TB) engine{
		"firefox": func(t testing.TB) engine { return openFirefox(t) },
		"webkit":  func(t testing.TB) engine { return openWebKit(t) },
	} {
		t.Run(name, func(t *testing.T) {
			h := newHost(t, packedSite(t))
			e := start(t)
			e.load(h.address)
			await(t, e, `document.documentElement.dataset.offline`, "kept")
			h.stop()
			h.take()
			e.load(h.address)
			await(t, e, `document.documentElement.dataset.engine`, "ready")
			await(t, e, `document.documentElement.dataset.offline`, "kept")
			e.evaluate(find(`[data-do="show-example"]`) + `.click()`)
			await(t, e, find("#findings")+`.innerText`, "Hallway monitor reads high")
			await(t, e, find("footer")+`.innerText`, "engine "+engineHash(t, packedSite(t)))
			if asked := h.take(); len(asked) > 0 {
				t.Errorf("a stopped server was asked for %v", asked)
			}
		})
	}
}
