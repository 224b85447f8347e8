package main

import (
	"bytes"
	"encoding/binary"
	"errors"
)

const (
	alikeHead = "alik"
	// A place in the code is 65,536 times the function's place in the table, and
	// must fit 31 bits.
	maxSlot = 1 << 15
)

var errCode = errors.New("the code is not as Go writes it")

// alike rewrites a module so that LZMA finds more that is the same in it: what
// is counted from the place where it stands is counted from a fixed one, and
// what grows from call to call is written as the step. unpack/alike.go is the
// way back.
//
//   - a branch names its target from the outermost block, not the innermost;
//   - the place to return to, which Go's code writes before each call, and the
//     block at which a function goes on, are written as the distance from the
//     last such place;
//   - tables of branches as steps above 1; of the table of functions, which has
//     them in their order, only where its parts begin and how long they are;
//   - a call through a known place of the table is one number;
//   - the sizes of functions are left out: their last end tells.
//
// The first eight bytes are alikeHead and the size of the module.
func alike(module []byte) ([]byte, error) {
	if len(module) < moduleHead {
		return nil, errCode
	}
	w := alikeWriter{reader: reader{in: module, at: moduleHead}}
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
	reader
	out   []byte
	slots []int // of the functions, in their order: where the table has them
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

// elements copies the parts of the one table, whose functions must be all there
// are, in their order.
func (w *alikeWriter) elements() {
	parts := w.unsigned()
	w.put(parts)
	for first := -1; parts > 0 && !w.failed; parts-- {
		start := w.at
		active, op := w.byte(), w.byte()
		slot := int(w.signed())
		end, count := w.byte(), w.unsigned()
		if active != 0 || op != opConst || end != opEnd || slot < 0 || slot+count > maxSlot || len(w.slots)+count > maxSlot {
			w.failed = true
			return
		}
		w.out = append(w.out, w.in[start:w.at]...)
		for ; count > 0 && !w.failed; count-- {
			v := w.unsigned()
			if first < 0 {
				first = v
				w.put(v)
			}
			w.failed = w.failed || v != first+len(w.slots)
			w.slots = append(w.slots, slot)
			slot++
		}
	}
}

func (w *alikeWriter) code() {
	count := w.unsigned()
	w.put(count)
	if count != len(w.slots) {
		w.failed = true
	}
	for i := 0; i < count && !w.failed; i++ {
		size := w.unsigned()
		end := w.at + size
		w.function(w.slots[i] << 16)
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
		case opReturnTo, opGoOn, opCallSlot:
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
			v := w.signed()
			if v >= 0 && v < 1<<16 && w.next(opLocalSet, blockLocal) {
				w.out = append(w.out, opGoOn)
				w.putStep(int(v) - block)
				w.at += 2
				continue
			}
			if v >= 0 && w.next(opCallIndirect, goType, 0) {
				w.out = append(w.out, opCallSlot)
				w.put(int(v))
				w.at += 3
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

func (w *alikeWriter) next(what ...byte) bool { return bytes.HasPrefix(w.in[w.at:], what) }
