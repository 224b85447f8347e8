//go:build !js

package main

import (
	"net"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"testing/fstest"
)

func TestHandlerNamesKinds(t *testing.T) {
	h := handler(http.FileServerFS(fstest.MapFS{
		"index.html":      {Data: []byte("<!DOCTYPE html>")},
		"boot.js":         {Data: []byte("start()")},
		"style.css":       {Data: []byte("body {}")},
		"icon.svg":        {Data: []byte("<svg/>")},
		"engine.bin":      {Data: []byte{0x1f, 0x8b}},
		"app.webmanifest": {Data: []byte("{}")},
		"sw.js":           {Data: []byte("keep()")},
		"icon-192.png":    {Data: []byte{0x89}},
	}))
	for name, want := range map[string]string{
		"/":                "text/html",
		"/boot.js":         "text/javascript",
		"/style.css":       "text/css",
		"/icon.svg":        "image/svg+xml",
		"/engine.bin":      "application/octet-stream",
		"/app.webmanifest": "application/manifest+json",
		"/sw.js":           "text/javascript",
		"/icon-192.png":    "image/png",
	} {
		w := httptest.NewRecorder()
		h.ServeHTTP(w, httptest.NewRequest("GET", name, nil))
		if got := w.Header().Get("Content-Type"); w.Code != 200 || !strings.HasPrefix(got, want) {
			t.Errorf("GET %s: %d, %s; want 200, %s", name, w.Code, got, want)
		}
		if got := w.Header().Get("Cache-Control"); got != "no-cache" {
			t.Errorf("GET %s: Cache-Control %s, want no-cache", name, got)
		}
	}
	w := httptest.NewRecorder()
	h.ServeHTTP(w, httptest.NewRequest("GET", "/absent.js", nil))
	if w.Code != 404 {
		t.Errorf("GET /absent.js: %d, want 404", w.Code)
	}
}

func TestListenAvoidsBusyPort(t *testing.T) {
	busy, err := listen(0)
	if err != nil {
		t.Fatal(err)
	}
	defer busy.Close()
	port := busy.Addr().(*net.TCPAddr).Port
	other, err := listen(port)
	if err != nil {
		t.Fatalf("listen(%d) beside a listener there: %v", port, err)
	}
	defer other.Close()
	addr := other.Addr().(*net.TCPAddr)
	if addr.Port == port || !addr.IP.IsLoopback() {
		t.Errorf("listen(%d) = %v, want another port on the loopback address", port, addr)
	}
}
