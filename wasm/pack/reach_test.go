//go:build !js

package main

import (
	"strings"
	"testing"
)

func TestSourcesReachNowhere(t *testing.T) {
	read, err := checkSources("../..")
	if err != nil {
		t.Error(err)
	}
	if read < 100 {
		t.Errorf("read %d files of the page, want at least 100", read)
	}
	if err := checkSource("x.go", []byte("package x\n\n// https://example.org/\nvar a = 1\n")); err != nil {
		t.Errorf("a comment: %v", err)
	}
	checkRefusal(t, checkSource("x.go", []byte("package x\n\nvar a = \"https://example.org/\" // it\n")), "x.go:3: an address")
}

func TestEngineReachesNowhere(t *testing.T) {
	checkRefusal(t, checkEngine([]byte("\x00asm data http://example.org/ data")), `holds "http://"`)
	if err := checkEngine([]byte("\x00asm location hyperhttp")); err != nil {
		t.Error(err)
	}
}

// The net must hold what it is for, and let through what is no way out.
func TestWaysOutAreSeen(t *testing.T) {
	for line, want := range map[string]string{
		`new RTCPeerConnection()`:                             "a connection",
		`new webkitRTCPeerConnection()`:                       "a connection",
		`navigator.sendBeacon(x)`:                             "a connection",
		`fetch("other")`:                                      "a fetch",
		`await fetch(place)`:                                  "a fetch",
		`js.Global().Call("fetch", x)`:                        "a fetch",
		`img.src = x`:                                         "a fetch",
		`el.Set("src", x)`:                                    "a fetch",
		`new Image()`:                                         "a fetch",
		`<link rel="preconnect" href="x">`:                    "a hint",
		`<a ping="x">`:                                        "a hint",
		`location = x`:                                        "a navigation",
		`location.href = x`:                                   "a navigation",
		`location.replace(x)`:                                 "a navigation",
		`js.Global().Get("location").Set("href", x)`:          "a navigation",
		`js.Global().Get("location").Call("assign", x)`:       "a navigation",
		`js.Global().Set("location", x)`:                      "a navigation",
		`form.submit()`:                                       "a navigation",
		`form.Call("requestSubmit")`:                          "a navigation",
		`window.open(x)`:                                      "another window",
		`open(x)`:                                             "another window, in a script",
		`js.Global().Call("open", x)`:                         "another window",
		`<a target="_blank">`:                                 "another window",
		`<iframe>`:                                            "a frame",
		`doc.Call("createElement", "iframe")`:                 "a frame",
		`document.createElement("script")`:                    "a frame",
		`eval(x)`:                                             "code made of a text",
		`new Function(x)`:                                     "code made of a text",
		`el.innerHTML = x`:                                    "markup made of a text",
		`el.Call("insertAdjacentHTML", x)`:                    "markup made of a text",
		`new Worker(x)`:                                       "a worker",
		`navigator.serviceWorker.register(x)`:                 "a worker, in a script",
		`document.cookie = x`:                                 "a cookie",
		`<a href="https://example.org/">`:                     "an address",
		`x = "stun:example.org"`:                              "an address",
		`<a href="//example.org/">`:                           "a relative scheme",
		`@import "x.css";`:                                    "a relative scheme",
		`<meta http-equiv="refresh" content="0">`:             "a navigation",
		`const reply = await fetch(place, { integrity });`:    "",
		`<svg xmlns="http://www.w3.org/2000/svg">`:            "",
		`if location == "attic" { }`:                          "",
		`history.replaceState(null, "", "#" + location.hash)`: "",
		`const cache = await caches.open(kept);`:              "",
		`p.open(name)`:                                        "",
	} {
		if got := strings.Join(waysOut(line, false), ", "); got != want {
			t.Errorf("in %s: %q, want %q", line, got, want)
		}
	}
}
