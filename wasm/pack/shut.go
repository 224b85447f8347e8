package main

import (
	"encoding/base64"
	"strings"
)

// bare is a script without the lines that are a comment alone.
func bare(script string) string {
	if strings.Contains(script, "`") {
		return script // a text may run over lines
	}
	var b strings.Builder
	for line := range strings.Lines(unindentedScript(script)) {
		if !strings.HasPrefix(line, "//") && line != "\n" {
			b.WriteString(line)
		}
	}
	return b.String()
}

// withIcon is the page with its icon in it.
func (p parts) withIcon() string {
	return strings.Replace(p.page, iconMark, `<link rel="icon" href="data:image/svg+xml;base64,`+base64.StdEncoding.EncodeToString([]byte(p.icon))+`">`, 1)
}
