// Command size prints, as Markdown, how many bytes people load, and what each
// dependency costs: small programs are built beside the repository, each with
// one package more than the one before.
//
//	go -C wasm/tools run ./size -root ../..
//
// It reads the packed page, so run make dist first (make size does).
package main

import (
	"bytes"
	"compress/gzip"
	"encoding/binary"
	"flag"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"

	"github.com/kjk/lzma"
)

func main() {
	root := flag.String("root", "../..", "root of the repository")
	flag.Parse()
	if err := run(*root); err != nil {
		fmt.Fprintln(os.Stderr, "size:", err)
		os.Exit(1)
	}
}

func run(root string) error {
	if err := printPage(filepath.Join(root, "dist")); err != nil {
		return err
	}
	dir, err := os.MkdirTemp("", "size")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	if err := prepare(root, dir); err != nil {
		return err
	}
	return printProbes(dir)
}

// printPage measures what pack wrote.
func printPage(dist string) error {
	single, err := os.Stat(filepath.Join(dist, "splittally.html"))
	if err != nil {
		return err
	}
	fmt.Println("| handed out | bytes |\n|---|---:|")
	for i, part := range []string{"first part of the engine", "second part"} {
		name := []string{"engine", "engine2"}[i]
		names, err := filepath.Glob(filepath.Join(dist, "site", name+".*.bin"))
		if err != nil || len(names) != 1 {
			return fmt.Errorf("%d times %s in %s: %w", len(names), name, dist, err)
		}
		if err := printPart(part, names[0]); err != nil {
			return err
		}
	}
	fmt.Printf("| single file | %d |\n\n", single.Size())
	return nil
}

// printPart measures one part of the engine.
func printPart(part, file string) error {
	packed, err := os.ReadFile(file)
	if err != nil {
		return err
	}
	text, err := io.ReadAll(lzma.NewReader(bytes.NewReader(packed)))
	if err != nil {
		return err
	}
	zipped, err := squeeze(text)
	if err != nil {
		return err
	}
	fmt.Printf("| %s, raw | %d |\n", part, binary.LittleEndian.Uint32(text[4:])) // see wasm/pack/alike.go
	fmt.Printf("| written alike | %d |\n", len(text))
	fmt.Printf("| the same, gzip -9, for comparison | %d |\n", len(zipped))
	fmt.Printf("| as people load it, LZMA | %d |\n", len(packed))
	fmt.Printf("| in the single file, as letters | %d |\n", (len(packed)*8+12)/13*2) // see wasm/pack/letters.go
	return nil
}

func printProbes(dir string) error {
	fmt.Println("| program | raw bytes | gzip bytes | gzip more than the one above |\n|---|---:|---:|---:|")
	before := 0
	for i, p := range probes {
		if p.module != "" {
			if err := goCommand(dir, "get", p.module); err != nil {
				fmt.Printf("| %s | not measured: %s could not be had | | |\n", p.name, p.module)
				continue
			}
		}
		raw, packed, err := measure(dir, probes[:i+1])
		if err != nil {
			return fmt.Errorf("%s: %w", p.name, err)
		}
		fmt.Printf("| %s | %d | %d | %+d |\n", p.name, raw, packed, packed-before)
		before = packed
	}
	return nil
}

// prepare makes a module in dir that has the repository's requirements, so that
// probes are built with the very versions that the engine has.
func prepare(root, dir string) error {
	for _, name := range []string{"go.mod", "go.sum"} {
		data, err := os.ReadFile(filepath.Join(root, name))
		if err != nil {
			return err
		}
		if err := os.WriteFile(filepath.Join(dir, name), data, 0o644); err != nil {
			return err
		}
	}
	return goCommand(dir, "mod", "edit", "-module=probe")
}

// measure builds one program that uses all of these probes.
func measure(dir string, have []probe) (raw, packed int, err error) {
	if err := os.WriteFile(filepath.Join(dir, "main.go"), program(have), 0o644); err != nil {
		return 0, 0, err
	}
	module := filepath.Join(dir, "probe.wasm")
	if err := goCommand(dir, "build", "-trimpath", "-ldflags=-s -w", "-o", module, "."); err != nil {
		return 0, 0, err
	}
	data, err := os.ReadFile(module)
	if err != nil {
		return 0, 0, err
	}
	zipped, err := squeeze(data)
	return len(data), len(zipped), err
}

// squeeze packs data as a server would, with gzip -9.
func squeeze(data []byte) ([]byte, error) {
	var b bytes.Buffer
	w, err := gzip.NewWriterLevel(&b, gzip.BestCompression)
	if err != nil {
		return nil, err
	}
	if _, err := w.Write(data); err != nil {
		return nil, err
	}
	err = w.Close()
	return b.Bytes(), err
}

func goCommand(dir string, args ...string) error {
	cmd := exec.Command("go", args...)
	cmd.Dir = dir
	cmd.Env = append(os.Environ(), "GOFLAGS=-mod=mod", "GOOS=js", "GOARCH=wasm")
	if said, err := cmd.CombinedOutput(); err != nil {
		return fmt.Errorf("go %s: %w\n%s", args[0], err, said)
	}
	return nil
}
