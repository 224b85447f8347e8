package main

import (
	"encoding/binary"
	"errors"
)

// Section numbers and opcodes of WebAssembly Core Specification 1.0, sections
// 5.5.2 and 5.4.
const (
	dataSection  = 11
	moduleHead   = 8 // magic and version
	opConst      = 0x41
	opEnd        = 0x0b
	inMemoryZero = 0
)

// restGap is how many zero bytes in a row end a piece of the data section.
// Memory begins as zeros, so they need not be written; Go's linker leaves out
// eight already, and the heads of 65,000 tiny pieces weigh more, packed, than
// the zeros that they spare.
const restGap = 256

// slim rewrites the data section of a module: few large pieces instead of many
// small ones, and none of the tables that dropLines drops. The memory that the
// program starts with is the same but for those.
func slim(module []byte, version string) ([]byte, error) {
	sections, err := sectionsOf(module)
	if err != nil {
		return nil, err
	}
	for i, s := range sections {
		if s.id != dataSection {
			continue
		}
		memory, err := initialMemory(s.body)
		if err != nil {
			return nil, err
		}
		if err := dropLines(memory, version); err != nil {
			return nil, err
		}
		sections[i].body = pieces(memory)
	}
	return moduleFrom(sections), nil
}

// initialMemory lays the pieces of a data section out as the program finds them.
func initialMemory(body []byte) ([]byte, error) {
	wrong := errors.New("the data section is not as Go writes it")
	var memory []byte
	next := func() int {
		v, n := binary.Uvarint(body)
		if n <= 0 || v > 1<<31 {
			body = nil
			return -1
		}
		body = body[n:]
		return int(v)
	}
	for count := next(); count > 0; count-- {
		if len(body) < 2 || body[0] != inMemoryZero || body[1] != opConst {
			return nil, wrong
		}
		body = body[2:]
		at := next()
		if at < 0 || len(body) == 0 || body[0] != opEnd {
			return nil, wrong
		}
		body = body[1:]
		size := next()
		if size < 0 || size > len(body) {
			return nil, wrong
		}
		if more := at + size - len(memory); more > 0 {
			memory = append(memory, make([]byte, more)...)
		}
		copy(memory[at:], body[:size])
		body = body[size:]
	}
	if len(body) > 0 {
		return nil, wrong
	}
	return memory, nil
}

// pieces writes memory as the body of a data section.
func pieces(memory []byte) []byte {
	return piecesOf(memory, restGap, func(at int) bool { return memory[at] != 0 })
}

// piecesOf writes the bytes of memory that are wanted, and up to gap of those
// between them, as the body of a data section.
func piecesOf(memory []byte, gap int, wanted func(at int) bool) []byte {
	var body []byte
	count := 0
	for at := 0; ; count++ {
		for at < len(memory) && !wanted(at) {
			at++
		}
		if at == len(memory) {
			break
		}
		end := at // just behind the last byte that is wanted
		for i := at; i < len(memory) && i-end < gap; i++ {
			if wanted(i) {
				end = i + 1
			}
		}
		body = append(body, inMemoryZero, opConst)
		body = append(appendSigned(body, at), opEnd)
		body = binary.AppendUvarint(body, uint64(end-at))
		body = append(body, memory[at:end]...)
		at = end
	}
	return append(binary.AppendUvarint(nil, uint64(count)), body...)
}

// appendSigned writes v ≥ 0 as signed LEB128, where bit 6 of the last byte is
// the sign: specification 5.2.2.
func appendSigned(b []byte, v int) []byte {
	b = binary.AppendUvarint(b, uint64(v))
	if last := &b[len(b)-1]; *last&0x40 != 0 {
		*last |= 0x80
		b = append(b, 0)
	}
	return b
}
