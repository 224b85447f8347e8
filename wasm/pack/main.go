// Command pack builds the engine and puts the page together around it:
//
//	dist/site/            static files for any web server
//	dist/splittally.html  the same page in one file that opens from disk
//
// It is run at the root of the repository, go run ./wasm/pack. Everything that
// it writes follows from the sources and the version of Go alone: packing twice
// gives the same bytes.
package main

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
)

func main() {
	root := flag.String("root", ".", "root of the repository")
	out := flag.String("out", "dist", "folder to write to")
	flag.Parse()
	if err := pack(*root, *out); err != nil {
		fmt.Fprintln(os.Stderr, "pack:", err)
		os.Exit(1)
	}
}

// pack builds the engine of the repository at root and writes both forms of
// the page into out.
func pack(root, out string) error {
	p, err := gather(root)
	if err != nil {
		return err
	}
	single, err := p.single()
	if err != nil {
		return err
	}
	site, err := p.site(single)
	if err != nil {
		return err
	}
	// A file that is no longer part of the site must not linger in it.
	if err := os.RemoveAll(filepath.Join(out, "site")); err != nil {
		return err
	}
	for name, data := range site {
		if err := write(filepath.Join(out, "site", name), data); err != nil {
			return err
		}
	}
	if err := write(filepath.Join(out, "splittally.html"), single); err != nil {
		return err
	}
	fmt.Printf("%s/site: %d files, engine %d bytes, %d and %d packed; %s/splittally.html: %d bytes\n",
		out, len(site), p.raw, len(p.engine[0]), len(p.engine[1]), out, len(single))
	return nil
}

func write(path string, data []byte) error {
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return err
	}
	return os.WriteFile(path, data, 0o644)
}
