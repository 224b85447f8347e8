package main

import (
	"encoding/binary"
	"errors"
	"fmt"
)

// firstFunc is the place in the table of a program's first function; Go's linker
// calls it funcValueOffset. A place in the code, which Go calls a PC, is 65,536
// times the function's place in the table, and the block in it.
const firstFunc = 0x1000

var errProgram = errors.New("the module is not as Go's linker writes it")

// program is a module of Go taken apart.
type program struct {
	sections []rawSection
	imports  int      // functions that come from outside, which are numbered first
	types    []int    // of each function of its own
	bodies   [][]byte // likewise
	memory   []byte   // as the program finds it
}

// rawSection is one section of a module.
type rawSection struct {
	id   byte
	body []byte
}

// sectionsOf takes a module apart.
func sectionsOf(module []byte) ([]rawSection, error) {
	if len(module) < moduleHead {
		return nil, errors.New("not a WebAssembly module")
	}
	var all []rawSection
	for rest := module[moduleHead:]; len(rest) > 0; {
		size, n := binary.Uvarint(rest[1:])
		if n <= 0 || size > uint64(len(rest)-1-n) {
			return nil, fmt.Errorf("section %d of the module is cut short", rest[0])
		}
		end := 1 + n + int(size)
		all = append(all, rawSection{rest[0], rest[1+n : end]})
		rest = rest[end:]
	}
	return all, nil
}

// moduleFrom puts sections together.
func moduleFrom(sections []rawSection) []byte {
	out := []byte("\x00asm\x01\x00\x00\x00")
	for _, s := range sections {
		out = binary.AppendUvarint(append(out, s.id), uint64(len(s.body)))
		out = append(out, s.body...)
	}
	return out
}

// readProgram takes a module apart whose data slim has written.
func readProgram(module []byte) (*program, error) {
	sections, err := sectionsOf(module)
	if err != nil {
		return nil, err
	}
	p := &program{sections: sections}
	for _, s := range sections {
		r := reader{in: s.body}
		switch s.id {
		case importSection:
			if p.imports, err = importsIn(s.body); err != nil {
				return nil, err
			}
		case functionSection:
			for n := r.unsigned(); n > 0 && !r.failed; n-- {
				p.types = append(p.types, r.unsigned())
			}
		case codeSection:
			for n := r.unsigned(); n > 0 && !r.failed; n-- {
				p.bodies = append(p.bodies, r.bytes(r.unsigned()))
			}
		case dataSection:
			if p.memory, err = initialMemory(s.body); err != nil {
				return nil, err
			}
		}
		if r.failed {
			return nil, errProgram
		}
	}
	if len(p.types) != len(p.bodies) {
		return nil, errProgram
	}
	return p, nil
}

// importsIn counts imports, which must all be functions.
func importsIn(body []byte) (int, error) {
	r := reader{in: body}
	count := r.unsigned()
	for n := count; n > 0 && !r.failed; n-- {
		r.bytes(r.unsigned())
		r.bytes(r.unsigned())
		if r.byte() != kindFunc {
			return 0, errProgram
		}
		r.unsigned()
	}
	if r.failed {
		return 0, errProgram
	}
	return count, nil
}

// funcAt gives the function that a place in the code lies in, or −1.
func (p *program) funcAt(pc int) int {
	if f := pc>>16 - firstFunc; f >= 0 && f < len(p.bodies) {
		return f
	}
	return -1
}

// An instruction is an opcode with the bytes of its operands. Only the numbers
// that tell about other functions are read.
type instruction struct {
	op    byte
	bytes []byte // all of it
	value int    // of a constant; the function of a call
}

// instructions hands each instruction of a function to f, and gives the bytes
// before the first: its locals.
func instructions(body []byte, f func(instruction)) (locals []byte, err error) {
	r := reader{in: body}
	for n := r.unsigned(); n > 0 && !r.failed; n-- {
		r.unsigned()
		r.byte()
	}
	locals = body[:min(r.at, len(body))]
	for r.at < len(body) && !r.failed {
		start := r.at
		i := instruction{op: r.byte()}
		switch i.op {
		case opBlock, opLoop, opIf:
			r.byte()
		case opBr, opBrIf:
			r.number()
		case opBrTable:
			for n := r.unsigned(); n >= 0 && !r.failed; n-- {
				r.number()
			}
		case opConst, opConst64:
			i.value = int(r.signed())
		case opCall:
			at := r.at
			r.number()
			v, _ := binary.Uvarint(body[at:r.at]) // Go writes a byte more than it must, now and then
			i.value = int(v)
		default:
			r.operands(i.op)
		}
		i.bytes = body[start:r.at]
		f(i)
	}
	if r.failed {
		return nil, errProgram
	}
	return locals, nil
}
