//go:build !js

package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

func TestPiecesAreTheMemory(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var memory []byte
		for range rapid.IntRange(0, 5).Draw(t, "runs") {
			memory = append(memory, make([]byte, rapid.IntRange(0, 3*restGap).Draw(t, "zeros"))...)
			memory = append(memory, rapid.SliceOfN(rapid.Byte(), 0, 100).Draw(t, "bytes")...)
		}
		got, err := initialMemory(pieces(memory))
		if err != nil {
			t.Fatal(err)
		}
		if want := bytes.TrimRight(memory, "\x00"); !bytes.Equal(got, want) {
			t.Fatal(cmp.Diff(want, got))
		}
	})
}

func TestPiecesByHand(t *testing.T) {
	memory := make([]byte, 70+restGap)
	memory[64], memory[69+restGap] = 7, 9
	// 64 is 0xc0 0x00 as signed LEB128: 0x40 alone would be −64.
	want := []byte{2, 0, 0x41, 0xc0, 0x00, 0x0b, 1, 7, 0, 0x41, 0xc5, 0x02, 0x0b, 1, 9}
	if diff := cmp.Diff(want, pieces(memory)); diff != "" {
		t.Error(diff)
	}
}

func TestSlimRefuses(t *testing.T) {
	head := "\x00asm\x01\x00\x00\x00"
	for name, module := range map[string]string{
		"no head":         "\x00asm",
		"cut short":       head + "\x01\x05ab",
		"no size":         head + "\x01",
		"passive piece":   head + "\x0b\x04\x01\x01\x01a",
		"place computed":  head + "\x0b\x07\x01\x00\x23\x00\x0b\x01a",
		"piece cut short": head + "\x0b\x07\x01\x00\x41\x08\x0b\x02a",
		"bytes left over": head + "\x0b\x08\x01\x00\x41\x08\x0b\x01ab",
		"endless count":   head + "\x0b\x01\x05",
		"no tables":       head + "\x0b\x07\x01\x00\x41\x08\x0b\x01a",
	} {
		if got, err := slim([]byte(module), linesKnown); err == nil {
			t.Errorf("%s: no error, but %q", name, got)
		}
	}
}

func FuzzSlim(f *testing.F) {
	f.Add([]byte("\x00asm\x01\x00\x00\x00\x0b\x07\x01\x00\x41\x08\x0b\x01a"))
	f.Fuzz(func(t *testing.T, module []byte) {
		once, err := slim(module, "")
		if err != nil {
			t.Skip()
		}
		if again, err := slim(once, ""); err != nil || !bytes.Equal(again, once) {
			t.Errorf("slimming twice: %v, %q then %q", err, once, again)
		}
	})
}

// built compiles a program for the browser, as the linker writes it, into a file.
func built(t *testing.T, program, name string) []byte {
	t.Helper()
	build := exec.Command("go", "build", "-trimpath", "-ldflags=-s -w", "-o", name, program)
	build.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	if said, err := build.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, said)
	}
	module, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return module
}

// A program of the Go at hand that recovers from a panic and dies of another
// shows that its tables are still good, and that linesKnown names this Go.
func TestSlimProgramRunsAndDies(t *testing.T) {
	if testing.Short() {
		t.Skip("builds a program")
	}
	dir := t.TempDir()
	full, thin := filepath.Join(dir, "full.wasm"), filepath.Join(dir, "thin.wasm")
	module := built(t, "./testdata/crash", full)
	version, err := goEnv("GOVERSION")
	if err != nil {
		t.Fatal(err)
	}
	slimmed, err := slim(module, version)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(thin, slimmed, 0o644); err != nil {
		t.Fatal(err)
	}
	if before, after := packedLen(t, module), packedLen(t, slimmed); after > before*9/10 {
		t.Errorf("%d bytes packed became %d, want a tenth less; does linesKnown, %s, name %s?", before, after, linesKnown, version)
	}
	checkDeath(t, run(t, full), "recovered: runtime error: index out of range [2]", "main.main()", "main.go:12")
	checkDeath(t, run(t, thin), "recovered: runtime error: index out of range [2]", "main.main()", "?:0")
}

func packedLen(t *testing.T, module []byte) int {
	t.Helper()
	packed, err := squeeze(module)
	if err != nil {
		t.Fatal(err)
	}
	return len(packed)
}

// run gives all that the program says under Node, with Go's own loader, which
// allows the environment 8 kB.
func run(t *testing.T, module string) string {
	t.Helper()
	if _, err := exec.LookPath("node"); err != nil {
		t.Skip("node is not there to run the program (make browsers installs it)")
	}
	root, err := goEnv("GOROOT")
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(filepath.Join(root, "lib", "wasm", "go_js_wasm_exec"), module)
	cmd.Env = []string{"PATH=" + os.Getenv("PATH"), "HOME=" + os.Getenv("HOME")}
	said, _ := cmd.CombinedOutput()
	return string(said)
}

func checkDeath(t *testing.T, said string, want ...string) {
	t.Helper()
	for _, w := range want {
		if !strings.Contains(said, w) {
			t.Errorf("the program did not say %q:\n%s", w, said)
		}
	}
}
