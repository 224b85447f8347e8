package main

import (
	"fmt"
	"regexp"
	"strings"
)

// single returns the page with everything inside it.
//
// An inline script runs where it stands, so the scripts go to the end of the
// body, and the engine before them as text: the page is shown and usable before
// that long line has been read.
func (p parts) single() ([]byte, error) {
	if err := fits("style.css", p.style, "</style"); err != nil {
		return nil, err
	}
	for name, script := range map[string]string{"shut.js": p.shut, "boot.js": p.boot, "wasm_exec.js": p.glue} {
		if err := fits(name, script, "</script", "<script", "<!--"); err != nil {
			return nil, err
		}
	}
	engines := p.engines()
	for i, e := range engines {
		engines[i].name = strings.TrimSuffix(e.name, ".bin")
	}
	page := strings.NewReplacer(
		policyMark, meta(singlePolicy(p.style, p.shut, p.glue, p.boot), p.shut),
		styleMark, "<style>"+p.style+"</style>",
		iconMark, p.iconInside(),
		listMark, "",
		touchMark, "",
		glueMark, "",
		bootMark, "",
		endMark, inPage(engines)+"<script>"+p.glue+"</script>\n<script>"+p.boot+"</script>\n"+endMark,
	).Replace(p.stamped(p.page, "single", engines))
	// The marks are gone; what is left must not need a file beside the page.
	rest := strings.NewReplacer(styleMark, "", iconMark, "", listMark, "", touchMark, "", glueMark, "", bootMark, "").Replace(p.page)
	return []byte(page), neighbours(rest, func(string) bool { return false })
}

// inPage writes the parts of the engine as elements.
func inPage(engines []file) string {
	var b strings.Builder
	for _, e := range engines {
		b.WriteString(`<script id="` + e.name + `" type="application/octet-stream">` + letters(e.data) + "</script>\n")
	}
	return b.String()
}

// fits refuses a text that would end its own element early.
func fits(name, text string, forbidden ...string) error {
	for _, word := range forbidden {
		if i := strings.Index(strings.ToLower(text), word); i >= 0 {
			return fmt.Errorf("%s: line %d: %s cannot stand inside a page", name, 1+strings.Count(text[:i], "\n"), word)
		}
	}
	return nil
}

var address = regexp.MustCompile(`(?i)\s(?:src|href)\s*=\s*["']?([^"'\s>]+)`)

// neighbours refuses a page that names a file which is not there. Fragments and
// data: addresses need no file.
func neighbours(page string, there func(name string) bool) error {
	for _, m := range address.FindAllStringSubmatch(page, -1) {
		name := m[1]
		if strings.HasPrefix(name, "#") || strings.HasPrefix(name, "data:") || there(name) {
			continue
		}
		return fmt.Errorf("index.html: %s is not beside the page", name)
	}
	return nil
}
