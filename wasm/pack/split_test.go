//go:build !js

package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// What testdata/parts says when its second part is there.
const partsSay = `methods 16
panic of the second part
fault runtime error: index out of range [2] with length 0
rethrown runtime error: invalid memory address or nil pointer dereference, thrown again
goroutines 9900
sorted [3 2 1]
keys 30
deep 375
kept 1999000
called by main.caller
stringer name 7 [name 1 name 2]
`

// runParts runs the two parts as static/boot.js does, and calls early before
// the second is made and late twice: before and after.
const runParts = `
const fs = require("fs"), [exec, one, two] = process.argv.slice(1);
require(exec);
(async () => {
  const go = new Go();
  const { instance } = await WebAssembly.instantiate(fs.readFileSync(one), go.importObject);
  const [at, count] = (process.env.TABLE || "0 0").split(" ").map(Number);
  for (let i = 0; i < count; i++) new DataView(instance.exports.mem.buffer).setUint32(at + 20 * i, Math.floor(i / 16), true);
  go.run(instance);
  if (early() !== 9) throw new Error("early: " + early());
  if (process.env.SOON) { late(); return; }
  await WebAssembly.instantiate(fs.readFileSync(two), { "": instance.exports });
  console.log(late());
  if (late() !== late() || early() !== 9) throw new Error("not the same again");
  process.exit(0);
})().catch((err) => { console.log(String(err)); process.exit(1); });
`

func TestPartsRunAsOne(t *testing.T) {
	one, two := partedProgram(t, "main.door")
	got := runNode(t, "", one, two)
	if diff := cmp.Diff(partsSay, got); diff != "" {
		t.Error(diff)
	}
	// Nothing of the second part is in the first.
	if got := runNode(t, "SOON=1", one, two); !strings.Contains(got, "null function") {
		t.Errorf("called too soon, the program says: %s", got)
	}
}

// Without a door the second part is empty, and does no harm.
func TestPartsWithoutDoors(t *testing.T) {
	one, two := partedProgram(t)
	if got := runNode(t, "", one, two); got != partsSay {
		t.Errorf("the program says: %s", got)
	}
}

// partedProgram builds testdata/parts, parts it and gives both parts as files.
func partedProgram(t *testing.T, doors ...string) (one, two string) {
	t.Helper()
	if testing.Short() {
		t.Skip("builds a program")
	}
	dir := t.TempDir()
	one, two = filepath.Join(dir, "one.wasm"), filepath.Join(dir, "two.wasm")
	p, version := builtProgram(t, filepath.Join(dir, "all.wasm"))
	late, err := lateFuncs(p, version, doors)
	if err != nil {
		t.Fatal(err)
	}
	first, second, err := split(p, late, version)
	if err != nil {
		t.Fatal(err)
	}
	for name, data := range map[string][]byte{one: first, two: second} {
		if err := os.WriteFile(name, data, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return one, two
}

func builtProgram(t *testing.T, name string) (*program, string) {
	t.Helper()
	module := built(t, "./testdata/parts", name)
	version, err := goEnv("GOVERSION")
	if err != nil {
		t.Fatal(err)
	}
	if module, err = slim(module, version); err != nil {
		t.Fatal(err)
	}
	p, err := readProgram(module)
	if err != nil {
		t.Fatal(err)
	}
	return p, version
}

func runNode(t *testing.T, env string, files ...string) string {
	t.Helper()
	if _, err := exec.LookPath("node"); err != nil {
		t.Skip("node is not there to run the program (make browsers installs it)")
	}
	root, err := goEnv("GOROOT")
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command("node", append([]string{"-e", runParts, filepath.Join(root, "lib", "wasm", "wasm_exec.js")}, files...)...)
	cmd.Env = append([]string{"PATH=" + os.Getenv("PATH"), "HOME=" + os.Getenv("HOME")}, env)
	said, _ := cmd.CombinedOutput()
	return string(said)
}
