package unpack

// Module is the module that wasm/pack wrote with parts that are more alike
// (alike.go there says how), or the text itself where that was not, and Size its
// size. Opcodes and sections are those of the WebAssembly Core Specification, 5.4
// and 5.5.2.
var (
	Module []byte
	Size   uint32

	isPlain uint32 // the text is not a module written alike
	from    uint32 // how much of Text is read
	to      uint32 // how much of Module is written

	stop  uint32 // where in Module the section at hand ends
	funcs uint32 // how many functions it still has
	// Where in the table each function stands, which is what Go knows it as.
	places          [1 << 15]uint16
	placed, written uint32
)

const (
	alik      = 0x6b696c61
	wasmHead  = 8
	elements  = 9
	functions = 10
)

// restore writes as much of the module as there is text for.
func restore() {
	if Size == 0 && isPlain == 0 {
		if done < wasmHead && done < size {
			return
		}
		start()
	}
	for to < Size && isPlain == 0 {
		begun := to
		if to == stop {
			section()
		} else if funcs > 0 {
			function()
		} else {
			rest()
		}
		if to == begun {
			break // it needs more
		}
	}
}

func checkModule() {
	if isPlain == 0 && (to != Size || stop != Size || from != size || funcs > 0) {
		panic("the module is damaged")
	}
}

func start() {
	if size < wasmHead || word(0) != alik {
		isPlain = 1
		Module = Text
		Size = size
		return
	}
	Size = word(4)
	if Size < wasmHead || Size > large {
		panic("the module has no size")
	}
	Module = make([]byte, Size+slack) // the last function may reach beyond until its size is there
	Module[1] = 'a'
	Module[2] = 's'
	Module[3] = 'm'
	Module[4] = 1
	from = wasmHead
	to = wasmHead
	stop = wasmHead
}

func word(i uint32) uint32 {
	return uint32(Text[i]) | uint32(Text[i+1])<<8 | uint32(Text[i+2])<<16 | uint32(Text[i+3])<<24
}

// rest copies what is as it was.
func rest() {
	n := least(stop-to, done-from)
	copy(Module[to:to+n], Text[from:])
	from += n
	to += n
}

// section begins one. It waits for all the places of functions.
func section() {
	wasFrom, wasTo := from, to
	id := uint32(Text[from])
	copyBytes(1)
	length := copyNumber()
	ahead := uint32(16) // as much as a section may begin with
	if id == elements {
		ahead += length
	}
	if done < size && done-wasFrom < ahead {
		from, to = wasFrom, wasTo
		return
	}
	if to > Size || length > Size-to {
		panic("a section is longer than the module")
	}
	stop = to + length
	if id == elements {
		table()
	} else if id == functions {
		funcs = copyNumber()
		if funcs != placed {
			panic("functions without a place")
		}
		written = 0
	}
	if to > stop || from > done {
		panic("a section is too short")
	}
}

// table restores the parts of the one table.
func table() {
	first := uint32(0)
	for parts := copyNumber(); parts > 0; parts-- {
		if to > stop {
			panic("the table is longer than its section")
		}
		copyBytes(2)
		place := number() // never below 0
		putSigned(place)
		copyBytes(1)
		for count := copyNumber(); count > 0; count-- {
			if to > stop || placed == 1<<15 {
				panic("more functions than there can be")
			}
			if placed == 0 {
				first = number()
			}
			put(first + placed)
			places[placed] = uint16(place)
			place++
			placed++
		}
	}
}

// function restores the next one, unless its end is still to come.
func function() {
	wasFrom, wasTo := from, to
	to += 5 // for its size
	if body(uint32(places[written])<<16) == 0 {
		if done == size {
			panic("a function has no end")
		}
		from, to = wasFrom, wasTo
		return
	}
	n := to - wasTo - 5
	to = wasTo
	put(n)
	if to > stop || n > stop-to {
		panic("a function is longer than its section")
	}
	copy(Module[to:to+n], Module[wasTo+5:])
	to += n
	funcs--
	written++
}

// body restores the code of a function that Go knows as place. It returns 0
// where the text ends first.
func body(place uint32) uint32 {
	for runs := copyNumber(); runs > 0 && from < done; runs-- {
		copyNumber()
		copyBytes(1)
	}
	block, depth := uint32(0), uint32(1) // where the last call returns to; blocks that are open
	for depth > 0 {
		if from >= done || to >= stop+8 {
			return 0
		}
		op := uint32(Text[from])
		from++
		if op >= 0x20 || op < 0x02 {
			putByte(op)
			operands(op)
		} else if op == 0x06 { // the place to return to
			block += step()
			putByte(0x42)
			putSigned(place + block)
		} else if op == 0x07 { // the block to go on at
			putByte(0x41)
			putSigned(block + step())
			putByte(0x21)
			putByte(0)
		} else {
			depth = control(op, depth)
		}
	}
	return 1
}

// control restores what leads elsewhere, or where blocks begin and end, and returns
// how many are open behind it.
func control(op, depth uint32) uint32 {
	if op == 0x08 { // a call through a known place of the table
		putByte(0x41)
		putSigned(number())
		putByte(0x11)
		putByte(0)
		putByte(0)
		return depth
	}
	putByte(op)
	if op == 0x0c || op == 0x0d {
		put(depth - 1 - number())
	} else if op <= 0x04 {
		copyBytes(1)
		return depth + 1
	} else if op == 0x0b {
		return depth - 1
	} else if op == 0x0e {
		steps(copyNumber() + 1)
	} else if op == 0x10 {
		copyNumber()
	} else if op == 0x11 {
		copyNumber()
		copyNumber()
	}
	return depth
}

// operands copies what follows an opcode that it always follows.
func operands(op uint32) {
	if op >= 0x20 && op <= 0x24 || op >= 0x3f && op <= 0x42 {
		copyNumber()
	} else if op >= 0x28 && op <= 0x3e {
		copyNumber()
		copyNumber()
	} else if op == 0x43 {
		copyBytes(4)
	} else if op == 0x44 {
		copyBytes(8)
	} else if op == 0xfc {
		numeric(uint32(Text[from]))
	}
}

// numeric copies the second part of an opcode of two, and what follows: two
// memories, one, or nothing.
func numeric(op uint32) {
	if op == 0x0a {
		copyBytes(3)
	} else if op == 0x0b {
		copyBytes(2)
	} else {
		copyBytes(1)
	}
}
