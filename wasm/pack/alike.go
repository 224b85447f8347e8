package main

import (
	"encoding/binary"
	"errors"
)

// More sections and opcodes of WebAssembly Core Specification 1.0, sections
// 5.5.2 and 5.4, saturating conversions and bulk memory of 2.0, and two opcodes
// that Go leaves free, for numbers that alike writes in its own way.
const (
	elementSection = 9
	codeSection    = 10

	opBlock, opLoop, opIf      = 0x02, 0x03, 0x04
	opReturnTo, opGoOn         = 0x06, 0x07
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
)

const (
	alikeHead = "alik"
	// What Go's linker calls the first function: funcValueOffset. A place in the
	// code is 65,536 times that, and must fit 31 bits.
	firstFunc = 0x1000
	maxFuncs  = 1<<15 - firstFunc
)

var errCode = errors.New("the code is not as Go writes it")

// alike rewrites a module so that LZMA finds more that is the same in it: what
// is counted from the place where it stands is counted from a fixed one, and
// what grows from call to call is written as the step. static/alike.js is the
// way back.
//
//   - a branch names its target from the outermost block, not the innermost;
//   - the place to return to, which Go's code writes before each call, and the
//     block at which a function goes on, are written as the distance from the
//     last such place;
//   - tables of branches, and the table of functions, as steps above 1;
//   - the sizes of functions are left out: their last end tells.
//
// The first eight bytes are alikeHead and the size of the module.
func alike(module []byte) ([]byte, error) {
	if len(module) < moduleHead {
		return nil, errCode
	}
	w := alikeWriter{in: module, at: moduleHead}
	w.out = binary.LittleEndian.AppendUint32([]byte(alikeHead), uint32(len(module)))
	for w.at < len(module) {
		start := w.at
		id := w.byte()
		size := w.unsigned()
		end := w.at + size
		if w.failed || size < 0 || end > len(module) {
			return nil, errCode
		}
		w.out = append(w.out, module[start:w.at]...)
		switch id {
		case elementSection:
			w.elements()
		case codeSection:
			w.code()
		}
		if w.failed || w.at > end {
			return nil, errCode
		}
		w.out = append(w.out, module[w.at:end]...)
		w.at = end
	}
	return w.out, nil
}

type alikeWriter struct {
	in, out []byte
	at      int // in in
	failed  bool
}

func (w *alikeWriter) byte() byte {
	if w.at >= len(w.in) {
		w.failed = true
		return 0
	}
	w.at++
	return w.in[w.at-1]
}

// unsigned and signed read a number that a module holds as LEB128. Only what is
// written as briefly as can be comes back as it was.
func (w *alikeWriter) unsigned() int {
	v, n := binary.Uvarint(w.in[w.at:])
	if n <= 0 || v >= 1<<31 || n > 1 && w.in[w.at+n-1] == 0 {
		w.failed = true
		return 0
	}
	w.at += n
	return int(v)
}

func (w *alikeWriter) signed() int64 {
	start := w.at
	w.number()
	var v int64
	for i, b := range w.in[start:w.at] {
		v |= int64(b&0x7f) << (7 * i)
	}
	n := w.at - start
	if n == 0 || n > 10 {
		w.failed = true
		return 0
	}
	if n < 10 && w.in[w.at-1]&0x40 != 0 {
		v |= -1 << (7 * n)
	}
	if n > 1 && v == v<<(71-7*n)>>(71-7*n) {
		w.failed = true // a byte fewer would do
	}
	return v
}

// number passes one of either sort.
func (w *alikeWriter) number() {
	for w.byte() >= 0x80 {
	}
}

func (w *alikeWriter) put(v int) { w.out = binary.AppendUvarint(w.out, uint64(v)) }

// putStep writes v, of either sign, as LEB128.
func (w *alikeWriter) putStep(v int) {
	for v < -64 || v > 63 {
		w.out = append(w.out, byte(v)|0x80)
		v >>= 7
	}
	w.out = append(w.out, byte(v)&0x7f)
}

// steps copies a list of count numbers as what each is above the last and 1.
func (w *alikeWriter) steps(count int) {
	for last := -1; count > 0 && !w.failed; count-- {
		v := w.unsigned()
		w.putStep(v - last - 1)
		last = v
	}
}

// elements copies the head of the section, one table from a constant place on.
func (w *alikeWriter) elements() {
	start := w.at
	one, active, op := w.byte(), w.byte(), w.byte()
	w.signed()
	end, count := w.byte(), w.unsigned()
	if one != 1 || active != 0 || op != opConst || end != opEnd {
		w.failed = true
		return
	}
	w.out = append(w.out, w.in[start:w.at]...)
	w.steps(count)
}

func (w *alikeWriter) code() {
	count := w.unsigned()
	w.put(count)
	if count > maxFuncs {
		w.failed = true
	}
	for i := 0; i < count && !w.failed; i++ {
		size := w.unsigned()
		end := w.at + size
		w.function((firstFunc + i) << 16)
		if w.at != end {
			w.failed = true
		}
	}
}

// function copies the code of one function, which Go's code knows as place.
func (w *alikeWriter) function(place int) {
	start := w.at
	for n := w.unsigned(); n > 0 && !w.failed; n-- { // runs of locals of a type
		w.unsigned()
		w.byte()
	}
	w.out = append(w.out, w.in[start:w.at]...)
	block := 0 // where in the function the last call returns to
	for depth := 0; depth >= 0 && !w.failed; {
		start := w.at
		op := w.byte()
		switch op {
		case opReturnTo, opGoOn:
			w.failed = true
		case opEnd:
			depth--
		case opBr, opBrIf:
			w.out = append(w.out, op)
			w.put(depth - w.unsigned())
			continue
		case opBrTable:
			w.out = append(w.out, op)
			n := w.unsigned()
			w.put(n)
			w.steps(n + 1)
			continue
		case opConst64:
			if v := w.signed(); v >= int64(place) && v < int64(place)+1<<16 {
				w.out = append(w.out, opReturnTo)
				w.putStep(int(v) - place - block)
				block = int(v) - place
				continue
			}
		case opConst:
			if v := w.signed(); w.next(opLocalSet, blockLocal) && v >= 0 && v < 1<<16 {
				w.out = append(w.out, opGoOn)
				w.putStep(int(v) - block)
				w.at += 2
				continue
			}
		case opBlock, opLoop, opIf:
			depth++
			w.byte()
		default:
			w.operands(op)
		}
		w.out = append(w.out, w.in[start:w.at]...)
	}
}

func (w *alikeWriter) next(a, b byte) bool {
	return w.at+1 < len(w.in) && w.in[w.at] == a && w.in[w.at+1] == b
}

// operands passes what follows an opcode that is copied as it is.
func (w *alikeWriter) operands(op byte) {
	switch {
	case op == opConstF32:
		w.at += 4
	case op == opConstF64:
		w.at += 8
	case op == opNumeric:
		switch w.byte() {
		case numericCopy:
			w.at += 2 // memories
		case numericFill:
			w.at++
		}
	case op == opCall || op >= opLocalGet && op <= opGlobalSet || op == opMemorySize || op == opMemoryGrow:
		w.number()
	case op == opCallIndirect || op >= opLoad && op < opMemorySize:
		w.number()
		w.number()
	}
	if w.at > len(w.in) {
		w.failed = true
		w.at = len(w.in)
	}
}
