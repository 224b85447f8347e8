package main

import (
	"bytes"
	"encoding/binary"
)

// What package runtime keeps of a program (runtime.moduledata, in words of 8
// bytes), of its types (internal/abi.Type and what follows it by kind) and of
// tables of methods (internal/abi.ITab), in the version that linesKnown names.
const (
	dataFindFunc = 19
	dataNoPtr    = 24 // the first of what can be written
	dataTypes    = 37 // rodata as a whole, types among it
	dataETypes   = 38
	dataGoFunc   = 40
	dataETables  = 41
	dataLinks    = 45 // typelinks
	dataITabs    = 48 // itablinks
	dataWords    = 64

	typeFlags, typeAlign, typeKind = 20, 21, 23
	typeEqual, typeStr, typePtrTo  = 24, 40, 44
	typeHead, itabHead             = 48, 24
	isUncommon                     = 1

	kindArray, kindChan, kindFunction     = 17, 18, 19
	kindInterface, kindMap                = 20, 21
	kindPointer, kindSlice, kindStructure = 22, 23, 25
	lastKind                              = 26
)

// typeSizes is how much of a type there is before what only some have.
var typeSizes = map[byte]int{
	kindArray: 72, kindChan: 64, kindFunction: 56, kindInterface: 80, kindMap: 112,
	kindPointer: 56, kindSlice: 56, kindStructure: 80,
}

// moduleData is what a program knows of itself.
type moduleData struct {
	memory              []byte
	rodata, rodataEnd   int // what cannot be written, up to the tables of functions
	tables, tablesEnd   int // those, and what belongs to them
	gofunc, gofuncEnd   int // in those, the maps of functions' stacks
	own                 int
	links, linksEnd     int             // the list of itabs
	variables           int             // what can be written
	itabs               map[int][]int   // places of the methods in the code
	words               map[int]bool    // that belong to an itab
	called              map[string]bool // names of the methods of interfaces
	firstType, typesEnd int
}

func findModuleData(memory []byte, tables int) (*moduleData, error) {
	m := &moduleData{memory: memory, tables: tables, itabs: map[int][]int{}, words: map[int]bool{}, called: map[string]bool{}}
	first := binary.LittleEndian.AppendUint64(nil, uint64(tables))
	first = binary.LittleEndian.AppendUint64(first, uint64(tables+headerSize))
	m.own = bytes.Index(memory, first)
	if m.own < 0 || m.own%8 != 0 || m.own+8*dataWords > len(memory) {
		return nil, errTables
	}
	known := func(i int) int { return quad(memory, m.own+8*i) }
	m.rodata, m.rodataEnd, m.variables = known(dataTypes), known(dataETypes), known(dataNoPtr)
	m.gofunc, m.gofuncEnd, m.tablesEnd = known(dataGoFunc), known(dataFindFunc), known(dataETables)
	m.links, m.linksEnd = known(dataITabs), known(dataITabs)+8*known(dataITabs+1)
	types, typesEnd := known(dataLinks), known(dataLinks)+4*known(dataLinks+1)
	last := 1
	for _, at := range []int{m.rodata, m.rodataEnd, m.tables, m.gofunc, m.gofuncEnd, m.tablesEnd, m.variables, len(memory)} {
		if at < last {
			return nil, errTables
		}
		last = at
	}
	if min(m.links, types) < m.rodata || max(m.linksEnd, typesEnd) > len(memory) {
		return nil, errTables
	}
	for at := m.links; at < m.linksEnd; at += 8 {
		if !m.noteITab(quad(memory, at)) {
			return nil, errTables
		}
	}
	m.firstType = len(memory)
	for at := types; at < typesEnd; at += 4 {
		t := m.rodata + word(memory, at)
		if !m.isType(t) {
			return nil, errTables
		}
		m.firstType, m.typesEnd = min(m.firstType, t), max(m.typesEnd, t+typeHead)
	}
	for at := (m.rodata + 7) &^ 7; at < m.rodataEnd; at += 8 {
		if m.isType(at) && m.memory[at+typeKind]&31 == kindInterface {
			m.noteInterface(at)
		}
	}
	return m, nil
}

func quad(b []byte, at int) int { return int(binary.LittleEndian.Uint64(b[at:])) }

// readable says that n bytes from at on are in rodata.
func (m *moduleData) readable(at, n int) bool {
	return at >= m.rodata && at%8 == 0 && n >= 0 && at+n <= m.rodataEnd
}

// noteITab reads one table of methods: it has as many as its interface.
func (m *moduleData) noteITab(at int) bool {
	if at <= 0 || at%8 != 0 || at+itabHead > len(m.memory) || !m.isType(quad(m.memory, at)) {
		return false
	}
	count := quad(m.memory, quad(m.memory, at)+typeHead+16)
	if count < 0 || count > 1<<12 || at+itabHead+8*count > len(m.memory) {
		return false
	}
	m.itabs[at] = nil
	for word := at; word < at+itabHead+8*count; word += 8 {
		m.words[word] = true
		if word >= at+itabHead {
			m.itabs[at] = append(m.itabs[at], quad(m.memory, word))
		}
	}
	return true
}

// isData says that a word is data of the program's own, and not what describes
// its functions and types.
func (m *moduleData) isData(at int) bool {
	switch {
	case m.words[at],
		at >= m.tables && at < m.tablesEnd,
		at >= m.firstType && at < m.typesEnd,
		at >= m.own && at < m.own+8*dataWords,
		at >= m.links && at < m.linksEnd:
		return false
	}
	return true
}

// isType tells a type by all that must hold of one. Now and then that holds of
// something else, which then leads to functions it has nothing to do with; no
// harm comes of it.
func (m *moduleData) isType(at int) bool {
	if !m.readable(at, typeHead) {
		return false
	}
	t := m.memory[at : at+typeHead]
	kind, align := t[typeKind]&31, t[typeAlign]
	size, pointers := quad(t, 0), quad(t, 8)
	name := m.rodata + word(t, typeStr)
	return kind >= 1 && kind <= lastKind && (align == 1 || align == 2 || align == 4 || align == 8) &&
		size >= 0 && pointers >= 0 && pointers <= size && t[typeFlags] < 64 &&
		name+2 < m.rodataEnd && m.memory[name] < 16 && m.memory[name+1] != 0 &&
		m.readable(at, typeSizes[kind])
}

// noteInterface takes the names of an interface's methods.
func (m *moduleData) noteInterface(at int) {
	first, n := quad(m.memory, at+typeHead+8), quad(m.memory, at+typeHead+16)
	if first < m.rodata || n < 0 || n > 1<<12 || first+8*n > m.rodataEnd {
		return
	}
	for ; n > 0; n-- {
		m.called[m.name(m.rodata+word(m.memory, first))] = true
		first += 8
	}
}

// name reads a name as types hold them: a byte of flags, its length, the name.
func (m *moduleData) name(at int) string {
	if at < m.rodata || at+binary.MaxVarintLen32 >= m.rodataEnd {
		return ""
	}
	size, n := binary.Uvarint(m.memory[at+1 : m.rodataEnd])
	if n <= 0 || size > uint64(m.rodataEnd-at-1-n) {
		return ""
	}
	return string(m.memory[at+1+n : at+1+n+int(size)])
}

// method is one of a type: its name, and a place in the table.
type method struct {
	name string
	slot int
}

// methods gives the methods of a type.
func (m *moduleData) methods(at int) (all []method) {
	size := typeSizes[m.memory[at+typeKind]&31]
	u := at + max(size, typeHead)
	if m.memory[at+typeFlags]&isUncommon == 0 || !m.readable(u, 16) {
		return nil
	}
	first := u + word(m.memory, u+8)
	for n := int(binary.LittleEndian.Uint16(m.memory[u+4:])); n > 0 && first+16 <= m.rodataEnd; n-- {
		name := m.name(m.rodata + word(m.memory, first))
		// As an interface calls it, and as others do.
		all = append(all, method{name, word(m.memory, first+8)}, method{name, word(m.memory, first+12)})
		first += 16
	}
	return all
}

// comparers gives the function values that compare and hash values of a type.
func (m *moduleData) comparers(at int) []int {
	if m.memory[at+typeKind]&31 == kindMap {
		return []int{quad(m.memory, at+typeEqual), quad(m.memory, at+typeHead+24)}
	}
	return []int{quad(m.memory, at+typeEqual)}
}

// parts gives the types that a type is made of, as far as comparing goes.
func (m *moduleData) parts(at int) (all []int) {
	switch m.memory[at+typeKind] & 31 {
	case kindArray:
		all = append(all, quad(m.memory, at+typeHead))
	case kindMap:
		all = append(all, quad(m.memory, at+typeHead), quad(m.memory, at+typeHead+8))
	case kindStructure:
		fields, n := quad(m.memory, at+typeHead+8), quad(m.memory, at+typeHead+16)
		for ; n > 0 && m.readable(fields, 24); n-- {
			all = append(all, quad(m.memory, fields+8))
			fields += 24
		}
	}
	return all
}
