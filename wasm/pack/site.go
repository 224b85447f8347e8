package main

import (
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"path"
	"strings"
)

// A site is the hosted form while it is put together.
type site struct {
	files map[string][]byte // by the name that they have there
	names *strings.Replacer // the quoted name of each file in the sources -> that one
	order []string          // the pairs that names is made of
}

// site returns the files of the hosted form by name; single is the other form,
// for taking along. What stands beside the page has the hash of its content in its
// name, so that neither a browser's cache nor a server in the middle of a change
// can mix two builds. The engine is called .bin because servers differ in what
// they make of .wasm and of .gz.
func (p parts) site(single []byte) (map[string][]byte, error) {
	s := &site{files: map[string][]byte{}}
	icons, err := p.icons()
	if err != nil {
		return nil, err
	}
	for _, f := range append(icons, file{"icon.svg", []byte(p.icon)}) {
		s.add(f.name, f.data)
	}
	s.add("manifest.webmanifest", []byte(s.renamed(p.manifest)))
	names := p.engines()
	for i, e := range names {
		names[i].name = s.add(e.name, e.data)
	}
	s.files["splittally.html"] = single
	last := p.script + p.offline
	page := p.stamped(s.renamed(p.withIcon()), "site", names)
	page, err = p.filled(page, sitePolicy(p.style, p.shut, p.boot, last), "", last, func(name string) bool { return s.files[name] != nil })
	if err != nil {
		return nil, err
	}
	build := hex12([]byte(page + strings.Join(s.order, " ") + integrity(single) + p.worker))
	page = strings.Replace(page, buildMark, build, 1)
	s.files["sw.js"], err = s.keeper(p.worker, build, page)
	s.files["index.html"] = []byte(page)
	return s.files, err
}

// add gives a file the name that says what is in it, and returns that.
func (s *site) add(name string, data []byte) string {
	ext := path.Ext(name)
	to := strings.TrimSuffix(name, ext) + "." + hex12(data) + ext
	s.files[to] = data
	s.order = append(s.order, `"`+name+`"`, `"`+to+`"`)
	s.names = strings.NewReplacer(s.order...)
	return to
}

// renamed puts the names of the files so far into a text that quotes them.
func (s *site) renamed(text string) string { return s.names.Replace(text) }

// keeper writes into the service worker what it keeps: first all that the page
// needs, then the single file. The page goes by the address that people open,
// since servers send those elsewhere who ask for index.html.
func (s *site) keeper(worker, build, page string) ([]byte, error) {
	needed := [][2]string{{"./", integrity([]byte(page))}}
	for i := 1; i < len(s.order); i += 2 {
		name := strings.Trim(s.order[i], `"`)
		needed = append(needed, [2]string{name, integrity(s.files[name])})
	}
	besides := [][2]string{{"splittally.html", integrity(s.files["splittally.html"])}}
	for mark, value := range map[string]any{"(build)": build, "(needed)": needed, "(besides)": besides} {
		text, err := json.Marshal(value)
		if err != nil {
			return nil, err
		}
		quoted := `"` + mark + `"`
		if n := strings.Count(worker, quoted); n != 1 {
			return nil, fmt.Errorf("sw.js: %s stands there %d times; want once", quoted, n)
		}
		worker = strings.Replace(worker, quoted, string(text), 1)
	}
	return []byte(worker), nil
}

// hex12 is the short form of a hash that names and the page show.
func hex12(data []byte) string { return fmt.Sprintf("%x", sha256.Sum256(data))[:12] }
