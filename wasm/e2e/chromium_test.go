//go:build !js

package e2e

import (
	"context"
	"flag"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/browser"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/network"
	cdppage "github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// every makes the long walks go through all there is; without it they take a part
// of it, so that a run of all tests stays well under half an hour.
var every = flag.Bool("every", false, "every scenario on paper, every state of the page in every window and colour")

var shots = flag.String("shots", "", "folder for pictures of pages whose walk failed")

// A form is a way in which the page is handed out.
type form int

const (
	hosted     form = iota // from a server
	singleFile             // from disk
)

func (f form) String() string { return [...]string{"hosted", "single-file"}[f] }

var forms = []form{hosted, singleFile}

// A look is how somebody looks at the page. The zero value is the hosted page on
// a light desktop.
type look struct {
	form   form
	width  int // CSS pixels; 0 is 1280
	height int // 0 is 800
	dark   bool

	before  string // JavaScript to run before the page's own, to make an older browser
	site    string // a server's address, for a page that make run doesn't serve
	failing bool   // the engine is meant not to start
	first   bool   // only the first part of the engine is waited for
}

func (l look) phone() bool { return l.width < 600 }

// A page is one tab of Chromium with Split Tally in it.
type page struct {
	testing.TB
	ctx    context.Context
	look   look
	server *server // nil for the single file
	watch  *watch
}

// open shows the page with nothing stored, and waits until the whole engine is there.
func open(t testing.TB, l look) *page {
	t.Helper()
	program(t, "chromium")
	parent, err := chromium()
	if err != nil {
		t.Fatalf("starting chromium: %v", err)
	}
	if l.width == 0 {
		l.width = 1280
	}
	if l.height == 0 {
		l.height = 800
	}
	p := &page{TB: t, look: l}
	if l.form == hosted && l.site == "" {
		p.server = serve(t)
	}
	p.show(parent, chromedp.WithNewBrowserContext())
	return p
}

// again opens a second tab on the same page, with the same storage.
func (p *page) again() *page {
	p.Helper()
	q := &page{TB: p.TB, look: p.look, server: p.server}
	q.show(p.ctx)
	return q
}

// address is where the page is.
func (p *page) address() string {
	p.Helper()
	switch {
	case p.look.site != "":
		return p.look.site
	case p.server != nil:
		return p.server.address
	}
	return singleFileAddress(p.TB)
}

// show opens a tab under parent and loads the page into it.
func (p *page) show(parent context.Context, options ...chromedp.ContextOption) {
	p.Helper()
	p.tab(parent, options...)
	p.watch.arrive(p.address())
	p.do("loading the page", chromedp.Navigate(p.address()))
	p.ready()
}

// tab opens a tab under parent.
func (p *page) tab(parent context.Context, options ...chromedp.ContextOption) {
	p.Helper()
	p.watch = &watch{form: p.look.form}
	options = append(options, chromedp.WithListener(p.watch.hear))
	ctx, cancel := chromedp.NewContext(parent, options...)
	p.ctx = ctx
	p.Cleanup(func() {
		p.watch.windows(ctx)
		if p.Failed() && *shots != "" {
			p.screenshot(filepath.Join(*shots, strings.ReplaceAll(p.Name(), "/", " ")+".png"))
		}
		cancel()
		p.watch.report(p)
	})
	// The first step binds the tab's life to its context, so it has no limit.
	if err := chromedp.Do(ctx); err != nil {
		p.Fatalf("opening a tab: %v", err)
	}
	p.do("preparing the tab", chromedp.Func(p.prepare))
}

// prepare gives the tab its size, its scheme and the right to the clipboard,
// and begins to watch the network.
func (p *page) prepare(ctx context.Context, t *chromedp.Target) error {
	if _, err := chromedp.Call(ctx, network.Enable, network.EnableParams{}); err != nil {
		return err
	}
	var options []chromedp.EmulateViewportOption
	if p.look.phone() {
		options = append(options, chromedp.EmulateMobile, chromedp.EmulateTouch, chromedp.EmulateScale(2), chromedp.EmulatePortrait)
	}
	if _, err := chromedp.EmulateViewport(int64(p.look.width), int64(p.look.height), options...)(ctx, t); err != nil {
		return err
	}
	if _, err := chromedp.Call(ctx, emulation.SetFocusEmulationEnabled, emulation.SetFocusEmulationEnabledParams{Enabled: true}); err != nil {
		return err
	}
	if p.look.before != "" {
		script := cdppage.AddScriptToEvaluateOnNewDocumentParams{Source: p.look.before}
		if _, err := chromedp.Call(ctx, cdppage.AddScriptToEvaluateOnNewDocument, script); err != nil {
			return err
		}
	}
	for _, name := range []string{"clipboard-read", "clipboard-write"} {
		_, err := chromedp.CallBrowser(ctx, browser.SetPermission, browser.SetPermissionParams{
			Permission:       &browser.PermissionDescriptor{Name: name, AllowWithoutSanitization: name == "clipboard-read"},
			Setting:          browser.PermissionSettingGranted,
			BrowserContextID: chromedp.FromContext(ctx).BrowserContextID,
		})
		if err != nil {
			return err
		}
	}
	return p.media(ctx, "")
}

// media sets the medium ("", "screen" or "print") and the scheme of the look.
func (p *page) media(ctx context.Context, medium string) error {
	scheme := "light"
	if p.look.dark {
		scheme = "dark"
	}
	_, err := chromedp.Call(ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
		Media:    medium,
		Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}},
	})
	return err
}

// ready waits for the engine as a whole, or for the news that there will be none. From here on the page may ask for nothing.
func (p *page) ready() {
	p.Helper()
	p.until("the engine", func() bool {
		state := p.attribute("html", "data-engine")
		if state == "failed" && !p.look.failing {
			p.Fatalf("the engine failed: %s", p.text("#no-engine-reason"))
		}
		return state == "failed" || state == "ready" && !p.look.failing && (p.look.first || p.attribute("html", "data-whole") == "yes")
	})
	if !p.look.first {
		p.watch.settle()
	}
}

// reload loads the page anew, with what the browser has stored.
func (p *page) reload() {
	p.Helper()
	p.watch.unsettle()
	p.do("reloading", chromedp.Reload())
	p.ready()
}

// do runs steps, none of which may outlast our patience.
func (p *page) do(what string, steps ...chromedp.Action[chromedp.Void]) {
	p.Helper()
	ctx, cancel := context.WithTimeout(p.ctx, patience)
	defer cancel()
	if err := chromedp.Do(ctx, steps...); err != nil {
		p.Fatalf("%s: %v", what, err)
	}
}

// evaluate runs script in the page and returns its value, waiting for a promise.
func evaluate[T any](p *page, script string) T {
	p.Helper()
	ctx, cancel := context.WithTimeout(p.ctx, patience)
	defer cancel()
	v, err := chromedp.Run(ctx, chromedp.Evaluate[T](script, chromedp.EvalAwaitPromise))
	if err != nil {
		p.Fatalf("in the page: %s: %v", strings.TrimSpace(script), err)
	}
	return v
}
