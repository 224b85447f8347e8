//go:build !js

package e2e

import (
	"errors"
	"flag"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"testing"
)

// peers ends the benchmark if the contenders are not installed.
func peers(tb testing.TB) {
	tb.Helper()
	if _, err := os.Stat(filepath.Join(peersFolder(), "node_modules")); err != nil {
		tb.Fatal("the contenders are not installed; make bench does it")
	}
}

// A site serves the contenders, their libraries and the files.
type site struct {
	address string
	trouble error // why there is no engine
}

// benchSite starts it once.
func benchSite(tb testing.TB) site {
	tb.Helper()
	s, err := startSite()
	if err != nil {
		tb.Fatal(err)
	}
	return s
}

var startSite = sync.OnceValues(func() (site, error) {
	program, trouble := benchProgram()
	root, err := goCommand("env", "GOROOT")
	if err != nil {
		return site{}, err
	}
	mux := http.NewServeMux()
	mux.Handle("/peers/", http.StripPrefix("/peers", http.FileServer(http.Dir(peersFolder()))))
	mux.Handle("/node_modules/", http.FileServer(http.Dir(peersFolder())))
	mux.Handle("/files/", http.StripPrefix("/files", http.FileServer(http.Dir(work))))
	mux.HandleFunc("/engine.wasm", func(w http.ResponseWriter, r *http.Request) { http.ServeFile(w, r, program) })
	mux.HandleFunc("/wasm_exec.js", func(w http.ResponseWriter, r *http.Request) {
		http.ServeFile(w, r, filepath.Join(strings.TrimSpace(root), "lib", "wasm", "wasm_exec.js"))
	})
	return site{httptest.NewServer(mux).URL, trouble}, nil // it lives as long as the run
})

var alsoInline = flag.String("inline", "", "packages that the engine in a race of files inlines besides those of wasm/pack, with commas between")

// benchProgram compiles testdata/bench, which puts calc/interval alone into a
// page, as wasm/pack compiles the engine.
func benchProgram() (string, error) {
	inlined, err := packInlines()
	if err != nil {
		return "", err
	}
	path := filepath.Join(work, "bench.wasm")
	args := []string{"build", "-trimpath", "-ldflags=-s -w", "-gcflags=all=-l"}
	if *alsoInline != "" {
		inlined = append(inlined, strings.Split(*alsoInline, ",")...)
	}
	for _, pattern := range inlined {
		args = append(args, "-gcflags="+pattern+"=")
	}
	cmd := exec.Command("go", append(args, "-o", path, "./wasm/e2e/testdata/bench")...)
	cmd.Dir = "../.."
	cmd.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	if said, err := cmd.CombinedOutput(); err != nil {
		return "", fmt.Errorf("building the benchmark's engine: %w\n%s", err, said)
	}
	return path, nil
}

// packInlines reads from wasm/pack which packages it inlines.
func packInlines() ([]string, error) {
	file, err := parser.ParseFile(token.NewFileSet(), filepath.Join("..", "pack", "build.go"), nil, 0)
	if err != nil {
		return nil, err
	}
	var names []string
	ast.Inspect(file, func(n ast.Node) bool {
		spec, ok := n.(*ast.ValueSpec)
		if !ok || spec.Names[0].Name != "inlined" || len(spec.Values) != 1 {
			return true
		}
		for _, e := range spec.Values[0].(*ast.CompositeLit).Elts {
			name, err := strconv.Unquote(e.(*ast.BasicLit).Value)
			if err == nil {
				names = append(names, name)
			}
		}
		return false
	})
	if len(names) == 0 {
		return nil, errors.New("wasm/pack/build.go has no list named inlined")
	}
	return names, nil
}
