//go:build !js

package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"
)

const wasmHead = "\x00asm\x01\x00\x00\x00"

// section gives a module of one section.
func section(id byte, body ...byte) []byte {
	return append(binary.AppendUvarint(append([]byte(wasmHead), id), uint64(len(body))), body...)
}

// sectionOn adds a section to a module.
func sectionOn(module []byte, id byte, body ...byte) []byte {
	return append(module, section(id, body...)[moduleHead:]...)
}

// oneFunc puts one function into the table, where a Go program has its first.
var oneFunc = section(elementSection, 1, 0, opConst, 0x80, 0x20, opEnd, 1, 64)

// A function that knows itself as 0x1000 << 16: two calls within blocks, a jump
// to the block that the second returns to, and a call through the table.
var twoCalls = sectionOn(oneFunc, codeSection, 1, 67, 1, 1, 0x7f,
	opLoop, 0x40, opBlock, 0x40, opBlock, 0x40,
	0x20, 0, opBrTable, 2, 0, 1, 1,
	opEnd,
	0x20, 1, opConst64, 0x81, 0x80, 0x80, 0x80, 0x01, 0x37, 3, 0, opCall, 0xc0, 0, opBrIf, 2, // return to 1
	0x20, 1, opConst64, 0x82, 0x80, 0x80, 0x80, 0x01, 0x37, 3, 0, opCall, 0xc0, 0, opBrIf, 2, // return to 2
	opConst, 2, opLocalSet, 0, opBr, 1,
	opConst, 0, opConst, 0xc0, 0x00, opCallIndirect, 0, 0, 0x1a, // 64 as a signed number, and what comes back is dropped
	opEnd, opEnd, opEnd)

func TestAlikeByHand(t *testing.T) {
	want := []byte{
		'a', 'l', 'i', 'k', byte(len(twoCalls)), 0, 0, 0, elementSection, 8, 1, 0, opConst, 0x80, 0x20, opEnd, 1, 64,
		codeSection, 69, 1, 1, 1, 0x7f,
		opLoop, 0x40, opBlock, 0x40, opBlock, 0x40,
		0x20, 0, opBrTable, 2, 0, 0, 0x7f, // 0, one more, the same again
		opEnd,
		0x20, 1, opReturnTo, 1, 0x37, 3, 0, opCall, 0xc0, 0, opBrIf, 0, // out of the function
		0x20, 1, opReturnTo, 1, 0x37, 3, 0, opCall, 0xc0, 0, opBrIf, 0,
		opGoOn, 0, opBr, 1, // the loop, the outermost
		opConst, 0, opCallSlot, 64, 0x1a,
		opEnd, opEnd, opEnd,
	}
	got, err := alike(twoCalls)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

// What alike writes comes back as it was: a program of the Go at hand, and
// modules that have little or nothing of what it rewrites.
func TestPageRestoresModules(t *testing.T) {
	modules := [][]byte{
		goProgram(t), twoCalls, []byte(wasmHead),
		sectionOn(section(elementSection, 2, 0, opConst, 0xc0, 0x00, opEnd, 1, 7, 0, opConst, 0x80, 0x20, opEnd, 1, 8), codeSection, 2, 4, 0, opConst64, 0x7f, opEnd, 14, 0, opNumeric, numericCopy, 0, 0, opNumeric, numericFill, 0, opConstF32, opEnd, opEnd, opEnd, opEnd, opEnd),
		section(1, 'n', 'o', ' ', 'c', 'o', 'd', 'e'),
	}
	var packed [][]byte
	for i, module := range modules {
		text, err := alike(module)
		if err != nil {
			t.Fatalf("module %d: %v", i, err)
		}
		packed = append(packed, squeezed(t, text))
	}
	for i, got := range unpackedByPage(t, packed...) {
		if sum := sha256.Sum256(modules[i]); got != hex.EncodeToString(sum[:]) {
			t.Errorf("module %d comes back as something else: %s", i, got)
		}
	}
}

func goProgram(t *testing.T) []byte {
	t.Helper()
	if testing.Short() {
		return []byte(wasmHead)
	}
	module, err := slim(built(t, "./testdata/crash", filepath.Join(t.TempDir(), "crash.wasm")), "")
	if err != nil {
		t.Fatal(err)
	}
	return module
}

func TestPageRefusesDamagedText(t *testing.T) {
	text, err := alike(twoCalls)
	if err != nil {
		t.Fatal(err)
	}
	var packed [][]byte
	for i := 8; i < len(text); i++ {
		packed = append(packed, squeezed(t, text[:i]))
	}
	for i := 4; i < 8; i++ {
		flipped := bytes.Clone(text)
		flipped[i] ^= 0x11
		packed = append(packed, squeezed(t, flipped))
	}
	packed = append(packed, squeezed(t, append(bytes.Clone(text), 0)))
	for i, said := range unpackedByPage(t, packed...) {
		if said != "damaged" {
			t.Errorf("text %d, cut or wrong, is not refused: %s", i, said)
		}
	}
}

func TestAlikeRefuses(t *testing.T) {
	for name, module := range map[string][]byte{
		"no head":             []byte("\x00asm"),
		"no size":             append([]byte(wasmHead), 1),
		"cut short":           append([]byte(wasmHead), codeSection, 9, 1),
		"its own opcode":      sectionOn(oneFunc, codeSection, 1, 4, 0, opReturnTo, 0, opEnd),
		"and another":         sectionOn(oneFunc, codeSection, 1, 4, 0, opCallSlot, 0, opEnd),
		"function too long":   sectionOn(oneFunc, codeSection, 1, 5, 0, 1, opEnd, 1, 1),
		"function too short":  sectionOn(oneFunc, codeSection, 1, 4, 0, 1, opEnd, 1),
		"no end":              sectionOn(oneFunc, codeSection, 1, 2, 0, 1),
		"number in two bytes": sectionOn(oneFunc, codeSection, 1, 5, 0, opBr, 0x80, 0, opEnd),
		"constant in two":     sectionOn(oneFunc, codeSection, 1, 5, 0, opConst64, 0x80, 0, opEnd),
		"table computed":      section(elementSection, 1, 0, 0x23, 0, opEnd, 0),
		"places out of order": section(elementSection, 1, 0, opConst, 0, opEnd, 2, 8, 7),
		"place too high":      section(elementSection, 1, 0, opConst, 0xff, 0xff, 1, opEnd, 2, 7, 8),
		"more than in table":  sectionOn(oneFunc, codeSection, 2, 2, 0, opEnd, 2, 0, opEnd),
	} {
		if got, err := alike(module); err == nil {
			t.Errorf("%s: no error, but %q", name, got)
		}
	}
}

func FuzzAlike(f *testing.F) {
	f.Add(twoCalls)
	f.Fuzz(func(t *testing.T, module []byte) {
		if text, err := alike(module); err == nil && len(text) > 2*len(module)+16 {
			t.Errorf("%d bytes became %d", len(module), len(text))
		}
	})
}
