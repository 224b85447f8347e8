package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"

	"github.com/kjk/lzma"
)

// inlined names the packages whose calls the compiler may replace by what they
// call. That makes an engine 100 kB larger, packed, if all may; where time goes
// when a person types or a file is read, it is worth its bytes. The benchmarks of calc and view
// run as fast as if nothing were held back.
var inlined = []string{
	"runtime", "internal/...", "math", "math/bits", "unicode/utf8", "strings", "bytes",
	"splittally/calc/table", "splittally/calc/series", "splittally/calc/espi/xml", "encoding/binary", // files of readings
	"github.com/hajimehoshi/go-mp3/...", "splittally/calc/sound/...", "splittally/calc/onset", // recordings
	"splittally/calc/fill", "splittally/calc/matrix", "splittally/calc/uncertainty", "splittally/calc/number", "splittally/calc/intake/scan",
}

// buildEngine compiles the engine and returns the WebAssembly modules that it is
// parted into, and the table that the first one lacks.
func buildEngine(root string) (modules [][]byte, table counted, err error) {
	p, version, err := compile(root)
	if err != nil {
		return nil, table, err
	}
	late, err := lateFuncs(p, version, doors)
	if err != nil {
		return nil, table, err
	}
	first, second, err := split(p, late, version)
	if err != nil {
		return nil, table, err
	}
	first, table, err = withoutBuckets(first, version)
	return [][]byte{first, second}, table, err
}

// compile compiles the program in the folder wasm of the repository, and says
// with which version of Go.
//
// No symbols (-s -w) makes it smaller. No paths (-trimpath) and no state of the
// working copy (-buildvcs) makes it the same on every machine.
func compile(root string) (*program, string, error) {
	dir, err := os.MkdirTemp("", "engine")
	if err != nil {
		return nil, "", err
	}
	defer os.RemoveAll(dir)
	module := filepath.Join(dir, "engine.wasm")
	args := []string{"build", "-trimpath", "-buildvcs=false", "-ldflags=-s -w", "-gcflags=all=-l"}
	for _, pattern := range inlined {
		args = append(args, "-gcflags="+pattern+"=")
	}
	cmd := exec.Command("go", append(args, "-o", module, "./wasm")...)
	cmd.Dir = root
	cmd.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm", "GOWASM=", "GOEXPERIMENT=") // whatever somebody has set
	if said, err := cmd.CombinedOutput(); err != nil {
		return nil, "", fmt.Errorf("building the engine: %w\n%s", err, said)
	}
	data, err := os.ReadFile(module)
	if err != nil {
		return nil, "", err
	}
	version, err := goEnv("GOVERSION")
	if err != nil {
		return nil, "", err
	}
	if data, err = slim(data, version); err != nil {
		return nil, "", err
	}
	p, err := readProgram(data)
	return p, version, err
}

// squeeze packs data as .lzma, as small as it goes: a third smaller than gzip,
// which package unpack unpacks. The header holds nothing but the size and the
// settings, so equal data give equal bytes.
func squeeze(data []byte) ([]byte, error) {
	var b bytes.Buffer
	w := lzma.NewWriterSizeLevel(&b, int64(len(data)), lzma.BestCompression)
	if _, err := w.Write(data); err != nil {
		return nil, err
	}
	if err := w.Close(); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

// goGlue returns the script that joins a Go program to the browser. It belongs
// to the version of Go that compiled the program, so it is copied from there
// each time and never kept.
func goGlue() ([]byte, error) {
	root, err := goEnv("GOROOT")
	if err != nil {
		return nil, err
	}
	return os.ReadFile(filepath.Join(root, "lib", "wasm", "wasm_exec.js"))
}

// goEnv asks the Go that builds the engine.
func goEnv(name string) (string, error) {
	value, err := exec.Command("go", "env", name).Output()
	if err != nil {
		return "", fmt.Errorf("go env %s: %w", name, err)
	}
	return strings.TrimSpace(string(value)), nil
}
