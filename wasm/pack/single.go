package main

import (
	"fmt"
	"regexp"
	"strings"
)

// single returns the page with everything inside it. The engine stands at the end
// as text: the page is shown and usable before that long line has been read.
func (p parts) single() ([]byte, error) {
	engines := p.engines()
	for i, e := range engines {
		engines[i].name = strings.TrimSuffix(e.name, ".bin")
	}
	page := p.stamped(strings.NewReplacer(listMark, "", touchMark, "").Replace(p.withIcon()), "single", engines)
	page, err := p.filled(page, singlePolicy(p.style, p.shut, p.boot, p.script), inPage(engines), p.script, func(string) bool { return false })
	return []byte(page), err
}

// filled puts the policy, the style and the scripts into a page, and something
// more before the last of them. An inline script runs where it stands. What the
// page names besides must be there.
func (p parts) filled(page, policy, more, last string, there func(name string) bool) (string, error) {
	if err := fits("style.css", p.style, "</style"); err != nil {
		return "", err
	}
	for name, script := range map[string]string{"shut.js": p.shut, "boot.js": p.boot, "the last script": last} {
		if err := fits(name, script, "</script", "<script", "<!--"); err != nil {
			return "", err
		}
	}
	if err := neighbours(strings.NewReplacer(styleMark, "", bootMark, "").Replace(page), there); err != nil {
		return "", err
	}
	return strings.NewReplacer(
		policyMark, meta(policy, p.shut),
		bootMark, "<script>"+p.boot+"</script>",
		styleMark, "<style>"+p.style+"</style>",
		endMark, more+"<script>"+last+"</script>",
	).Replace(page), nil
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
