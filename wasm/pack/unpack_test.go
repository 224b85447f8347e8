//go:build !js

package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"splittally/wasm/pack/little"
)

// unpackFiles reads files named on its command line and says of each what it
// unpacks to, or that it is damaged.
const unpackFiles = `
const { readFileSync } = require("fs"), { createHash } = require("crypto");
(async () => {
	for (const name of process.argv.slice(1)) {
		try {
			const data = readFileSync(name);
			const bytes = new Uint8Array(data);
			let come = 0; // as it would from a line, in pieces of all lengths
			const next = async () => come < bytes.length ? bytes.subarray(0, come += 1 + come % 1499) : null;
			let all = bytes;
			const once = async () => { const had = all; all = null; return had; };
			const out = name.endsWith(".txt") ? bytesOf(data.toString("latin1")) : await unpackEngine(next);
			if (!name.endsWith(".txt") && !Buffer.from(await unpackEngine(once)).equals(out)) throw new Error("pieces unpack to something else");
			console.log(createHash("sha256").update(out).digest("hex"));
		} catch (err) {
			console.log(err.message);
		}
	}
})();
`

// unpackedByPage has static/unpack.js unpack each text, under Node.
func unpackedByPage(t *testing.T, packed ...[]byte) []string {
	t.Helper()
	return underNode(t, ".lzma", packed...)
}

func underNode(t *testing.T, ending string, texts ...[]byte) []string {
	t.Helper()
	if _, err := exec.LookPath("node"); err != nil {
		t.Skip("node is not there to run the script (make browsers installs it)")
	}
	script, err := os.ReadFile("../../static/unpack.js")
	if err != nil {
		t.Fatal(err)
	}
	unpacker, err := little.Compile("unpack")
	if err != nil {
		t.Fatal(err)
	}
	dir, args := t.TempDir(), []string{"-e", withUnpacker(string(script), unpacker) + unpackFiles}
	for i, data := range texts {
		name := filepath.Join(dir, strconv.Itoa(i)+ending)
		if err := os.WriteFile(name, data, 0o600); err != nil {
			t.Fatal(err)
		}
		args = append(args, name)
	}
	said, err := exec.Command("node", args...).CombinedOutput()
	if err != nil {
		t.Fatalf("%v\n%s", err, said)
	}
	return strings.Fields(strings.ReplaceAll(string(said), "its packed form is damaged", "damaged"))
}

func squeezed(t *testing.T, data []byte) []byte {
	t.Helper()
	packed, err := squeeze(data)
	if err != nil {
		t.Fatal(err)
	}
	return packed
}

// What the packer packs the page unpacks: text, noise, long runs, matches that
// reach far back, and hardly anything.
func TestPageUnpacksWhatPackPacks(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 7))
	noise := make([]byte, 70_000)
	for i := range noise {
		noise[i] = byte(random.Uint32())
	}
	far := append(append(bytes.Clone(noise), bytes.Repeat([]byte("day and night "), 90_000)...), noise...)
	var packed [][]byte
	var want []string
	for _, data := range [][]byte{{0}, []byte("kWh"), bytes.Repeat([]byte{7}, 600_000), noise, far} {
		packed = append(packed, squeezed(t, data))
		sum := sha256.Sum256(data)
		want = append(want, hex.EncodeToString(sum[:]))
	}
	got := unpackedByPage(t, packed...)
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("text %d unpacks to %s, want %s", i, got[i], want[i])
		}
	}
}

func TestPageRefusesDamagedEngines(t *testing.T) {
	text := []byte(strings.Repeat("the meter and the monitor, day by day; ", 300))
	good := squeezed(t, text)
	sum := sha256.Sum256(text)
	bad := [][]byte{{}, good[:10], good[:len(good)/2], good[:len(good)-1], append(bytes.Clone(good), 0), []byte(strings.Repeat("<html>", 20))}
	for i := 20; i < len(good); i += len(good) / 8 {
		flipped := bytes.Clone(good)
		flipped[i] ^= 0x10
		bad = append(bad, flipped)
	}
	for i, said := range unpackedByPage(t, bad...) {
		if said != "damaged" && said == hex.EncodeToString(sum[:]) {
			t.Errorf("damaged engine %d unpacks as if nothing were wrong", i)
		}
		if i < 6 && said != "damaged" {
			t.Errorf("engine %d, cut or foreign, is not refused: %s", i, said)
		}
	}
}
