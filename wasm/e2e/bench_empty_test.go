//go:build !js

package e2e

import (
	"bytes"
	"compress/gzip"
	"encoding/base64"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// The empty page of BenchmarkStart is testdata/empty, compiled without symbols
// and paths and handed out in the usual ways: from a server with everything by
// gzip -9, so that the browser unpacks and compiles the program as it comes
// (instantiateStreaming); from disk as one file that holds the program as base64
// of gzip, which DecompressionStream unpacks.
const emptyPage = `<!DOCTYPE html>
<html lang="en"><head><meta charset="utf-8"><title>Empty</title>GLUE</head>
<body><p>An empty page.</p><p><input id="monitors-0-name" aria-label="Text"></p>
ENGINE<script>
const go = new Go();
LOAD.then((made) => go.run(made.instance));
</script></body></html>`

// Two ways to the program.
const (
	emptyStreams = `WebAssembly.instantiateStreaming(fetch("engine.wasm"), go.importObject)`
	emptyUnpacks = `new Response(new Blob([Uint8Array.fromBase64(document.getElementById("engine").textContent)]).stream().pipeThrough(new DecompressionStream("gzip")))
	.arrayBuffer().then((bytes) => WebAssembly.instantiate(bytes, go.importObject))`
)

// hosts are the addresses of pages that start.
type hosts struct {
	ours, zipped     string // as make run serves it; with texts by gzip, as most hosts send them
	empty, emptyFile string
}

// startHosts builds the empty page and serves all of them.
func startHosts(b *testing.B) hosts {
	b.Helper()
	dir := filepath.Join(work, "empty")
	if err := os.MkdirAll(dir, 0o700); err != nil {
		b.Fatal(err)
	}
	module := filepath.Join(dir, "engine.wasm")
	cmd := exec.Command("go", "build", "-trimpath", "-ldflags=-s -w", "-o", module, "./testdata/empty")
	cmd.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	if said, err := cmd.CombinedOutput(); err != nil {
		b.Fatalf("building the empty page: %v\n%s", err, said)
	}
	root, err := goCommand("env", "GOROOT")
	if err != nil {
		b.Fatal(err)
	}
	glue := read(b, filepath.Join(strings.TrimSpace(root), "lib", "wasm", "wasm_exec.js"))
	engine := gzipped(b, read(b, module))
	page := func(glue, engine, load string) []byte {
		return []byte(strings.NewReplacer("GLUE", glue, "ENGINE", engine, "LOAD", load).Replace(emptyPage))
	}
	file := filepath.Join(dir, "empty.html")
	inside := `<script type="application/octet-stream" id="engine">` + base64.StdEncoding.EncodeToString(engine) + "</script>\n"
	if err := os.WriteFile(file, page("<script>"+string(glue)+"</script>", inside, emptyUnpacks), 0o600); err != nil {
		b.Fatal(err)
	}
	ours := map[string][]byte{}
	entries, err := os.ReadDir(packedSite(b))
	if err != nil {
		b.Fatal(err)
	}
	for _, e := range entries {
		ours[e.Name()] = read(b, filepath.Join(packedSite(b), e.Name()))
	}
	return hosts{
		ours:   serve(b).address,
		zipped: zippingHost(b, ours),
		empty: zippingHost(b, map[string][]byte{
			"index.html":   page(`<script src="wasm_exec.js"></script>`, "", emptyStreams),
			"wasm_exec.js": glue,
			"engine.wasm":  read(b, module),
		}),
		emptyFile: "file://" + filepath.ToSlash(file),
	}
}

// zippingHost serves files by gzip -9, but for those that are packed already. A
// browser may keep them but asks each time whether they are still right, as with
// wasm/serve.
func zippingHost(b *testing.B, files map[string][]byte) string {
	b.Helper()
	zipped, when := map[string][]byte{}, time.Now()
	for name, data := range files {
		if filepath.Ext(name) != ".bin" {
			zipped[name] = gzipped(b, data)
		}
	}
	s := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		name := strings.TrimPrefix(r.URL.Path, "/")
		if name == "" {
			name = "index.html"
		}
		data, known := files[name]
		if !known {
			http.NotFound(w, r)
			return
		}
		if zipped[name] != nil {
			data = zipped[name]
			w.Header().Set("Content-Encoding", "gzip")
		}
		w.Header().Set("Cache-Control", "no-cache")
		http.ServeContent(w, r, name, when, bytes.NewReader(data))
	}))
	b.Cleanup(s.Close)
	return s.URL + "/"
}

func read(b *testing.B, path string) []byte {
	b.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		b.Fatal(err)
	}
	return data
}

func gzipped(b *testing.B, data []byte) []byte {
	b.Helper()
	var packed bytes.Buffer
	w, err := gzip.NewWriterLevel(&packed, gzip.BestCompression)
	if err != nil {
		b.Fatal(err)
	}
	w.Write(data)
	w.Close()
	return packed.Bytes()
}
