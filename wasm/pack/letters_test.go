//go:build !js

package main

import (
	"crypto/sha256"
	"encoding/hex"
	"math/rand/v2"
	"strings"
	"testing"
)

// By hand: 0x1fff is 8191 = 90·91 + 1, so $ and }; 25 would be <.
func TestLetters(t *testing.T) {
	for data, want := range map[string]string{
		"":             "",
		"\x00":         "##",
		"\x19":         "!#",
		"\xff\x1f":     "$}#",
		"\xff\xff":     "$}*",
		"\x00\x00\x00": "####",
	} {
		if got := letters([]byte(data)); got != want {
			t.Errorf("%x is written %q, want %q", data, got, want)
		}
	}
}

// The page reads what the packer writes, however many bytes are left over, and
// nothing in it ends a script.
func TestPageReadsLetters(t *testing.T) {
	random := rand.New(rand.NewPCG(9, 1))
	var texts [][]byte
	var want []string
	for n := range 60 {
		data := make([]byte, n+n/40*5000)
		for i := range data {
			data[i] = byte(random.Uint32())
		}
		written := letters(data)
		if i := strings.IndexFunc(written, func(r rune) bool { return r == '<' || r <= ' ' || r > '}' }); i >= 0 {
			t.Fatalf("%q stands in the text", written[i])
		}
		sum := sha256.Sum256(data)
		texts, want = append(texts, []byte(written)), append(want, hex.EncodeToString(sum[:]))
	}
	for i, got := range underNode(t, ".txt", texts...) {
		if got != want[i] {
			t.Errorf("%d bytes came back otherwise", i)
		}
	}
}
