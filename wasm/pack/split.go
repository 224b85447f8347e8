package main

import (
	"encoding/binary"
	"strconv"
)

// split makes two modules of one that slim has written: the first holds what
// runs from the start, the second the functions that are late, by number. The
// second is made with what the first exports: its memory, its table of functions
// and its globals, which are the registers of Go's machine.
//
// All functions keep their places in the table, which are their addresses as Go
// knows them. Between the parts they call one another through the table; the
// second fills its own places when it is made, and before that they are empty.
// What describes a late function to the collector and to traces comes with it:
// nobody asks before it runs.
func split(p *program, late []bool, version string) (first, second []byte, err error) {
	s := splitter{p: p, late: late, numbers: make([]int, len(late))}
	count := [2]int{p.imports, 0}
	for f := range late {
		s.numbers[f] = count[part(late[f])]
		count[part(late[f])]++
	}
	memory, lateData, err := splitMemory(p, late, version)
	if err != nil {
		return nil, nil, err
	}
	var out [2][]rawSection
	for _, section := range p.sections {
		switch section.id {
		case exportSection:
			if section.body, err = s.exportAll(section.body); err != nil {
				return nil, nil, err
			}
		case functionSection:
			section.body = s.functions(0)
		case elementSection:
			section.body = s.elements(0)
		case codeSection:
			if section.body, err = s.code(0); err != nil {
				return nil, nil, err
			}
		case dataSection:
			section.body = pieces(memory)
		}
		out[0] = append(out[0], section)
		if section.id == typeSection {
			out[1] = append(out[1], section)
		}
	}
	code, err := s.code(1)
	if err != nil {
		return nil, nil, err
	}
	imports, err := s.importAll()
	if err != nil {
		return nil, nil, err
	}
	out[1] = append(
		out[1],
		rawSection{importSection, imports},
		rawSection{functionSection, s.functions(1)},
		rawSection{elementSection, s.elements(1)},
		rawSection{codeSection, code},
		rawSection{dataSection, lateData},
	)
	return moduleFrom(out[0]), moduleFrom(out[1]), nil
}

type splitter struct {
	p       *program
	late    []bool
	numbers []int // of each function in its part
}

func part(late bool) int {
	if late {
		return 1
	}
	return 0
}

func (s *splitter) functions(of int) []byte {
	var body []byte
	count := 0
	for f, t := range s.p.types {
		if part(s.late[f]) == of {
			body = binary.AppendUvarint(body, uint64(t))
			count++
		}
	}
	return append(binary.AppendUvarint(nil, uint64(count)), body...)
}

// elements puts the functions of a part into the table.
func (s *splitter) elements(of int) []byte {
	var body []byte
	runs := 0
	for f := 0; f < len(s.late); {
		if part(s.late[f]) != of {
			f++
			continue
		}
		end := f
		for end < len(s.late) && part(s.late[end]) == of {
			end++
		}
		body = append(body, 0, opConst)
		body = append(appendSigned(body, firstFunc+f), opEnd)
		body = binary.AppendUvarint(body, uint64(end-f))
		for ; f < end; f++ {
			body = binary.AppendUvarint(body, uint64(s.numbers[f]))
		}
		runs++
	}
	return append(binary.AppendUvarint(nil, uint64(runs)), body...)
}

// code writes the functions of a part anew: calls within it by their new
// numbers, others through the table.
func (s *splitter) code(of int) ([]byte, error) {
	var all []byte
	count := 0
	for f, body := range s.p.bodies {
		if part(s.late[f]) != of {
			continue
		}
		count++
		var code []byte
		locals, err := instructions(body, func(i instruction) {
			callee := i.value - s.p.imports
			switch {
			case i.op != opCall || callee < 0:
				code = append(code, i.bytes...)
			case callee >= len(s.late):
			case part(s.late[callee]) == of:
				code = binary.AppendUvarint(append(code, opCall), uint64(s.numbers[callee]))
			default:
				code = appendSigned(append(code, opConst), firstFunc+callee)
				code = append(binary.AppendUvarint(append(code, opCallIndirect), uint64(s.p.types[callee])), 0)
			}
		})
		if err != nil {
			return nil, err
		}
		all = binary.AppendUvarint(all, uint64(len(locals)+len(code)))
		all = append(append(all, locals...), code...)
	}
	return append(binary.AppendUvarint(nil, uint64(count)), all...), nil
}

// The names by which the second part finds what it shares with the first; the
// memory is called mem by Go's linker, and the globals are called by numbers.
const (
	sharedMemory = "mem"
	sharedTable  = "table"
	globals      = 8
)

func appendName(b []byte, name string) []byte {
	return append(binary.AppendUvarint(b, uint64(len(name))), name...)
}

// exportAll adds the table and the globals to what a module exports, and gives
// the functions among that their new numbers.
func (s *splitter) exportAll(body []byte) ([]byte, error) {
	r := reader{in: body}
	count := r.unsigned()
	out := binary.AppendUvarint(nil, uint64(count+1+globals))
	for ; count > 0 && !r.failed; count-- {
		name := r.bytes(r.unsigned())
		kind, number := r.byte(), r.unsigned()
		if f := number - s.p.imports; kind == kindFunc && f >= 0 {
			if f >= len(s.late) || s.late[f] {
				return nil, errProgram
			}
			number = s.numbers[f]
		}
		out = binary.AppendUvarint(append(appendName(out, string(name)), kind), uint64(number))
	}
	if r.failed {
		return nil, errProgram
	}
	out = append(appendName(out, sharedTable), kindTable, 0)
	for g := range globals {
		out = append(appendName(out, strconv.Itoa(g)), kindGlobal, byte(g))
	}
	return out, nil
}

// importAll writes what the second part imports. The least sizes of memory and
// table are those of the first part.
func (s *splitter) importAll() ([]byte, error) {
	out := binary.AppendUvarint(nil, 2+globals)
	for _, section := range s.p.sections {
		r := reader{in: section.body}
		switch section.id {
		case tableSection:
			if r.byte() != 1 {
				return nil, errProgram
			}
			out = append(appendName(appendName(out, ""), sharedTable), kindTable)
			out = append(out, section.body[1:]...)
		case memorySection:
			if r.byte() != 1 {
				return nil, errProgram
			}
			out = append(appendName(appendName(out, ""), sharedMemory), kindMemory)
			out = append(out, section.body[1:]...)
		case globalSection:
			if r.byte() != globals {
				return nil, errProgram
			}
			for g := range globals {
				kind, mutable := r.byte(), r.byte()
				r.byte() // a constant
				r.signed()
				if r.byte() != opEnd || mutable != 1 {
					return nil, errProgram
				}
				out = append(appendName(appendName(out, ""), strconv.Itoa(g)), kindGlobal, kind, mutable)
			}
		}
		if r.failed {
			return nil, errProgram
		}
	}
	return out, nil
}
