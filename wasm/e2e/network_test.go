//go:build !js

package e2e

import (
	"fmt"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
)

// reaches are ways for code in a page to tell somebody else something. HERE
// stands for an address.
var reaches = map[string]string{
	"fetch":        `fetch("HERE", { mode: "no-cors" }).catch(() => {})`,
	"xhr":          `{ const x = new XMLHttpRequest(); x.open("GET", "HERE"); try { x.send(); } catch {} }`,
	"beacon":       `navigator.sendBeacon("HERE", "x")`,
	"event-source": `new EventSource("HERE")`,
	"image":        `new Image().src = "HERE"`,
	"style":        `{ const e = document.createElement("link"); e.rel = "stylesheet"; e.href = "HERE"; document.head.append(e); }`,
	"font":         `new FontFace("f", "url(HERE)").load().catch(() => {})`,
	"script":       `{ const e = document.createElement("script"); e.src = "HERE"; document.head.append(e); }`,
	"frame":        `{ const e = document.createElement("iframe"); e.src = "HERE"; document.body.append(e); }`,
	"media":        `new Audio("HERE").play().catch(() => {})`,
	"object":       `{ const e = document.createElement("object"); e.data = "HERE"; document.body.append(e); }`,
	"form":         `{ const f = document.createElement("iframe"); f.name = "blank"; const e = document.createElement("form"); e.action = "HERE"; e.target = "blank"; document.body.append(f, e); e.submit(); }`,
	"web-socket":   `try { new WebSocket("HERE".replace("http", "ws")); } catch {}`,
}

// A stranger is a server that writes down who came.
type stranger struct {
	*httptest.Server
	mu    sync.Mutex
	heard []string
}

func newStranger(t testing.TB) *stranger {
	s := &stranger{}
	s.Server = httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		s.mu.Lock()
		defer s.mu.Unlock()
		s.heard = append(s.heard, strings.Trim(r.URL.Path, "/"))
		fmt.Fprint(w, "<!DOCTYPE html><title>stranger</title>")
	}))
	t.Cleanup(s.Close)
	return s
}

func (s *stranger) visits() []string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return slices.Compact(slices.Sorted(slices.Values(s.heard)))
}

// withoutShut is the address of the page as it would be with its policy alone.
func withoutShut(t *testing.T, f form) string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "dist")
	if err := os.CopyFS(dir, os.DirFS(packed(t))); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(dir, map[form]string{hosted: "site/index.html", singleFile: "splittally.html"}[f])
	page, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	before, rest, _ := strings.Cut(string(page), "<script>")
	shut, after, _ := strings.Cut(rest, "</script>")
	if !strings.Contains(shut, "RTCPeerConnection") {
		t.Fatalf("the first script of the page is %.80s", shut)
	}
	if err := os.WriteFile(path, []byte(before+after), 0o600); err != nil {
		t.Fatal(err)
	}
	if f == singleFile {
		return "file://" + filepath.ToSlash(path)
	}
	return serveFolder(t, filepath.Dir(path)).address
}

// TestPolicyStopsEveryReach lets code inside the page try every way out that the
// policy is for, without what closes the others. It must not get out; the same
// code in a page without a policy must, or the test would prove nothing.
func TestPolicyStopsEveryReach(t *testing.T) {
	for _, f := range forms {
		t.Run(f.String(), func(t *testing.T) {
			s := newStranger(t)
			p := open(t, look{form: f, site: withoutShut(t, f)})
			p.ignoreTrouble() // each attempt is complained of
			p.reach(s)
			if got := s.visits(); len(got) > 0 {
				t.Errorf("a stranger heard of %s", strings.Join(got, ", "))
			}
			// The browser announces some requests before its policy stops them, so
			// the watch hears even of attempts.
			p.watch.takeBreaches()
		})
	}
	t.Run("without a policy", func(t *testing.T) {
		s := newStranger(t)
		p := open(t, look{})
		p.ignoreTrouble()
		p.do("leaving for a page without a policy", chromedp.Navigate(s.URL+"/left"))
		p.reach(s)
		p.until("the stranger to hear of every way out", func() bool { return len(s.visits()) >= len(reaches)+1 })
		breaches := strings.Join(p.watch.takeBreaches(), "\n")
		for name := range reaches {
			if !strings.Contains(breaches, s.URL[len("http"):]+"/"+name) {
				t.Errorf("the watch did not hear of %s", name)
			}
		}
	})
}

// reach tries every way out and gives each time to happen.
func (p *page) reach(s *stranger) {
	p.Helper()
	for name, script := range reaches {
		evaluate[chromedp.Void](p, "try {"+strings.ReplaceAll(script, "HERE", s.URL+"/"+name)+"} catch {}") // Trusted Types throw
	}
	time.Sleep(time.Second) // for what should not happen there is nothing to wait for
}

// The watch hears of a navigation that the page asks for; of windows it hears at
// the end of each walk.
func TestWatchHearsOfLeaving(t *testing.T) {
	s := newStranger(t)
	p := open(t, look{form: singleFile, site: withoutShut(t, singleFile)})
	evaluate[chromedp.Void](p, `{ location.href = `+quote(s.URL+"/left")+`; }`)
	p.until("the watch to hear of it", func() bool {
		return strings.Contains(strings.Join(p.watch.takeBreaches(), " "), "a navigation to "+s.URL+"/left")
	})
	p.until("the stranger to be asked", func() bool { return slices.Contains(s.visits(), "left") })
	p.watch.takeBreaches()
}
