//go:build !js

package e2e

import (
	"crypto/sha256"
	"fmt"
	"io/fs"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"
)

// A host serves a build of the page, then another from the same address, and can
// go away and come back. It writes down what it is asked for. It is as bad as
// hosts are: browsers may keep everything for an hour. It has the page in a folder,
// as somebody may who has other pages, too.
type host struct {
	testing.TB
	address string

	mu     sync.Mutex
	dir    string
	broken string // plain name of a file that ends in its middle
	asked  []string
	server *http.Server
}

const folder = "/home/tally/"

func newHost(t testing.TB, dir string) *host {
	t.Helper()
	h := &host{TB: t, dir: dir, address: "http://127.0.0.1:0" + folder}
	h.begin()
	h.Cleanup(h.stop)
	return h
}

// begin listens, at the same port as before if there was one.
func (h *host) begin() {
	h.Helper()
	l, err := net.Listen("tcp", strings.TrimSuffix(strings.TrimPrefix(h.address, "http://"), folder))
	if err != nil {
		h.Fatal(err)
	}
	h.address = fmt.Sprintf("http://%s%s", l.Addr(), folder)
	h.server = &http.Server{Handler: h}
	go h.server.Serve(l)
}

// stop ends the server and all its connections.
func (h *host) stop() { h.server.Close() }

// show hands out the build of another folder from now on.
func (h *host) show(dir string) {
	h.mu.Lock()
	defer h.mu.Unlock()
	h.dir = dir
}

// cut lets a file, by its plain name, end in its middle; "" mends it.
func (h *host) cut(plain string) {
	h.mu.Lock()
	defer h.mu.Unlock()
	h.broken = plain
}

// take gives what was asked for since the last take, by plain names.
func (h *host) take() []string {
	h.mu.Lock()
	defer h.mu.Unlock()
	asked := h.asked
	h.asked = nil
	return asked
}

// askedAfter says whether later was asked for, after first, since the last take.
func (h *host) askedAfter(first, later string) bool {
	h.mu.Lock()
	defer h.mu.Unlock()
	i := slices.Index(h.asked, first)
	return i >= 0 && slices.Contains(h.asked[i+1:], later)
}

func (h *host) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	name := strings.TrimPrefix(r.URL.Path, folder)
	h.mu.Lock()
	dir, broken := h.dir, h.broken
	h.asked = append(h.asked, plainName(name))
	h.mu.Unlock()
	if name == "" {
		name = "index.html"
	}
	data, err := fs.ReadFile(os.DirFS(dir), name)
	if err != nil {
		http.NotFound(w, r)
		return
	}
	kinds := map[string]string{".js": "text/javascript", ".webmanifest": "application/manifest+json"}
	if kind := kinds[filepath.Ext(name)]; kind != "" {
		w.Header().Set("Content-Type", kind)
	}
	w.Header().Set("Cache-Control", "max-age=3600")
	w.Header().Set("Vary", "Accept, Origin") // pages and workers differ in these
	w.Header().Set("ETag", fmt.Sprintf(`"%x"`, sha256.Sum256(data)))
	if plainName(name) == broken {
		w.Header().Set("Content-Length", fmt.Sprint(len(data)))
		w.Write(data[:len(data)/2])
		panic(http.ErrAbortHandler)
	}
	http.ServeContent(w, r, name, time.Time{}, strings.NewReader(string(data)))
}

// nextVersion packs the page as it will be one version later, once.
var nextVersion = sync.OnceValues(func() (string, error) {
	root, out := filepath.Join(work, "next"), filepath.Join(work, "next-dist")
	if err := copySources("../..", root); err != nil {
		return "", err
	}
	path := filepath.Join(root, "calc", "version.go")
	text, err := os.ReadFile(path)
	if err != nil {
		return "", err
	}
	later := strings.Replace(string(text), `const Version = "`, `const Version = "1`, 1)
	if err := os.WriteFile(path, []byte(later), 0o600); err != nil {
		return "", err
	}
	cmd := exec.Command("go", "run", "./wasm/pack", "-out", out)
	cmd.Dir = root
	cmd.Env = append(os.Environ(), "GOOS=", "GOARCH=")
	if said, err := cmd.CombinedOutput(); err != nil {
		return "", fmt.Errorf("packing the next version: %w\n%s", err, said)
	}
	return out, nil
})

// packedNext is the folder with the hosted page of the next version.
func packedNext(t testing.TB) string {
	t.Helper()
	dir, err := nextVersion()
	if err != nil {
		t.Fatal(err)
	}
	return filepath.Join(dir, "site")
}

// copySources copies what the page is built from.
func copySources(from, to string) error {
	for _, name := range []string{"go.mod", "go.sum", "calc", "static", "wasm"} {
		err := filepath.WalkDir(filepath.Join(from, name), func(path string, d fs.DirEntry, err error) error {
			if err != nil {
				return err
			}
			if name := d.Name(); name == "node_modules" || name == "e2e" || name == "tools" {
				return filepath.SkipDir
			}
			rel, err := filepath.Rel(from, path)
			if err != nil || d.IsDir() {
				return err
			}
			if err := os.MkdirAll(filepath.Dir(filepath.Join(to, rel)), 0o755); err != nil {
				return err
			}
			data, err := os.ReadFile(path)
			if err != nil {
				return err
			}
			return os.WriteFile(filepath.Join(to, rel), data, 0o600)
		})
		if err != nil {
			return err
		}
	}
	return nil
}
