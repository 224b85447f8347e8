//go:build !js

package e2e

import (
	"bufio"
	"context"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/coder/websocket"
	"github.com/coder/websocket/wsjson"
)

// bidi is the one Firefox of a run. It is driven over WebDriver BiDi, which it
// speaks by itself: one WebSocket, commands with a number, events without.
type bidi struct {
	socket *websocket.Conn

	mu      sync.Mutex
	last    int
	waiting map[int]chan reply
	tabs    map[string]*firefox
}

// firefox is a tab of it, with storage of its own.
type firefox struct {
	testing.TB
	browser *bidi
	tab     string
	phone   bool
	watch   *watch
}

// A reply is any message of the browser.
type reply struct {
	ID      int             `json:"id"`
	Type    string          `json:"type"`
	Method  string          `json:"method"`
	Result  json.RawMessage `json:"result"`
	Params  json.RawMessage `json:"params"`
	Error   string          `json:"error"`
	Message string          `json:"message"`
}

// preferences keep the browser to its business. The origin rule for files is
// the one that people have: an automated Firefox would relax it.
const preferences = `
user_pref("security.fileuri.strict_origin_policy", true);
user_pref("browser.shell.checkDefaultBrowser", false);
user_pref("browser.startup.homepage_override.mstone", "ignore");
user_pref("datareporting.policy.dataSubmissionEnabled", false);
user_pref("toolkit.telemetry.server", "");
user_pref("app.update.disabledForTesting", true);
user_pref("media.peerconnection.ice.loopback", true);
user_pref("media.peerconnection.ice.obfuscate_host_addresses", false);
user_pref("network.captive-portal-service.enabled", false);
user_pref("network.connectivity-service.enabled", false);
`

var stopFirefox func()

// startFirefox starts the browser with an empty profile.
var startFirefox = sync.OnceValues(func() (*bidi, error) {
	profile := filepath.Join(work, "firefox")
	if err := os.MkdirAll(profile, 0o700); err != nil {
		return nil, err
	}
	if err := os.WriteFile(filepath.Join(profile, "user.js"), []byte(preferences), 0o600); err != nil {
		return nil, err
	}
	cmd := exec.Command("firefox-esr", "--headless", "--no-remote", "--profile", profile, "--remote-debugging-port", "0")
	cmd.Env = append(os.Environ(), "HOME="+profile) // its own folder even where HOME is another's
	said, err := cmd.StderrPipe()
	if err != nil {
		return nil, err
	}
	if err := cmd.Start(); err != nil {
		return nil, err
	}
	stopFirefox = func() { cmd.Process.Kill(); cmd.Wait() }

	listening := regexp.MustCompile(`WebDriver BiDi listening on (ws://\S+)`)
	address := make(chan string, 1)
	go func() {
		for lines := bufio.NewScanner(said); lines.Scan(); {
			if m := listening.FindStringSubmatch(lines.Text()); m != nil {
				address <- m[1]
			}
		}
	}()
	select {
	case a := <-address:
		return dialFirefox(a + "/session")
	case <-time.After(2 * patience):
		return nil, fmt.Errorf("it did not say where it listens")
	}
})

// dialFirefox begins the session.
func dialFirefox(address string) (*bidi, error) {
	ctx, cancel := context.WithTimeout(context.Background(), patience)
	defer cancel()
	socket, _, err := websocket.Dial(ctx, address, nil)
	if err != nil {
		return nil, err
	}
	socket.SetReadLimit(64 << 20)
	b := &bidi{socket: socket, waiting: map[int]chan reply{}, tabs: map[string]*firefox{}}
	go b.listen()
	if err := b.call("session.new", map[string]any{"capabilities": map[string]any{}}, nil); err != nil {
		return nil, err
	}
	return b, b.call("session.subscribe", map[string]any{"events": []string{"log.entryAdded", "network.beforeRequestSent"}}, nil)
}

// listen sorts what the browser says until the connection ends.
func (b *bidi) listen() {
	for {
		var r reply
		if err := wsjson.Read(context.Background(), b.socket, &r); err != nil {
			return
		}
		b.mu.Lock()
		if waiting := b.waiting[r.ID]; r.Method == "" && waiting != nil {
			delete(b.waiting, r.ID)
			waiting <- r
		} else {
			b.tell(r)
		}
		b.mu.Unlock()
	}
}

// tell lets tabs know of an event. A request without a tab is one of a worker:
// it may go to where its page comes from.
func (b *bidi) tell(r reply) {
	var e struct {
		Context     string
		Request     struct{ URL string }
		Source      struct{ Context string }
		Level, Text string
	}
	json.Unmarshal(r.Params, &e)
	switch r.Method {
	case "network.beforeRequestSent":
		for name, f := range b.tabs {
			if name == e.Context || e.Context == "" && !strings.HasPrefix(e.Request.URL, f.watch.home) {
				f.watch.request(e.Request.URL)
			}
		}
	case "log.entryAdded":
		if f := b.tabs[e.Source.Context]; f != nil && e.Level == "error" {
			f.watch.complaint(e.Text)
		}
	}
}

// call sends a command, waits for its reply and decodes the result.
func (b *bidi) call(method string, params, result any) error {
	answer := make(chan reply, 1)
	b.mu.Lock()
	b.last++
	id := b.last
	b.waiting[id] = answer
	b.mu.Unlock()
	ctx, cancel := context.WithTimeout(context.Background(), patience)
	defer cancel()
	if err := wsjson.Write(ctx, b.socket, map[string]any{"id": id, "method": method, "params": params}); err != nil {
		return fmt.Errorf("%s: %w", method, err)
	}
	select {
	case r := <-answer:
		if r.Type == "error" {
			return fmt.Errorf("%s: %s: %s", method, r.Error, r.Message)
		}
		if result == nil {
			return nil
		}
		return json.Unmarshal(r.Result, result)
	case <-ctx.Done():
		return fmt.Errorf("%s: no reply", method)
	}
}

// openFirefox opens a tab with nothing stored, on a desktop.
func openFirefox(t testing.TB) *firefox { return openFirefoxSized(t, 1280, 800) }

func openFirefoxSized(t testing.TB, width, height int) *firefox {
	t.Helper()
	program(t, "firefox-esr")
	b, err := startFirefox()
	if err != nil {
		t.Fatalf("starting Firefox: %v", err)
	}
	f := &firefox{TB: t, browser: b, phone: width < 600, watch: &watch{form: singleFile}}
	var made struct{ UserContext, Context string }
	f.call("browser.createUserContext", map[string]any{}, &made)
	profile := made.UserContext
	f.call("browsingContext.create", map[string]any{"type": "tab", "userContext": profile}, &made)
	f.tab = made.Context
	b.mu.Lock()
	b.tabs[f.tab] = f
	b.mu.Unlock()
	t.Cleanup(func() {
		b.mu.Lock()
		delete(b.tabs, f.tab)
		b.mu.Unlock()
		f.call("browsingContext.close", map[string]any{"context": f.tab}, nil)
		f.call("browser.removeUserContext", map[string]any{"userContext": profile}, nil)
	})
	f.call("browsingContext.setViewport", map[string]any{"context": f.tab, "viewport": map[string]any{"width": width, "height": height}}, nil)
	return f
}

func (f *firefox) call(method string, params, result any) {
	f.Helper()
	if err := f.browser.call(method, params, result); err != nil {
		f.Fatalf("Firefox: %v", err)
	}
}

func (f *firefox) load(address string) {
	f.Helper()
	f.watch.arrive(address)
	f.call("browsingContext.navigate", map[string]any{"context": f.tab, "url": address, "wait": "complete"}, nil)
}

func (f *firefox) evaluate(script string) string {
	f.Helper()
	var r struct {
		Result           struct{ Value json.RawMessage }
		ExceptionDetails struct{ Text string }
	}
	f.call("script.evaluate", map[string]any{
		"expression": "Promise.resolve(" + script + ").then(String)", "awaitPromise": true, "target": map[string]any{"context": f.tab},
	}, &r)
	if r.ExceptionDetails.Text != "" {
		f.Fatalf("Firefox: %s: %s", script, r.ExceptionDetails.Text)
	}
	var text string
	if err := json.Unmarshal(r.Result.Value, &text); err != nil {
		f.Fatalf("Firefox: %s gives %s", script, r.Result.Value)
	}
	return text
}

// report fails the walk for errors, and for requests that the page may not make.
func (f *firefox) report() {
	f.Helper()
	if len(f.watch.requests) == 0 {
		f.Error("Firefox reported no request, not even for the page itself: the watch is blind")
	}
	f.watch.report(f)
}
