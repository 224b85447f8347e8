package main

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"

	"splittally/wasm/pack/little"
)

// The marks in static/index.html. Both forms have style and scripts inside them;
// the single file has all else inside, too.
const (
	policyMark = `<!-- policy -->`
	styleMark  = `<link rel="stylesheet" href="style.css">`
	iconMark   = `<link rel="icon" href="icon.svg">`
	bootMark   = `<script src="boot.js"></script>`
	listMark   = `<link rel="manifest" href="manifest.webmanifest">`
	touchMark  = `<link rel="apple-touch-icon" href="icon-180.png">`
	endMark    = `<!-- scripts -->`
)

// parts is what the page is made of. Texts have line feeds only, because that
// is what a browser hashes.
type parts struct {
	page, style, icon         string
	shut, boot, script        string   // first of all; as soon as it is read; when all is read
	offline, worker, manifest string   // of the site alone
	engine                    [][]byte // its parts: WebAssembly, written alike, as .lzma
	table                     counted  // what the first lacks
	raw                       int      // bytes of the engine as it was before
}

// gather builds the engine and reads the rest.
func gather(root string) (parts, error) {
	var p parts
	if _, err := checkSources(root); err != nil {
		return p, err
	}
	var unpack, walks string
	for name, to := range map[string]*string{
		"index.html": &p.page, "style.css": &p.style, "shut.js": &p.shut, "unpack.js": &unpack, "walks.js": &walks, "boot.js": &p.boot, "icon.svg": &p.icon,
		"offline.js": &p.offline, "sw.js": &p.worker, "manifest.webmanifest": &p.manifest,
	} {
		data, err := os.ReadFile(filepath.Join(root, "static", name))
		if err != nil {
			return p, err
		}
		*to = lines(data)
	}
	p.page, p.style = unindented(p.page), unindented(p.style)
	glue, err := goGlue()
	if err != nil {
		return p, err
	}
	if err := checkSource("wasm_exec.js", glue); err != nil {
		return p, err
	}
	unpacker, err := little.Compile(filepath.Join(root, "wasm", "pack", "unpack"))
	if err != nil {
		return p, err
	}
	p.boot, p.shut, p.offline, p.worker = bare(p.boot), bare(p.shut), bare(p.offline), bare(p.worker)
	// The first comment of Go's own script has to stay.
	p.script = unindentedScript(lines(glue)) + withUnpacker(bare(unpack), unpacker) + bare(walks)
	modules, table, err := buildEngine(root)
	if err != nil {
		return p, err
	}
	p.table = table
	for _, module := range modules {
		p.raw += len(module)
		if err := checkEngine(module); err != nil {
			return p, err
		}
		text, err := alike(module)
		if err != nil {
			return p, err
		}
		packed, err := squeeze(text)
		if err != nil {
			return p, err
		}
		p.engine = append(p.engine, packed)
	}
	return p, p.check()
}

func lines(data []byte) string { return strings.ReplaceAll(string(data), "\r\n", "\n") }

// unindented cuts the blanks that lines of a page begin with: for a browser they
// are one blank with the line feed before them. Texts that keep theirs stay.
func unindented(page string) string {
	var b strings.Builder
	isKept := false
	for _, line := range strings.SplitAfter(page, "\n") {
		if !isKept {
			line = strings.TrimLeft(line, " \t")
		}
		b.WriteString(line)
		for _, name := range []string{"pre", "textarea", "script", "style"} {
			if strings.Contains(line, "<"+name) || strings.Contains(line, "</"+name) {
				isKept = strings.LastIndex(line, "<"+name) > strings.LastIndex(line, "</"+name)
			}
		}
	}
	return b.String()
}

// unindentedScript cuts the blanks of a script, unless a template literal may run
// over lines.
func unindentedScript(script string) string {
	for line := range strings.Lines(script) {
		if strings.Count(line, "`")%2 == 1 {
			return script
		}
	}
	return unindented(script)
}

// remote finds whatever would make a browser, or a person's tap, go elsewhere:
// an address with a host in an attribute, in a style, or as a preloading hint.
var remote = regexp.MustCompile(`(?i)(?:\b(?:src|srcset|href|action|formaction|poster|data|ping|cite)\s*=\s*["']?|url\(\s*["']?|@import\s+["']?)\s*(?:[a-z][a-z0-9+.-]*:)?//[^"'\s)>]*|\brel\s*=\s*["']?(?:preconnect|dns-prefetch|prefetch)|\bhttp-equiv\s*=\s*["']?refresh`)

// check refuses a page that lacks a mark or reaches outside.
func (p parts) check() error {
	for _, mark := range []string{rootMark, policyMark, styleMark, iconMark, listMark, touchMark, bootMark, versionMark, endMark} {
		if n := strings.Count(p.page, mark); n != 1 {
			return fmt.Errorf("index.html: %s stands there %d times; want once", mark, n)
		}
	}
	charset := regexp.MustCompile(`(?i)<head>\s*<meta charset="utf-8">\s*` + policyMark)
	if !charset.MatchString(p.page) {
		return fmt.Errorf("index.html: %s must follow <head> and <meta charset=\"utf-8\"> at once", policyMark)
	}
	for name, text := range map[string]string{"index.html": p.page, "style.css": p.style} {
		if at := remote.FindStringIndex(text); at != nil {
			line := 1 + strings.Count(text[:at[0]], "\n")
			return fmt.Errorf("%s: line %d: %s leads away from the page", name, line, text[at[0]:at[1]])
		}
	}
	return nil
}
