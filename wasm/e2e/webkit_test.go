//go:build !js

package e2e

import (
	"bufio"
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// WebKit is driven over WebDriver, plain HTTP: its driver starts a small browser
// in a screen that exists in memory only.
type webkit struct {
	testing.TB
	session string // address of the session
	home    string // address of the page
	loaded  int    // what the page had asked for when its engine was ready
}

// openWebKit starts screen, driver and browser. The screen is a phone's.
func openWebKit(t testing.TB) *webkit { return openWebKitSized(t, 390, 844) }

// openWebKitSized starts them with a screen that the browser fills.
func openWebKitSized(t testing.TB, width, height int) *webkit {
	t.Helper()
	driver, xvfb := program(t, "WebKitWebDriver"), program(t, "Xvfb")
	browsers, _ := filepath.Glob("/usr/lib/*/webkit*gtk-*/MiniBrowser")
	if len(browsers) == 0 {
		t.Fatal("WebKit's MiniBrowser is not installed; make test installs it")
	}
	home := filepath.Join(work, "webkit")
	if err := os.MkdirAll(home, 0o700); err != nil {
		t.Fatal(err)
	}
	display := startScreen(t, xvfb, fmt.Sprintf("%dx%dx24", width, height))
	port := freePort(t)
	cmd := exec.Command(driver, fmt.Sprintf("--port=%d", port))
	cmd.Env = append(os.Environ(), "DISPLAY=:"+display, "HOME="+home, "XDG_RUNTIME_DIR="+home)
	start(t, cmd)

	w := &webkit{TB: t, session: fmt.Sprintf("http://127.0.0.1:%d/session", port)}
	for end := time.Now().Add(patience); ; time.Sleep(50 * time.Millisecond) {
		if c, err := net.Dial("tcp", fmt.Sprintf("127.0.0.1:%d", port)); err == nil {
			c.Close()
			break
		} else if time.Now().After(end) {
			t.Fatalf("the driver of WebKit does not listen: %v", err)
		}
	}
	var made struct{ SessionID string }
	w.call("POST", "", map[string]any{"capabilities": map[string]any{"alwaysMatch": map[string]any{
		"webkitgtk:browserOptions": map[string]any{"binary": browsers[0], "args": []string{"--automation", "--full-screen"}},
	}}}, &made)
	w.session += "/" + made.SessionID
	t.Cleanup(func() { w.call("DELETE", "", nil, nil) })
	return w
}

// startScreen starts an X server and returns its number.
func startScreen(t testing.TB, xvfb, size string) string {
	t.Helper()
	r, w, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	cmd := exec.Command(xvfb, "-displayfd", "3", "-screen", "0", size, "-nolisten", "tcp")
	cmd.ExtraFiles = []*os.File{w}
	start(t, cmd)
	w.Close()
	number, err := bufio.NewReader(r).ReadString('\n')
	if err != nil {
		t.Fatalf("the screen did not start: %v", err)
	}
	return strings.TrimSpace(number)
}

// start runs a program until the end of the test.
func start(t testing.TB, cmd *exec.Cmd) {
	t.Helper()
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { cmd.Process.Kill(); cmd.Wait() })
}

func freePort(t testing.TB) int {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	return l.Addr().(*net.TCPAddr).Port
}

// call sends a command and decodes the value of the reply.
func (w *webkit) call(method, path string, params, value any) {
	w.Helper()
	var body io.Reader
	if method == "POST" {
		data, err := json.Marshal(params)
		if err != nil {
			w.Fatal(err)
		}
		body = bytes.NewReader(data)
	}
	request, err := http.NewRequest(method, w.session+path, body)
	if err != nil {
		w.Fatal(err)
	}
	client := http.Client{Timeout: patience}
	response, err := client.Do(request)
	if err != nil {
		w.Fatalf("WebKit: %s: %v", path, err)
	}
	defer response.Body.Close()
	data, err := io.ReadAll(response.Body)
	if err != nil || response.StatusCode != http.StatusOK {
		w.Fatalf("WebKit: %s: %s %s %v", path, response.Status, data, err)
	}
	if value == nil {
		return
	}
	if err := json.Unmarshal(data, &struct{ Value any }{value}); err != nil {
		w.Fatalf("WebKit: %s: %v in %s", path, err, data)
	}
}

func (w *webkit) load(address string) {
	w.Helper()
	w.look()
	w.home, _, _ = strings.Cut(address, "#")
	w.call("POST", "/url", map[string]any{"url": address}, nil)
}

func (w *webkit) evaluate(script string) string {
	w.Helper()
	var text string
	w.call("POST", "/execute/sync", map[string]any{"script": "return Promise.resolve(" + script + ").then(String)", "args": []any{}}, &text)
	return text
}

// troubled is where the page's errors are gathered from settle on.
const troubled = `window.troubledHere`

// settle says that the engine is ready: from now on nothing may be asked for, and
// errors are heard.
func (w *webkit) settle() {
	w.Helper()
	fmt.Sscan(w.evaluate(`(() => {
		const all = `+troubled+` = [];
		for (const kind of ["error", "unhandledrejection", "securitypolicyviolation"])
			addEventListener(kind, (e) => { all.push(kind + ": " + (e.message || e.reason || e.violatedDirective)); }, true);
		const said = console.error;
		console.error = (...words) => { all.push(words.join(" ")); said.apply(console, words); };
		return performance.getEntriesByType("resource").length;
	})()`), &w.loaded)
}

// look takes up what can be known of a document before it goes: what it loaded,
// and its errors since settle. The protocol tells nothing else.
func (w *webkit) look() {
	w.Helper()
	if w.home == "" {
		return
	}
	asked := w.evaluate(`performance.getEntriesByType("resource").map((e) => e.name).join("\n")`)
	for i, address := range strings.Fields(asked) {
		scheme, _, _ := strings.Cut(address, ":")
		mine := strings.HasPrefix(address, w.home)
		name := plainName(strings.TrimPrefix(address, w.home))
		late := w.loaded > 0 && i >= w.loaded && name != "sw.js" && !forTheBrowser.MatchString(name)
		if scheme != "data" && scheme != "blob" && (!mine || late) {
			w.Errorf("the page asked for %s", address)
		}
	}
	if w.loaded > 0 {
		if trouble := w.evaluate(`(` + troubled + ` || []).join("\n")`); trouble != "" {
			w.Errorf("the page complained: %s", trouble)
		}
	}
	w.loaded = 0
}

// report fails the walk for requests and errors.
func (w *webkit) report() {
	w.Helper()
	w.look()
	w.home = ""
}
