//go:build !js

package e2e

import (
	"bufio"
	"context"
	"encoding/json"
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

// Firefox is driven over WebDriver BiDi, which it speaks by itself: one
// WebSocket, commands with a number, events without.
type firefox struct {
	testing.TB
	socket *websocket.Conn
	tab    string

	mu      sync.Mutex
	last    int
	waiting map[int]chan reply
	asked   []string // addresses of requests
	trouble []string // errors that the page reported
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
user_pref("network.captive-portal-service.enabled", false);
user_pref("network.connectivity-service.enabled", false);
`

// openFirefox starts the browser with an empty profile and one tab.
func openFirefox(t testing.TB) *firefox {
	t.Helper()
	path := program(t, "firefox-esr")
	profile := filepath.Join(work, "firefox")
	if err := os.MkdirAll(profile, 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(profile, "user.js"), []byte(preferences), 0o600); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(path, "--headless", "--no-remote", "--profile", profile, "--remote-debugging-port", "0")
	cmd.Env = append(os.Environ(), "HOME="+profile) // its own folder even where HOME is another's
	said, err := cmd.StderrPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { cmd.Process.Kill(); cmd.Wait(); os.RemoveAll(profile) })

	listening := regexp.MustCompile(`WebDriver BiDi listening on (ws://\S+)`)
	address := make(chan string, 1)
	go func() {
		for lines := bufio.NewScanner(said); lines.Scan(); {
			if m := listening.FindStringSubmatch(lines.Text()); m != nil {
				address <- m[1]
			}
		}
	}()
	f := &firefox{TB: t, waiting: map[int]chan reply{}}
	select {
	case a := <-address:
		f.dial(a + "/session")
	case <-time.After(2 * patience):
		t.Fatal("Firefox did not say where it listens")
	}
	return f
}

// dial begins the session and finds the tab.
func (f *firefox) dial(address string) {
	f.Helper()
	ctx, cancel := context.WithTimeout(context.Background(), patience)
	defer cancel()
	socket, _, err := websocket.Dial(ctx, address, nil)
	if err != nil {
		f.Fatalf("reaching Firefox: %v", err)
	}
	socket.SetReadLimit(64 << 20)
	f.socket = socket
	go f.listen()
	f.call("session.new", map[string]any{"capabilities": map[string]any{}}, nil)
	f.call("session.subscribe", map[string]any{"events": []string{"log.entryAdded", "network.beforeRequestSent"}}, nil)
	var tree struct {
		Contexts []struct{ Context string }
	}
	f.call("browsingContext.getTree", map[string]any{}, &tree)
	f.tab = tree.Contexts[0].Context
}

// listen sorts what the browser says until the connection ends.
func (f *firefox) listen() {
	for {
		var r reply
		if err := wsjson.Read(context.Background(), f.socket, &r); err != nil {
			return
		}
		f.mu.Lock()
		switch r.Method {
		case "":
			if waiting := f.waiting[r.ID]; waiting != nil {
				waiting <- r
			}
		case "network.beforeRequestSent":
			var e struct{ Request struct{ URL string } }
			json.Unmarshal(r.Params, &e)
			f.asked = append(f.asked, e.Request.URL)
		case "log.entryAdded":
			var e struct{ Level, Text string }
			json.Unmarshal(r.Params, &e)
			if e.Level == "error" {
				f.trouble = append(f.trouble, e.Text)
			}
		}
		f.mu.Unlock()
	}
}

// call sends a command, waits for its reply and decodes the result.
func (f *firefox) call(method string, params, result any) {
	f.Helper()
	answer := make(chan reply, 1)
	f.mu.Lock()
	f.last++
	id := f.last
	f.waiting[id] = answer
	f.mu.Unlock()
	ctx, cancel := context.WithTimeout(context.Background(), patience)
	defer cancel()
	if err := wsjson.Write(ctx, f.socket, map[string]any{"id": id, "method": method, "params": params}); err != nil {
		f.Fatalf("Firefox: %s: %v", method, err)
	}
	select {
	case r := <-answer:
		if r.Type == "error" {
			f.Fatalf("Firefox: %s: %s: %s", method, r.Error, r.Message)
		}
		if result != nil {
			if err := json.Unmarshal(r.Result, result); err != nil {
				f.Fatalf("Firefox: %s: %v", method, err)
			}
		}
	case <-ctx.Done():
		f.Fatalf("Firefox: %s: no reply", method)
	}
}

func (f *firefox) load(address string) {
	f.Helper()
	f.call("browsingContext.navigate", map[string]any{"context": f.tab, "url": address, "wait": "complete"}, nil)
}

func (f *firefox) evaluate(script string) string {
	f.Helper()
	var r struct {
		Result struct {
			Type  string
			Value json.RawMessage
		}
		ExceptionDetails struct{ Text string }
	}
	f.call("script.evaluate", map[string]any{
		"expression": "String(" + script + ")", "awaitPromise": true, "target": map[string]any{"context": f.tab},
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

func (f *firefox) keys(text string) {
	f.Helper()
	var strokes []map[string]any
	for _, r := range text {
		for _, kind := range []string{"keyDown", "keyUp"} {
			strokes = append(strokes, map[string]any{"type": kind, "value": string(r)})
		}
	}
	f.call("input.performActions", map[string]any{
		"context": f.tab,
		"actions": []any{map[string]any{"type": "key", "id": "keys", "actions": strokes}},
	}, nil)
}

// report fails the walk for errors, and for requests that left the machine's
// disk.
func (f *firefox) report() {
	f.Helper()
	f.mu.Lock()
	defer f.mu.Unlock()
	if len(f.asked) == 0 {
		f.Error("Firefox reported no request, not even for the page itself: the watch is blind")
	}
	for _, a := range f.asked {
		if scheme, _, _ := strings.Cut(a, ":"); scheme != "file" && scheme != "data" && scheme != "blob" && !strings.HasPrefix(a, "about:") {
			f.Errorf("the page asked for %s", a)
		}
	}
	for _, t := range f.trouble {
		f.Errorf("the page complained: %s", t)
	}
}
