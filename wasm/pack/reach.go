package main

import (
	"bytes"
	"errors"
	"fmt"
	"go/scanner"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
)

// No policy stops a page from navigating, from preconnecting or from asking a
// STUN server. Our own code, the only code that the policy admits, must not do so.
// These are the words for it, in HTML, CSS, JavaScript and Go; packing fails where
// one of them stands.
var reachingOut = []struct {
	what    string
	pattern *regexp.Regexp
}{
	{"a connection", regexp.MustCompile(`\b(XMLHttpRequest|WebSocket(Stream)?|WebTransport|EventSource|sendBeacon|(webkit)?RTC\w+|importScripts|PushManager|PaymentRequest|PresentationRequest|Notification|backgroundFetch)\b`)},
	{"a fetch", regexp.MustCompile(`\bfetch\(|"fetch"|new Image\b|new Audio\b|new FontFace\b|\.(src|srcset|poster)\s*=[^=]|Set\("(src|srcset|poster|data)"`)},
	{"a hint", regexp.MustCompile(`(?i)preconnect|dns-prefetch|\bprefetch\b|prerender|speculationrules|modulepreload|\bping\s*=`)},
	{"a navigation", regexp.MustCompile(`http-equiv="refresh"|\blocation\s*=[^=]|location\.(href\s*=[^=]|assign|replace)|(location|navigation)"\)\.(Set|Call)\(|navigation\.navigate|Set\("(location|action|formaction)"|\.SetLocation\(|\.(submit|requestSubmit)\(|"(submit|requestSubmit)"\)\.|Call\("(submit|requestSubmit)"|<form[^>]* action|formaction`)},
	{"another window, in a script", regexp.MustCompile(`(^|[^.\w])open\(`)},
	{"another window", regexp.MustCompile(`\bwindow\.open\b|Call\("open"|\btarget\s*=\s*"|Set\("target"`)},
	{"a frame", regexp.MustCompile(`(?i)<\s*(iframe|frame|frameset|object|embed|base|portal|fencedframe)\b|createElement(NS)?"?[(,][^)]*"(iframe|frame|object|embed|base|link|meta|script)"|srcdoc`)},
	{"code made of a text", regexp.MustCompile(`\beval\(|"eval"|new Function\b|"Function"|javascript:|set(Timeout|Interval)\(\s*["'\x60]`)},
	{"markup made of a text", regexp.MustCompile(`\b(innerHTML|outerHTML|insertAdjacentHTML|setHTMLUnsafe|parseHTMLUnsafe|createContextualFragment|DOMParser|XSLTProcessor|SetInnerHTML|SetOuterHTML)\b|document\.write|"write(ln)?"\)`)},
	{"a worker", regexp.MustCompile(`\b(Shared)?Worker\(|addModule|Call\("register"|"(serviceWorker|audioWorklet)"`)},
	{"a worker, in a script", regexp.MustCompile(`\.register\(`)},
	{"a cookie", regexp.MustCompile(`\bcookie(Store)?\b`)},
	{"an address", regexp.MustCompile(`(?i)\b(?:https?|wss?|ftp|stuns?|turns?)://|\bstuns?:`)},
	{"a relative scheme", regexp.MustCompile(`(?i)(?:src|href|action)\s*=\s*["']?//|url\(\s*["']?//|@import`)},
}

// admitted are the places where one of these words is no way out.
var admitted = []*regexp.Regexp{
	regexp.MustCompile(`http://www\.w3\.org/(2000/svg|1999/xlink|1999/xhtml)`),                   // names of namespaces
	regexp.MustCompile(`await fetch\(place, .*integrity`),                                        // boot.js: a part of the engine, from beside the page
	regexp.MustCompile(`await fetch\(address, \{ integrity, cache:`),                             // sw.js: the files of its own list
	regexp.MustCompile(`\|\| fetch\(request\)`),                                                  // sw.js: what the page asked for itself, if it is not kept
	regexp.MustCompile(`^addEventListener\("fetch", `),                                           // sw.js: hears of that
	regexp.MustCompile(`workers\.register\(workerAddress\(\), `),                                 // offline.js: sw.js
	regexp.MustCompile(`^(\s*"\w+",)+$`),                                                         // shut.js: what it takes away
	regexp.MustCompile(`^\s*fix\([\w.]+, "\w+", undefined\);`),                                   // shut.js, likewise
	regexp.MustCompile(`^\s*open\(path, flags, mode, callback\) \{ callback\(enosys\(\)\); \},`), // wasm_exec.js: there are no files to open
	regexp.MustCompile(`^\s*const policy = document\.createElement\("meta"\);`),                  // shut.js: the second policy
	regexp.MustCompile(`^\s*el\.Set\("innerHTML", .*\)$`),                                        // pour.go: the one place where markup is made
}

// waysOut names what a line of source could reach out with. Go has functions of
// its own that are called open; it reaches the browser's by name alone.
func waysOut(line string, isGo bool) []string {
	for _, a := range admitted {
		line = a.ReplaceAllString(line, "")
	}
	var found []string
	for _, r := range reachingOut {
		if r.pattern.MatchString(line) && !(isGo && strings.HasSuffix(r.what, "script")) {
			found = append(found, r.what)
		}
	}
	return found
}

// shipped are the folders whose files come to be part of the page.
var shipped = []string{"static", "wasm/main.go", "wasm/page", "wasm/view", "wasm/form", "wasm/shelf", "calc"}

// checkSources refuses sources of the page under root that could reach out. It
// says how many files it has read.
func checkSources(root string) (int, error) {
	read := 0
	var wrong []error
	for _, dir := range shipped {
		err := filepath.WalkDir(filepath.Join(root, dir), func(path string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() && d.Name() != "testdata" {
				return err
			}
			if d.IsDir() {
				return filepath.SkipDir
			}
			if strings.HasSuffix(path, "_test.go") {
				return nil
			}
			data, err := os.ReadFile(path)
			if err != nil {
				return err
			}
			read++
			wrong = append(wrong, checkSource(filepath.ToSlash(path), data))
			return nil
		})
		if err != nil {
			return read, err
		}
	}
	return read, errors.Join(wrong...)
}

func checkSource(name string, data []byte) error {
	isGo := strings.HasSuffix(name, ".go")
	if isGo {
		data = withoutComments(data)
	}
	var wrong []error
	for i, line := range strings.Split(string(data), "\n") {
		if strings.HasPrefix(strings.TrimSpace(line), "//") || isGo && !strings.ContainsAny(line, "\"`") {
			continue // a comment; or Go without a name that the browser would know
		}
		if found := waysOut(line, isGo); len(found) > 0 {
			wrong = append(wrong, fmt.Errorf("%s:%d: %s, which no part of the page may have: %s", name, i+1, strings.Join(found, ", "), strings.TrimSpace(line)))
		}
	}
	return errors.Join(wrong...)
}

// withoutComments blanks the comments of a Go file: they name sources.
func withoutComments(data []byte) []byte {
	out := bytes.Clone(data)
	var s scanner.Scanner
	files := token.NewFileSet()
	s.Init(files.AddFile("", files.Base(), len(data)), data, nil, scanner.ScanComments)
	for {
		pos, tok, text := s.Scan()
		if tok == token.EOF {
			return out
		}
		if tok != token.COMMENT {
			continue
		}
		at := files.Position(pos).Offset
		for i := at; i < at+len(text) && i < len(out); i++ {
			if out[i] != '\n' {
				out[i] = ' '
			}
		}
	}
}

// engineWords may stand nowhere in the engine, whichever package would bring them.
var engineWords = regexp.MustCompile(`https?://|wss?://|stuns?:|XMLHttpRequest|WebSocket|WebTransport|EventSource|sendBeacon|RTCPeer|importScripts|preconnect|prefetch|prerender|speculationrules|<iframe|srcdoc|javascript:|insertAdjacentHTML|outerHTML|createContextualFragment|DOMParser`)

// checkEngine refuses an engine that holds the words for reaching out.
func checkEngine(module []byte) error {
	if at := engineWords.FindIndex(module); at != nil {
		return fmt.Errorf("the engine holds %q: …%q…", module[at[0]:at[1]], module[max(0, at[0]-40):min(len(module), at[1]+40)])
	}
	return nil
}
