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

// withIntegrity has a browser run the script that a tag names only if it is this
// one. That is what admits it: the policy names hashes, no places.
func withIntegrity(tag, script string) string {
	return strings.Replace(tag, "></", ` integrity="`+integrity([]byte(script))+`"></`, 1)
}

// iconInside is the icon's element with the icon in it.
func (p parts) iconInside() string {
	return `<link rel="icon" href="data:image/svg+xml;base64,` + base64.StdEncoding.EncodeToString([]byte(p.icon)) + `">`
}
