package main

import (
	"bytes"
	"encoding/binary"
	"errors"
	"strings"
)

// linesKnown is the version of Go whose tables dropLines knows. For any other
// it does nothing, and the engine is about a tenth larger: compare
// runtime/symtab.go (pcHeader), runtime/runtime2.go (_func) and pcvalue with
// the version before, then name the new one here. A test holds the two together.
const linesKnown = "go1.26"

// funcHead is the size of runtime._func without its two variable lists; the
// fields used are at these places in it.
const (
	funcHead   = 44
	nameAt     = 4
	pcspAt     = 16
	pcfileAt   = 20 // and pcln
	npcdataAt  = 28
	cuOffsetAt = 32 // and startLine
	headerSize = 72
)

// dropLines takes the tables that lead from an instruction to a file and line
// out of memory. Only the trace of a crash reads them; without them it says
// "?:0" where the line would stand, and still names every function. Packed,
// they are a tenth of the engine.
//
// Runtime's own rule makes this safe: offset 0 is "no table" (pcvalue).
func dropLines(memory []byte, version string) error {
	if !knows(version) {
		return nil
	}
	t, err := findTables(memory)
	if err != nil {
		return err
	}
	clear(t.files)
	keep := make([]bool, len(t.pairs))
	for i := range t.count {
		f, err := t.function(i)
		if err != nil {
			return err
		}
		clear(f[pcfileAt:npcdataAt])
		clear(f[cuOffsetAt : cuOffsetAt+8])
		if err := t.keep(keep, word(f, pcspAt)); err != nil {
			return err
		}
		for j := range word(f, npcdataAt) {
			if err := t.keep(keep, word(f, funcHead+4*j)); err != nil {
				return err
			}
		}
	}
	for i := range t.pairs {
		if !keep[i] {
			t.pairs[i] = 0
		}
	}
	return nil
}

// knows says that the tables of a version of Go are known.
func knows(version string) bool {
	return version == linesKnown || strings.HasPrefix(version, linesKnown+".")
}

var errTables = errors.New("the tables of functions are not as " + linesKnown + " writes them")

// tables is what the linker calls pclntab.
type tables struct {
	at    int    // in memory
	count int    // functions
	names []byte // of the functions, each ended by a zero
	// Where in memory these begin.
	namesAt, pairsAt, funcsAt int
	files                     []byte // which files each package has, and their names
	pairs                     []byte // one after the other: pairs of varints that end with a zero
	funcs                     []byte // places of the functions, then the functions
}

func findTables(memory []byte) (tables, error) {
	// Magic number, two zeros, smallest instruction 1, pointers of 8 bytes.
	head := []byte{0xf1, 0xff, 0xff, 0xff, 0, 0, 1, 8}
	if bytes.Count(memory, head) != 1 {
		return tables{}, errTables
	}
	at := bytes.Index(memory, head)
	all := memory[at:]
	if len(all) < headerSize {
		return tables{}, errTables
	}
	count, names, files, pairs, funcs := word(all, 8), word(all, 32), word(all, 40), word(all, 56), word(all, 64)
	if names > files || files > pairs || pairs > funcs || funcs > len(all) || 8*count > len(all)-funcs {
		return tables{}, errTables
	}
	return tables{
		at: at, namesAt: at + names, pairsAt: at + pairs, funcsAt: at + funcs,
		count: count, names: all[names:files], files: all[files:pairs], pairs: all[pairs:funcs], funcs: all[funcs:],
	}, nil
}

// function gives the description of one function, and what follows it.
func (t tables) function(i int) ([]byte, error) {
	at := word(t.funcs, 8*i+4)
	if at > len(t.funcs)-funcHead {
		return nil, errTables
	}
	f := t.funcs[at:]
	if n := word(f, npcdataAt); n > 16 || funcHead+4*n > len(f) {
		return nil, errTables
	}
	return f, nil
}

// namesOf gives the names of a program's functions, in their order.
func (t tables) namesOf(count int) ([]string, error) {
	all := make([]string, count)
	for i := range t.count {
		f, err := t.function(i)
		if err != nil {
			return nil, err
		}
		n, at := word(f, 0)-firstFunc, word(f, nameAt)
		if n < 0 || n >= count || at > len(t.names) {
			return nil, errTables
		}
		name, _, _ := bytes.Cut(t.names[at:], []byte{0})
		all[n] = string(name)
	}
	return all, nil
}

// keep marks the bytes of the table that begins at i.
func (t tables) keep(marks []bool, i int) error {
	for first := true; i > 0; first = false {
		if i >= len(t.pairs) {
			return errTables
		}
		marks[i] = true
		if t.pairs[i] == 0 && !first {
			return nil
		}
		for range 2 {
			n := varintLen(t.pairs[i:])
			if n <= 0 {
				return errTables
			}
			for range n {
				marks[i] = true
				i++
			}
		}
	}
	return nil
}

func varintLen(b []byte) int {
	_, n := binary.Uvarint(b)
	return n
}

func word(b []byte, at int) int { return int(binary.LittleEndian.Uint32(b[at:])) }
