//go:build !js

package e2e

import (
	"strings"
	"time"
)

// element finds an element by a selector.
func (w *webkit) element(selector string) string {
	w.Helper()
	var found map[string]string
	w.call("POST", "/element", map[string]any{"using": "css selector", "value": selector}, &found)
	for _, id := range found {
		return "/element/" + id
	}
	w.Fatalf("WebKit: nothing is %s", selector)
	return ""
}

// keys types into whatever has the focus.
func (w *webkit) keys(text string) {
	w.Helper()
	var element map[string]string
	w.call("GET", "/element/active", nil, &element)
	for _, id := range element {
		w.call("POST", "/element/"+id+"/value", map[string]any{"text": strings.ReplaceAll(text, "\n", keyEnter)}, nil)
	}
}

// command is Ctrl and a letter.
func (w *webkit) command(letter string) {
	w.Helper()
	w.call("POST", "/actions", map[string]any{"actions": []any{map[string]any{"type": "key", "id": "keys", "actions": []map[string]any{
		{"type": "keyDown", "value": keyControl},
		{"type": "keyDown", "value": letter},
		{"type": "keyUp", "value": letter},
		{"type": "keyUp", "value": keyControl},
	}}}}, nil)
}

// tap clicks: the driver has no finger. It refuses to hit what lies over.
func (w *webkit) tap(selector string) {
	w.Helper()
	w.evaluate(spotOf(selector))
	w.call("POST", w.element(selector)+"/click", map[string]any{}, nil)
}

func (w *webkit) upload(selector, path string) {
	w.Helper()
	w.call("POST", w.element(selector)+"/value", map[string]any{"text": path}, nil)
}

// handed catches the file that the page hands out where it is made: an automated
// WebKit writes none, so that it comes to the disk is not shown by this.
func (w *webkit) handed(act func()) (name string, data []byte) {
	w.Helper()
	w.evaluate(`(() => {
		window.handed = {};
		const make = Blob;
		window.Blob = function (...of) {
			const blob = new make(...of);
			blob.text().then((text) => { window.handed.text = text; });
			window.Blob = make;
			return blob;
		};
		addEventListener("click", (e) => { if (e.target.download) window.handed.name = e.target.download; }, true);
	})()`)
	act()
	for end := time.Now().Add(patience); time.Now().Before(end); time.Sleep(50 * time.Millisecond) {
		name = w.evaluate(`window.handed.name || ""`)
		text := w.evaluate(`window.handed.text || ""`)
		if name != "" && text != "" {
			return name, []byte(text)
		}
	}
	w.Fatal("WebKit was handed no file")
	return "", nil
}

func (w *webkit) reload() {
	w.Helper()
	w.look()
	w.call("POST", "/refresh", map[string]any{}, nil)
}
