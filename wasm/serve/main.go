// Command serve shows a folder of static files on this machine alone:
//
//	go run ./wasm/serve [-dir dist/site] [-port 8765]
//
// It prints the address and serves until it is stopped.
package main

import (
	"errors"
	"flag"
	"fmt"
	"net"
	"net/http"
	"os"
	"path"
	"strconv"
	"syscall"
)

func main() {
	dir := flag.String("dir", "dist/site", "folder to serve")
	port := flag.Int("port", 8765, "port to listen on; 0 for any; another is taken if it is busy")
	flag.Parse()
	if err := run(*dir, *port); err != nil {
		fmt.Fprintln(os.Stderr, "serve:", err)
		os.Exit(1)
	}
}

func run(dir string, port int) error {
	if _, err := os.Stat(path.Join(dir, "index.html")); err != nil {
		return fmt.Errorf("%w; make dist builds it", err)
	}
	l, err := listen(port)
	if err != nil {
		return err
	}
	fmt.Printf("http://%s/\n", l.Addr())
	return http.Serve(l, handler(http.FileServer(http.Dir(dir))))
}

// listen takes the wished port of the loopback address, or any free one when
// somebody else has it.
func listen(port int) (net.Listener, error) {
	l, err := net.Listen("tcp", net.JoinHostPort("127.0.0.1", strconv.Itoa(port)))
	if errors.Is(err, syscall.EADDRINUSE) {
		return net.Listen("tcp", "127.0.0.1:0")
	}
	return l, err
}

// kinds are stated here because the tables of a machine differ, and a browser
// that has been told nosniff runs no script under a wrong name.
var kinds = map[string]string{
	".html":        "text/html; charset=utf-8",
	".css":         "text/css; charset=utf-8",
	".js":          "text/javascript; charset=utf-8",
	".svg":         "image/svg+xml",
	".png":         "image/png",
	".json":        "application/json",
	".webmanifest": "application/manifest+json",
	".bin":         "application/octet-stream",
}

// handler gives each file its kind and lets no browser keep an old one.
func handler(files http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		name := r.URL.Path
		if name == "/" {
			name = "/index.html"
		}
		if kind, ok := kinds[path.Ext(name)]; ok {
			w.Header().Set("Content-Type", kind)
		}
		w.Header().Set("X-Content-Type-Options", "nosniff")
		w.Header().Set("Cache-Control", "no-cache")
		files.ServeHTTP(w, r)
	})
}
