//go:build !js

package e2e

import (
	"bytes"
	"encoding/json"
	"fmt"
	"net"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"
)

// An intruded is a browser in which a hostile script runs as if the policy had let
// it: the test browser puts it there.
type intruded interface {
	testing.TB
	load(address string)
	evaluate(script string) string
	inject(script string) string // as if the person had just clicked
}

// ears hear who comes: each way has a port of its own, since a preconnection
// says no more than that somebody was there.
type ears struct {
	mu    sync.Mutex
	came  map[string]bool
	ports map[string]net.Listener
	drops map[string]net.PacketConn
}

func listen(t testing.TB) *ears {
	e := &ears{came: map[string]bool{}, ports: map[string]net.Listener{}, drops: map[string]net.PacketConn{}}
	for _, w := range ways {
		l, err := net.Listen("tcp", "127.0.0.1:0")
		if err != nil {
			t.Fatal(err)
		}
		d, err := net.ListenPacket("udp", "127.0.0.1:0")
		if err != nil {
			t.Fatal(err)
		}
		t.Cleanup(func() { l.Close(); d.Close() })
		e.ports[w.name], e.drops[w.name] = l, d
		go e.accept(w.name, l)
		go func() {
			for {
				if _, _, err := d.ReadFrom(make([]byte, 1500)); err != nil {
					return
				}
				e.hear(w.name)
			}
		}()
	}
	return e
}

func (e *ears) accept(name string, l net.Listener) {
	http.Serve(counting{l, func() { e.hear(name) }}, http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Content-Type", "text/html")
		fmt.Fprint(w, "<!DOCTYPE html><title>stranger</title>")
	}))
}

// counting is a listener that says when somebody connects.
type counting struct {
	net.Listener
	came func()
}

func (c counting) Accept() (net.Conn, error) {
	conn, err := c.Listener.Accept()
	if err == nil {
		c.came()
	}
	return conn, err
}

func (e *ears) hear(name string) {
	e.mu.Lock()
	defer e.mu.Unlock()
	e.came[name] = true
}

func (e *ears) heard(name string) bool {
	e.mu.Lock()
	defer e.mu.Unlock()
	return e.came[name]
}

func (e *ears) here(name string) string { return "http://" + e.ports[name].Addr().String() + "/" }
func (e *ears) port(name string) string {
	_, port, _ := net.SplitHostPort(e.drops[name].LocalAddr().String())
	return port
}

// ground is where a page is opened that hostile scripts try to get out of.
type ground struct {
	address string // of the page
	own     string // before the name of a way: what its own server would be asked for; "" has none
	ready   string // a script that says "ready" once the page is there
}

// controlPage has none of our measures.
const controlPage = `<!DOCTYPE html><html lang="en"><meta charset="utf-8"><meta name="description" content="none"><title>control</title><link rel="icon" href="data:,"><body><p>control`

// grounds are our page and the page without measures, in a form.
func grounds(t testing.TB, f form, e *ears) (ours, control ground) {
	const engineReady, pageReady = `document.documentElement.dataset.whole === "yes" ? "ready" : ""`, `document.body && document.title === "control" ? "ready" : ""`
	if f == singleFile {
		path := filepath.Join(t.TempDir(), "control.html")
		if err := os.WriteFile(path, []byte(controlPage), 0o600); err != nil {
			t.Fatal(err)
		}
		return ground{address: singleFileAddress(t), ready: engineReady}, ground{address: "file://" + filepath.ToSlash(path), ready: pageReady}
	}
	host := func(files http.Handler) string {
		s := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
			if c, err := r.Cookie("told"); err == nil && strings.HasSuffix(r.Host, ":"+c.Value) {
				e.hear("own cookie")
			}
			if name, ok := strings.CutPrefix(r.URL.Path, "/own/"); ok {
				e.hear(name)
				w.Header().Set("Content-Type", "text/javascript")
				return
			}
			files.ServeHTTP(w, r)
		}))
		t.Cleanup(s.Close)
		return s.URL + "/"
	}
	site := host(http.FileServer(http.Dir(packedSite(t))))
	plain := host(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Content-Type", "text/html")
		fmt.Fprint(w, controlPage)
	}))
	return ground{site, "/own/", engineReady}, ground{plain, "/own/", pageReady}
}

// tried gives the names of the ways that got out.
func tried(h intruded, g ground, e *ears) map[string]bool {
	h.Helper()
	arrive := func() {
		h.load(g.address)
		for end := time.Now().Add(patience); h.evaluate(g.ready) != "ready"; time.Sleep(20 * time.Millisecond) {
			if time.Now().After(end) {
				h.Fatalf("waited for %s", g.address)
			}
		}
	}
	arrive()
	left := false
	for _, w := range ways {
		if strings.HasPrefix(w.name, "own ") && g.own == "" {
			continue
		}
		if w.leaves && !left {
			left = true
			time.Sleep(2 * time.Second) // let what was begun arrive
			arrive()                    // where nothing is loading any more
		}
		h.inject(w.at(e.here(w.name), g.own+w.name, e.port(w.name)))
		if !w.leaves {
			continue
		}
		for end := time.Now().Add(400 * time.Millisecond); time.Now().Before(end) && !e.heard(w.name); time.Sleep(20 * time.Millisecond) {
		}
		if h.evaluate(g.ready) != "ready" {
			arrive()
		}
	}
	time.Sleep(time.Second) // for what should not happen there is nothing to wait for
	out := map[string]bool{}
	for _, w := range ways {
		out[w.name] = e.heard(w.name)
	}
	return out
}

// TestShut has a hostile script try every way out of the page, and out of a page
// without our measures, where it must succeed or the test would prove nothing.
// What still gets out stands in the table of ways.
func TestShut(t *testing.T) {
	for name, start := range map[string]func(testing.TB) intruded{
		"chromium": func(t testing.TB) intruded { return openUnwatched(t) },
		"firefox":  func(t testing.TB) intruded { return &intrudedFirefox{openFirefox(t)} },
		"webkit":   func(t testing.TB) intruded { return &intrudedWebKit{openWebKit(t)} },
	} {
		t.Run(name, func(t *testing.T) {
			free := map[string]bool{} // what succeeds without measures, in either form
			for _, f := range forms {
				h, e := start(t), listen(t)
				_, control := grounds(t, f, e)
				for way, heard := range tried(h, control, e) {
					free[way] = free[way] || heard
				}
				e = listen(t)
				ours, _ := grounds(t, f, e)
				for way, heard := range tried(h, ours, e) {
					check(t, f, name, way, heard)
				}
				h.load(ours.address)
				unmade(t, h)
			}
			for _, w := range ways {
				if tried := !strings.Contains(w.untried, name); tried && !free[w.name] {
					t.Errorf("%s did not get out of a page without measures either", w.name)
				}
			}
		})
	}
}

// check holds what happened to the table.
func check(t *testing.T, f form, engine, name string, heard bool) {
	t.Helper()
	for _, w := range ways {
		if own := strings.HasPrefix(name, "own "); w.name != name || own && f == singleFile {
			continue
		}
		switch expected := strings.Contains(w.out, engine); {
		case heard && !expected:
			t.Errorf("%v: %s got out", f, name)
		case !heard && expected:
			t.Errorf("%v: %s did not get out; the table says that it does", f, name)
		}
	}
}

// unmade has a hostile script try to make markup or code out of texts.
func unmade(t *testing.T, h intruded) {
	t.Helper()
	for end := time.Now().Add(patience); h.evaluate(`document.documentElement.dataset.whole`) != "yes" && time.Now().Before(end); time.Sleep(20 * time.Millisecond) {
	}
	for _, script := range []string{
		`document.body.innerHTML = "<b>x</b>"`,
		`document.body.insertAdjacentHTML("beforeend", "<b>x</b>")`,
		`document.write("<b>x</b>")`,
		`new DOMParser().parseFromString("<b>x</b>", "text/html")`,
		`document.createRange().createContextualFragment("<b>x</b>")`,
		`document.createElement("template").setHTMLUnsafe("<b>x</b>")`,
		`trustedTypes.createPolicy("split-tally", { createHTML: (s) => s })`,
		`trustedTypes.createPolicy("default", { createHTML: (s) => s })`,
		`new Go()`,
		`Reflect.apply = null; if (Reflect.apply !== null) throw new Error("frozen")`,
		`document.createElementNS("http://www.w3.org/1999/xhtml", "iframe")`,
	} {
		if said := h.inject(`(() => { try { ` + script + `; return ""; } catch (err) { return String(err); } })()`); said == "" {
			t.Errorf("%s was let", script)
		}
	}
	if n := h.evaluate(`document.body.querySelectorAll("b").length`); n != "0" {
		t.Errorf("%s elements were made", n)
	}
}

// intrudedFirefox runs scripts as if the person had just clicked.
type intrudedFirefox struct{ *firefox }

// load does not wait for the browser to say that a page is there: one that goes
// elsewhere meanwhile is never there.
func (f *intrudedFirefox) load(address string) {
	f.Helper()
	// Behind another tab, as after a window that was opened, pages get little time.
	f.call("browsingContext.activate", map[string]any{"context": f.tab}, nil)
	f.watch.arrive(address)
	f.inject(`window.before = 1`)
	for range 20 {
		f.call("browsingContext.navigate", map[string]any{"context": f.tab, "url": address, "wait": "none"}, nil)
		for end := time.Now().Add(patience / 10); time.Now().Before(end); time.Sleep(20 * time.Millisecond) {
			if f.inject(`window.before`) == "undefined" {
				return
			}
		}
	}
	f.Fatalf("Firefox did not go to %s", address)
}

func (f *intrudedFirefox) evaluate(script string) string { return f.inject(script) }

// inject gives "" for a script that the page was left in the middle of.
func (f *intrudedFirefox) inject(script string) string {
	f.Helper()
	var r struct{ Result struct{ Value string } }
	f.browser.call("script.evaluate", map[string]any{
		"expression": "String(" + script + ")", "awaitPromise": false, "userActivation": true, "target": map[string]any{"context": f.tab},
	}, &r)
	return r.Result.Value
}

// intrudedWebKit runs scripts; its driver has no way to make them look like a
// click's.
type intrudedWebKit struct{ *webkit }

func (w *intrudedWebKit) load(address string) {
	w.Helper()
	w.call("POST", "/url", map[string]any{"url": address}, nil)
}

func (w *intrudedWebKit) evaluate(script string) string { return w.inject(script) }

// inject gives "" for a script that the page was left in the middle of.
func (w *intrudedWebKit) inject(script string) string {
	w.Helper()
	body, err := json.Marshal(map[string]any{"script": "return String(" + script + ")", "args": []any{}})
	if err != nil {
		w.Fatal(err)
	}
	client := http.Client{Timeout: patience}
	response, err := client.Post(w.session+"/execute/sync", "application/json", bytes.NewReader(body))
	if err != nil {
		w.Fatalf("WebKit: %v", err)
	}
	defer response.Body.Close()
	var said struct{ Value any }
	if err := json.NewDecoder(response.Body).Decode(&said); err != nil {
		w.Fatalf("WebKit: %v", err)
	}
	text, _ := said.Value.(string) // of an error it is an object
	return text
}
