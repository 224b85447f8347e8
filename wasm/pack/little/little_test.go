package little

import (
	"encoding/base64"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"splittally/wasm/pack/little/testdata/few"
)

// callAll calls each function of a module with pairs of numbers, given as lines
// "name a b", and says what it returns or that it trapped.
const callAll = `
const [module, calls] = process.argv.slice(1);
const { exports } = new WebAssembly.Instance(new WebAssembly.Module(Buffer.from(module, "base64")));
for (const line of calls.split("\n")) {
	const [name, a, b] = line.split(" ");
	try { console.log(exports[name](+a, +b) >>> 0); } catch { console.log("trap"); }
}
`

// What is compiled says what Go says.
func TestSameAsGo(t *testing.T) {
	if _, err := exec.LookPath("node"); err != nil {
		t.Skip("node is not there to run the module (make browsers installs it)")
	}
	module, err := Compile("testdata/few")
	if err != nil {
		t.Fatal(err)
	}
	funcs := map[string]func(a, b uint32) uint32{
		"Numbers": few.Numbers, "Order": few.Order, "Steps": few.Steps, "Short": few.Short, "Arrays": few.Arrays, "Slices": few.Slices, "Odd": few.Odd,
	}
	random := rand.New(rand.NewPCG(3, 4))
	var calls, want []string
	for range 100 {
		a, b := random.Uint32(), random.Uint32()>>(random.Uint32()&31)
		for _, pair := range [][2]uint32{{a, b}, {b, a}, {a, a}} {
			for name, f := range funcs {
				calls = append(calls, fmt.Sprint(name, " ", pair[0], " ", pair[1]))
				want = append(want, said(f, pair[0], pair[1]))
			}
		}
	}
	out, err := exec.Command("node", "-e", callAll, base64.StdEncoding.EncodeToString(module), strings.Join(calls, "\n")).CombinedOutput()
	if err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	for i, got := range strings.Fields(string(out)) {
		if got != want[i] {
			t.Fatalf("%s gives %s, in Go %s", calls[i], got, want[i])
		}
	}
}

func said(f func(a, b uint32) uint32, a, b uint32) (s string) {
	defer func() {
		if recover() != nil {
			s = "trap"
		}
	}()
	return fmt.Sprint(f(a, b))
}

// What it does not know it refuses, and says where.
func TestRefuses(t *testing.T) {
	for body, want := range map[string]string{
		"var x uint32 = 1":                 "such a declaration",
		"var x uint64":                     "a variable of uint64",
		"var x int":                        "a variable of int",
		"var x []uint16":                   "such a slice",
		"var x [2]int64":                   "an array of int64",
		"type t uint32":                    "such a declaration",
		"func f(x byte) {}":                "a variable of byte",
		"func f() (x uint32) { return 1 }": "such a result",
		"func f() (uint32, uint32) { return 1, 2 }":                       "such a result",
		"func f[T any](x T) {}":                                           "such a function",
		"func f() { x := 1; x++ }":                                        "a variable of int",
		"func f() { defer f() }":                                          "such a statement",
		"func f() { var x uint32; x++ }":                                  "such a statement",
		"func f(x uint32) { switch x { case 1: } }":                       "such a statement",
		"func f() { for range 3 {} }":                                     "such a statement",
		"func f() { for i := uint32(0); i < 3; i++ { continue } }":        "such a continue",
		"func f() { a: for { for { break a } } }":                         "such a statement",
		"func f(x uint32) { _ = x }":                                      "anything but a name here",
		"func f(x uint32) { x, y := x, x; x = y }":                        "a name that is not new",
		"func f(x, y uint32) { if !(x < y) { f(y, x) } }":                 "such an expression",
		"func f(x uint32) uint32 { return -x }":                           "such an expression",
		"func f(x uint32) { if int32(x) < 0 { f(x) } }":                   "< of int32",
		"func f(x, y uint32) uint32 { return min(x, y) }":                 "a call of min",
		"var b [4]byte\nfunc f() uint32 { return uint32(b[0] + b[1]) }":   "+ of byte",
		"var b [4]byte\nfunc f() { b[0]++ }":                              "anything but a name here",
		"var b [4]byte\nfunc f() { b[0] += 2 }":                           "+= with an index",
		"var b [4]byte\nfunc f() { b[0], b[1] = b[1], b[0] }":             "anything but a name here",
		"var b [4]byte\nfunc f() { clear(b[:]) }":                         "such an expression",
		"var b [4]byte\nfunc f() { copy(b[0:2], b[2:]) }":                 "b is not",
		"var b []byte\nfunc f() { copy(b, b[2:]) }":                       "such a copy",
		"var b []byte\nfunc f(n uint32) { b = make([]byte, n, n) }":       "such a make",
		"var b []byte\nfunc f(n uint32) uint32 { return uint32(len(b)) }": "a call of len",
		"func f() { func() {}() }":                                        "anything but a name here",
		"func f(x uint32) uint32 { return uint32(float64(x)) }":           "a conversion to float64",
	} {
		dir := t.TempDir()
		if err := os.WriteFile(filepath.Join(dir, "a.go"), []byte("package a\n"+body), 0o600); err != nil {
			t.Fatal(err)
		}
		module, err := Compile(dir)
		if err == nil || !strings.Contains(err.Error(), want) || !strings.Contains(err.Error(), "a.go:") {
			t.Errorf("%s\ngives %d bytes and %v, want %s", body, len(module), err, want)
		}
	}
}

// Equal sources give equal modules, byte for byte.
func TestSameEachTime(t *testing.T) {
	one, err := Compile("testdata/few")
	if err != nil {
		t.Fatal(err)
	}
	if two, _ := Compile("testdata/few"); string(two) != string(one) {
		t.Error("compiled twice it is not the same")
	}
}
