package main

import "strings"

// site returns the files of the hosted form by name. The engine is called
// engine.bin because servers differ in what they make of .wasm and of .gz.
func (p parts) site() (map[string][]byte, error) {
	files := map[string][]byte{
		"index.html":   []byte(strings.Replace(p.page, policyMark, meta(sitePolicy()), 1)),
		"style.css":    []byte(p.style),
		"boot.js":      []byte(p.boot),
		"wasm_exec.js": []byte(p.glue),
		"icon.svg":     []byte(p.icon),
		"engine.bin":   p.engine,
	}
	return files, neighbours(p.page, func(name string) bool { return files[name] != nil })
}
