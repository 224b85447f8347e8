//go:build !js

package e2e

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// No policy stops a page from navigating, from preconnecting or from asking a
// STUN server. Our own code, the only code that the policy admits, must not do
// so; these are the words for it, in HTML, CSS, JavaScript and Go.
var reachingOut = map[string]*regexp.Regexp{
	"a connection":      regexp.MustCompile(`\b(XMLHttpRequest|WebSocket|WebTransport|EventSource|sendBeacon|RTCPeerConnection|importScripts)\b`),
	"a fetch":           regexp.MustCompile(`\bfetch\(|"fetch"`),
	"a hint":            regexp.MustCompile(`preconnect|dns-prefetch|\bprefetch\b|prerender|speculationrules`),
	"a navigation":      regexp.MustCompile(`http-equiv="refresh"|\blocation\s*=[^=]|location\.(href\s*=[^=]|assign|replace)|Set\("location"|\.Set\("action"|\.SetLocation\(`),
	"another window":    regexp.MustCompile(`\bwindow\.open\(|Call\("open"|target="_blank"`),
	"an address":        regexp.MustCompile(`\b(?:https?|wss?|ftp)://`),
	"a relative scheme": regexp.MustCompile(`(?:src|href|action)="//`),
}

// allowed are the places where one of these words is no way out.
var allowed = []*regexp.Regexp{
	regexp.MustCompile(`http://www\.w3\.org/(2000/svg|1999/xlink|1999/xhtml)`),   // names of namespaces
	regexp.MustCompile(`await fetch\(place, hashes \? \{\} : \{ integrity \}\)`), // a part of the engine, from beside the page
	regexp.MustCompile(`await fetch\(address, \{ integrity, cache:`),             // sw.js: the files of its own list
	regexp.MustCompile(`\|\| fetch\(request\)`),                                  // sw.js: what the page asked for itself, if it is not kept
	regexp.MustCompile(`^addEventListener\("fetch", `),                           // sw.js: hears of that
}

// waysOut names what a line of source could reach out with.
func waysOut(line string) []string {
	for _, a := range allowed {
		line = a.ReplaceAllString(line, "")
	}
	var found []string
	for what, pattern := range reachingOut {
		if pattern.MatchString(line) {
			found = append(found, what)
		}
	}
	return found
}

func TestSourcesReachNowhere(t *testing.T) {
	read := 0
	for _, pattern := range []string{"../../static/*", "../*.go", "../page/*.go", "../view/*.go", "../form/*.go"} {
		files, err := filepath.Glob(pattern)
		if err != nil {
			t.Fatal(err)
		}
		for _, file := range files {
			if strings.HasSuffix(file, "_test.go") || strings.HasSuffix(file, ".png") {
				continue
			}
			data, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			read++
			for i, line := range strings.Split(string(data), "\n") {
				for _, what := range waysOut(line) {
					t.Errorf("%s:%d: %s: %s", file, i+1, what, strings.TrimSpace(line))
				}
			}
		}
	}
	if read < 5 {
		t.Errorf("read %d files of the page, want at least 5", read)
	}
}

// The net must hold what it is for.
func TestWaysOutAreSeen(t *testing.T) {
	for line, want := range map[string]string{
		`new RTCPeerConnection()`:                 "a connection",
		`navigator.sendBeacon(x)`:                 "a connection",
		`fetch("other")`:                          "a fetch",
		`js.Global().Call("fetch", x)`:            "a fetch",
		`<link rel="preconnect" href="x">`:        "a hint",
		`location = x`:                            "a navigation",
		`location.href = x`:                       "a navigation",
		`location.replace(x)`:                     "a navigation",
		`js.Global().Set("location", x)`:          "a navigation",
		`window.open(x)`:                          "another window",
		`js.Global().Call("open", x)`:             "another window",
		`<a href="https://example.org/">`:         "an address",
		`<a href="//example.org/">`:               "a relative scheme",
		`<meta http-equiv="refresh" content="0">`: "a navigation",
		`const reply = await fetch(place, hashes ? {} : { integrity })`: "",
		`await fetch(place, { method: "POST" })`:                        "a fetch",
		`await fetch(address)`:                                          "a fetch",
		`<svg xmlns="http://www.w3.org/2000/svg">`:                      "",
		`if location == "attic" { }`:                                    "",
		`history.replaceState(null, "", "#" + location.hash)`:           "",
	} {
		if got := strings.Join(waysOut(line), ", "); got != want {
			t.Errorf("in %s: %q, want %q", line, got, want)
		}
	}
}
