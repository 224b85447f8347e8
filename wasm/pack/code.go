package main

import "encoding/binary"

// More sections and opcodes of WebAssembly Core Specification 1.0, sections
// 5.5.2 and 5.4, saturating conversions and bulk memory of 2.0, and three opcodes
// that Go leaves free, for numbers that alike writes in its own way.
const (
	typeSection     = 1
	importSection   = 2
	functionSection = 3
	tableSection    = 4
	memorySection   = 5
	globalSection   = 6
	exportSection   = 7
	elementSection  = 9
	codeSection     = 10

	opBlock, opLoop, opIf      = 0x02, 0x03, 0x04
	opReturnTo, opGoOn         = 0x06, 0x07
	opCallSlot                 = 0x08
	opBr, opBrIf, opBrTable    = 0x0c, 0x0d, 0x0e
	opCall, opCallIndirect     = 0x10, 0x11
	opLocalGet, opGlobalSet    = 0x20, 0x24 // and what is between them
	opLocalSet, blockLocal     = 0x21, 0x00 // the first local is the block to go on at
	opLoad                     = 0x28       // the first of all loads and stores
	opMemorySize, opMemoryGrow = 0x3f, 0x40
	opConst64                  = 0x42
	opConstF32, opConstF64     = 0x43, 0x44
	opNumeric                  = 0xfc
	numericCopy, numericFill   = 0x0a, 0x0b

	kindFunc, kindTable, kindMemory, kindGlobal = 0, 1, 2, 3
	funcref, varies                             = 0x70, 0x01
	goType                                      = 0 // the linker's first type is that of Go's functions
)

// reader goes over the bytes of a module. What is not as it must be sets failed.
type reader struct {
	in     []byte
	at     int
	failed bool
}

func (r *reader) byte() byte {
	if r.at >= len(r.in) {
		r.failed = true
		return 0
	}
	r.at++
	return r.in[r.at-1]
}

// bytes passes the next n.
func (r *reader) bytes(n int) []byte {
	if n < 0 || n > len(r.in)-r.at {
		r.failed = true
		return nil
	}
	r.at += n
	return r.in[r.at-n : r.at]
}

// unsigned and signed read a number that a module holds as LEB128. Only what is
// written as briefly as can be comes back as it was.
func (r *reader) unsigned() int {
	v, n := binary.Uvarint(r.in[r.at:])
	if n <= 0 || v >= 1<<31 || n > 1 && r.in[r.at+n-1] == 0 {
		r.failed = true
		return 0
	}
	r.at += n
	return int(v)
}

func (r *reader) signed() int64 {
	start := r.at
	r.number()
	var v int64
	for i, b := range r.in[start:r.at] {
		v |= int64(b&0x7f) << (7 * i)
	}
	n := r.at - start
	if n == 0 || n > 10 {
		r.failed = true
		return 0
	}
	if n < 10 && r.in[r.at-1]&0x40 != 0 {
		v |= -1 << (7 * n)
	}
	if n > 1 && v == v<<(71-7*n)>>(71-7*n) {
		r.failed = true // a byte fewer would do
	}
	return v
}

// number passes one of either sort.
func (r *reader) number() {
	for r.byte() >= 0x80 {
	}
}

// operands passes what follows an opcode that is copied as it is.
func (r *reader) operands(op byte) {
	switch {
	case op == opConstF32:
		r.at += 4
	case op == opConstF64:
		r.at += 8
	case op == opNumeric:
		switch r.byte() {
		case numericCopy:
			r.at += 2 // memories
		case numericFill:
			r.at++
		}
	case op == opCall || op >= opLocalGet && op <= opGlobalSet || op == opMemorySize || op == opMemoryGrow:
		r.number()
	case op == opCallIndirect || op >= opLoad && op < opMemorySize:
		r.number()
		r.number()
	}
	if r.at > len(r.in) {
		r.failed = true
		r.at = len(r.in)
	}
}
