//go:build !js

package e2e

import (
	"encoding/base64"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"time"
)

// Keys of WebDriver that are no letters.
const (
	keyControl = "\ue009"
	keyDelete  = "\ue017"
	keyEnter   = "\ue007"
)

// keys types into whatever has the focus.
func (f *firefox) keys(text string) {
	f.Helper()
	var strokes []map[string]any
	for _, r := range strings.ReplaceAll(text, "\n", keyEnter) {
		for _, kind := range []string{"keyDown", "keyUp"} {
			strokes = append(strokes, map[string]any{"type": kind, "value": string(r)})
		}
	}
	f.perform("key", nil, strokes)
}

// command is Ctrl and a letter.
func (f *firefox) command(letter string) {
	f.Helper()
	f.perform("key", nil, []map[string]any{
		{"type": "keyDown", "value": keyControl},
		{"type": "keyDown", "value": letter},
		{"type": "keyUp", "value": letter},
		{"type": "keyUp", "value": keyControl},
	})
}

func (f *firefox) perform(kind string, parameters map[string]any, actions []map[string]any) {
	f.Helper()
	source := map[string]any{"type": kind, "id": kind, "actions": actions}
	if parameters != nil {
		source["parameters"] = parameters
	}
	f.call("input.performActions", map[string]any{"context": f.tab, "actions": []any{source}}, nil)
}

func (f *firefox) tap(selector string) {
	f.Helper()
	var spot spot
	if err := json.Unmarshal([]byte(f.evaluate(spotOf(selector)+`.then(JSON.stringify)`)), &spot); err != nil {
		f.Fatal(err)
	}
	if spot.Over != "" {
		f.Fatalf("tapping %s would hit %s", selector, spot.Over)
	}
	pointer := map[bool]string{false: "mouse", true: "touch"}[f.phone]
	f.perform("pointer", map[string]any{"pointerType": pointer}, []map[string]any{
		{"type": "pointerMove", "x": int(spot.X), "y": int(spot.Y)}, {"type": "pointerDown", "button": 0}, {"type": "pointerUp", "button": 0},
	})
}

func (f *firefox) upload(selector, path string) {
	f.Helper()
	var r struct{ Result struct{ SharedID string } }
	f.call("script.evaluate", map[string]any{"expression": find(selector), "awaitPromise": false, "target": map[string]any{"context": f.tab}}, &r)
	f.call("input.setFiles", map[string]any{"context": f.tab, "element": map[string]any{"sharedId": r.Result.SharedID}, "files": []string{path}}, nil)
}

// handed lets the browser write the file that the page hands out.
func (f *firefox) handed(act func()) (name string, data []byte) {
	f.Helper()
	dir := f.TempDir()
	f.call("browser.setDownloadBehavior", map[string]any{"downloadBehavior": map[string]any{"type": "allowed", "destinationFolder": dir}}, nil)
	act()
	for end := time.Now().Add(patience); time.Now().Before(end); time.Sleep(50 * time.Millisecond) {
		entries, err := os.ReadDir(dir)
		if err != nil {
			f.Fatal(err)
		}
		if len(entries) != 1 || strings.HasSuffix(entries[0].Name(), ".part") {
			continue // while it comes there are two
		}
		name = entries[0].Name()
		if data, err = os.ReadFile(filepath.Join(dir, name)); err != nil {
			f.Fatal(err)
		}
		if len(data) > 0 {
			return name, data
		}
	}
	f.Fatal("Firefox wrote no file")
	return "", nil
}

// printed is the page as PDF, on A4.
func (f *firefox) printed() []byte {
	f.Helper()
	var r struct{ Data string }
	f.call("browsingContext.print", map[string]any{"context": f.tab, "page": map[string]any{"width": 21.0, "height": 29.7}}, &r)
	data, err := base64.StdEncoding.DecodeString(r.Data)
	if err != nil {
		f.Fatal(err)
	}
	return data
}

func (f *firefox) reload() {
	f.Helper()
	f.watch.unsettle()
	f.call("browsingContext.reload", map[string]any{"context": f.tab, "wait": "complete"}, nil)
}

func (f *firefox) settle() { f.watch.settle() }
