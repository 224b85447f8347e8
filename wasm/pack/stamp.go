package main

import (
	"bytes"
	"fmt"
	"strings"

	"splittally/calc"
)

// The marks in static/index.html where the page says what it is.
const (
	rootMark    = `<html lang="en">`
	versionMark = `<!-- version -->`
	buildMark   = `(build)`
)

// A file is a name and what is in it.
type file struct {
	name string
	data []byte
}

// engines are the packed parts of the engine in the order in which the page
// wants them. In the single file each is an element whose id is the name
// without its ending.
func (p parts) engines() []file {
	return []file{{"engine.bin", p.engine[0]}, {"engine2.bin", p.engine[1]}}
}

// engineHash is the short hash of the whole engine, all its parts one after
// another.
func (p parts) engineHash() string {
	var all bytes.Buffer
	for _, e := range p.engines() {
		all.Write(e.data)
	}
	return hex12(all.Bytes())
}

// stamped writes into the page which form of it this is, which version, and
// what its engine must be: for each part its place and its integrity; and where
// the table is that it lacks.
func (p parts) stamped(page, form string, engines []file) string {
	var places []string
	for _, e := range engines {
		places = append(places, e.name+" "+integrity(e.data))
	}
	build := ""
	if form == "site" {
		build = ` data-build="` + buildMark + `"`
	}
	root := strings.TrimSuffix(rootMark, ">") + ` data-engine="loading" data-form="` + form + `"` + build +
		` data-engine-hash="` + p.engineHash() + `" data-engine-parts="` + strings.Join(places, " ") +
		fmt.Sprintf(`" data-engine-table="%d %d">`, p.table.at, p.table.count)
	return strings.NewReplacer(rootMark, root, versionMark, "Version "+calc.Version+", engine "+p.engineHash()).Replace(page)
}
