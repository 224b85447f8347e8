//go:build !js

package main

import (
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// The page is packed here and, from a copy of the sources in another folder, with
// an empty build cache and an empty module cache. What is handed out must follow
// from the sources and the version of Go alone.
func TestPackingElsewhereGivesTheSameBytes(t *testing.T) {
	if testing.Short() {
		t.Skip("builds the engine twice, once from nothing")
	}
	here, there := t.TempDir(), t.TempDir()
	packIn(t, "../..", here)
	root := filepath.Join(t.TempDir(), "some", "where else")
	copySources(t, "../..", root)
	packIn(t, root, there, emptyCaches(t)...)

	first, second := tree(t, here), tree(t, there)
	if len(first) < 12 || len(first) != len(second) {
		t.Errorf("packed %d files, elsewhere %d, want at least 12", len(first), len(second))
	}
	for name, data := range first {
		if second[name] != data {
			t.Errorf("%s differs between two packings", name)
		}
	}
	checkPolicy(t, first["splittally.html"])
	checkPolicy(t, first["site/index.html"])
	if first["site/splittally.html"] != first["splittally.html"] {
		t.Error("the file to take along is not the single file")
	}
	for name, page := range map[string]string{"the single file": first["splittally.html"], "the site": first["site/index.html"]} {
		if at := remote.FindString(page); at != "" {
			t.Errorf("%s leads away: %s", name, at)
		}
	}
}

// packIn runs the command itself, in the sources at root.
func packIn(t *testing.T, root, out string, env ...string) {
	t.Helper()
	cmd := exec.Command("go", "run", "./wasm/pack", "-out", out)
	cmd.Dir = root
	cmd.Env = append(append(os.Environ(), "GOOS=", "GOARCH="), env...)
	if said, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("packing in %s: %v\n%s", root, err, said)
	}
}

// emptyCaches gives caches of their own. Modules come from what this machine has
// fetched before, as from a proxy, so that it needs no connection.
func emptyCaches(t *testing.T) []string {
	t.Helper()
	modules, err := goEnv("GOMODCACHE")
	if err != nil {
		t.Fatal(err)
	}
	return []string{
		"GOCACHE=" + t.TempDir(), "GOPATH=" + t.TempDir(), "GOMODCACHE=" + t.TempDir(), "GOFLAGS=-modcacherw",
		"GOPROXY=file://" + filepath.ToSlash(filepath.Join(modules, "cache", "download")), "GOSUMDB=off",
	}
}

// copySources copies what the page is built from.
func copySources(t *testing.T, from, to string) {
	t.Helper()
	for _, part := range []string{"go.mod", "go.sum", "calc", "static", "wasm"} {
		err := filepath.WalkDir(filepath.Join(from, part), func(path string, d fs.DirEntry, err error) error {
			if err != nil {
				return err
			}
			name := d.Name()
			if d.IsDir() && (name == "testdata" || name == "tools" || name == "e2e") {
				return filepath.SkipDir
			}
			if d.IsDir() || strings.HasSuffix(name, "_test.go") {
				return nil
			}
			data, err := os.ReadFile(path)
			if err != nil {
				return err
			}
			rel, err := filepath.Rel(from, path)
			if err != nil {
				return err
			}
			if err := os.MkdirAll(filepath.Dir(filepath.Join(to, rel)), 0o755); err != nil {
				return err
			}
			return os.WriteFile(filepath.Join(to, rel), data, 0o600)
		})
		if err != nil {
			t.Fatal(err)
		}
	}
}
