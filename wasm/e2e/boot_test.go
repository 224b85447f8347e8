//go:build !js

package e2e

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
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
	good, err := os.ReadFile(siteFile(t, packedSite(t), "engine.bin"))
	if err != nil {
		t.Fatal(err)
	}
	half := good[:len(good)/2]
	page := []byte("<!DOCTYPE html><title>Not found</title>")
	for name, c := range map[string]struct {
		engine []byte
		meant  bool // the page was packed with this engine
		want   string
	}{
		"missing":          {nil, false, "can’t be had"},
		"cut short":        {half, false, "not the one that this page was made with"},
		"packed cut short": {half, true, "damaged"},
		"another file":     {page, false, "not the one that this page was made with"},
		"packed like that": {page, true, "damaged"},
		"no module":        {squeeze([]byte("not a module")), true, "magic"},
		"it stops":         {squeeze(program3(t)), true, "stopped with code 3"},
	} {
		t.Run(name, func(t *testing.T) {
			s := serveFolder(t, siteWith(t, c.engine, c.meant))
			p := checkWithoutEngine(t, look{site: s.address, failing: true}, c.want)
			if c.engine == nil {
				p.expectTrouble("404") // the browser reports a missing file by itself
			}
		})
	}
}

// The single file has nobody to compare its engine but itself.
func TestDamagedSingleFile(t *testing.T) {
	data, err := os.ReadFile(filepath.Join(packed(t), "splittally.html"))
	if err != nil {
		t.Fatal(err)
	}
	at := bytes.Index(data, []byte(`id="engine"`)) + 100_000
	check := func(data []byte, want string) {
		t.Helper()
		path := filepath.Join(t.TempDir(), "damaged.html")
		if err := os.WriteFile(path, data, 0o600); err != nil {
			t.Fatal(err)
		}
		checkWithoutEngine(t, look{form: singleFile, site: "file://" + filepath.ToSlash(path), failing: true}, want)
	}
	check(data[:at], "the end of this page is missing")
	data[at], data[at+1] = data[at+1], data[at]
	if data[at] == data[at+1] {
		t.Fatal("two equal letters were swapped")
	}
	check(data, "damaged")
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

// siteWith is a copy of the packed site with another engine, or with none. If
// that one is meant, the page says so.
func siteWith(t *testing.T, engine []byte, meant bool) string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "site")
	if err := os.CopyFS(dir, os.DirFS(packedSite(t))); err != nil {
		t.Fatal(err)
	}
	path := siteFile(t, dir, "engine.bin")
	before, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if engine == nil {
		err = os.Remove(path)
	} else {
		err = os.WriteFile(path, engine, 0o600)
	}
	if err != nil {
		t.Fatal(err)
	}
	if meant {
		index := filepath.Join(dir, "index.html")
		page, err := os.ReadFile(index)
		if err != nil {
			t.Fatal(err)
		}
		page = bytes.ReplaceAll(page, []byte(digest(before)), []byte(digest(engine)))
		if err := os.WriteFile(index, page, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// digest is a hash as the page has it.
func digest(data []byte) string {
	sum := sha256.Sum256(data)
	return base64.StdEncoding.EncodeToString(sum[:])
}

// The hosted page cannot fetch its engine when somebody opens it from disk.
func TestHostedPageFromDisk(t *testing.T) {
	address := "file://" + filepath.ToSlash(filepath.Join(packedSite(t), "index.html"))
	checkWithoutEngine(t, look{site: address, failing: true}, "splittally.html")
}
