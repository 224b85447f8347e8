//go:build !js

package e2e

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// chrome makes a client of a tab of Chromium.
type chrome struct{ *page }

// opened is open for a walk that loads the page itself.
func opened(t testing.TB, l look) *page {
	t.Helper()
	parent, err := chromium()
	if err != nil {
		t.Fatalf("starting chromium: %v", err)
	}
	p := &page{TB: t, look: l}
	p.tab(parent, chromedp.WithNewBrowserContext())
	return p
}

func (c *chrome) load(address string) {
	c.Helper()
	c.watch.arrive(address)
	c.do("loading the page", chromedp.Navigate(address))
}

func (c *chrome) evaluate(script string) string {
	c.Helper()
	return evaluate[string](c.page, "Promise.resolve("+script+").then(String)")
}

func (c *chrome) settle() { c.watch.settle() }
func (c *chrome) report() {} // the tab does when it is closed

func (c *chrome) keys(text string) {
	c.Helper()
	c.do("typing", chromedp.KeyEvent(text))
}

func (c *chrome) command(letter string) {
	c.Helper()
	name := map[string]string{"a": "selectAll", "c": "copy", "v": "paste"}[letter]
	c.do("pressing Ctrl and a letter", command(letter, "Key"+strings.ToUpper(letter), name))
}

func (c *chrome) upload(selector, path string) { c.Helper(); c.page.upload(selector, path) }

func (c *chrome) handed(act func()) (name string, data []byte) { c.Helper(); return c.download(act) }
func (c *chrome) printed() []byte                              { c.Helper(); return c.pdf() }

func (c *chrome) reload() {
	c.Helper()
	c.watch.unsettle()
	c.do("reloading", chromedp.Reload())
}
