//go:build !js

package e2e

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/kjk/lzma"
)

// field is any text field of the page: it must stay usable without the engine.
const field = "textarea"

// TestWithoutEngine opens the page where the engine cannot start, in the ways in
// which old browsers, strict settings and bad servers keep it from starting.
func TestWithoutEngine(t *testing.T) {
	for name, c := range map[string]struct{ before, want string }{
		"no WebAssembly": {`delete globalThis.WebAssembly`, "WebAssembly"},
		"WebAssembly refused": {
			`WebAssembly.instantiate = async () => { throw new WebAssembly.CompileError("blocked by policy"); }`,
			"blocked by policy",
		},
	} {
		for _, f := range forms {
			t.Run(name+", "+f.String(), func(t *testing.T) {
				checkWithoutEngine(t, look{form: f, width: 360, before: c.before, failing: true}, c.want)
			})
		}
	}
}

// checkWithoutEngine reads the reason and types all the same.
func checkWithoutEngine(t *testing.T, l look, want string) *page {
	t.Helper()
	p := open(t, l)
	p.waitFor("#no-engine", want)
	if p.attribute("#no-engine", "hidden") != "" || p.text("#no-engine-reason") == "" {
		t.Errorf("the page hides the reason: %q", p.text("#no-engine"))
	}
	p.typeInto(field, "12.4 kWh")
	if got := p.value(field); got != "12.4 kWh" {
		t.Errorf("the field holds %q, want what was typed", got)
	}
	return p
}

func TestBadEngine(t *testing.T) {
	squeeze := func(data []byte) []byte {
		var b bytes.Buffer
		w := lzma.NewWriterSizeLevel(&b, int64(len(data)), lzma.BestSpeed)
		w.Write(data)
		w.Close()
		return b.Bytes()
	}
	good, err := os.ReadFile(filepath.Join(packedSite(t), "engine.bin"))
	if err != nil {
		t.Fatal(err)
	}
	for name, c := range map[string]struct {
		engine []byte
		want   string
	}{
		"missing":      {nil, "404"},
		"cut short":    {good[:len(good)/2], "damaged"},
		"another file": {[]byte("<!DOCTYPE html><title>Not found</title>"), "damaged"},
		"no module":    {squeeze([]byte("not a module")), "magic"},
		"it stops":     {squeeze(program3(t)), "stopped with code 3"},
	} {
		t.Run(name, func(t *testing.T) {
			s := serveFolder(t, siteWith(t, c.engine))
			p := checkWithoutEngine(t, look{site: s.address, failing: true}, c.want)
			if c.engine == nil {
				p.expectTrouble("404") // the browser reports a missing file by itself
			}
		})
	}
}

// program3 is an engine that ends at once, as one does that has panicked.
func program3(t *testing.T) []byte {
	t.Helper()
	dir := t.TempDir()
	source, module := filepath.Join(dir, "main.go"), filepath.Join(dir, "engine.wasm")
	if err := os.WriteFile(source, []byte("package main\n\nimport \"os\"\n\nfunc main() { os.Exit(3) }\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command("go", "build", "-o", module, source)
	cmd.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	if said, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, said)
	}
	data, err := os.ReadFile(module)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// siteWith is a copy of the packed site with another engine, or with none.
func siteWith(t *testing.T, engine []byte) string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "site")
	if err := os.CopyFS(dir, os.DirFS(packedSite(t))); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(dir, "engine.bin")
	if engine == nil {
		if err := os.Remove(path); err != nil {
			t.Fatal(err)
		}
	} else if err := os.WriteFile(path, engine, 0o600); err != nil {
		t.Fatal(err)
	}
	return dir
}

// The hosted page cannot fetch its engine when somebody opens it from disk.
func TestHostedPageFromDisk(t *testing.T) {
	address := "file://" + filepath.ToSlash(filepath.Join(packedSite(t), "index.html"))
	p := checkWithoutEngine(t, look{site: address, failing: true}, "splittally.html")
	p.watch.takeBreaches() // style.css and the scripts beside it
}

// Browsers from before Uint8Array.fromBase64 read the single file more slowly.
func TestOldBase64(t *testing.T) {
	open(t, look{form: singleFile, before: `delete Uint8Array.fromBase64`})
}
