package little

import (
	"encoding/binary"
	"go/ast"
	"go/types"
	"math"
)

// Sections and types of WebAssembly Core Specification 1.0, 5.5 and 5.3.
const (
	typeSection, funcSection, memorySection      = 1, 3, 5
	globalSection, exportSection, codeSection    = 6, 7, 10
	typeI32, typeFunc                            = 0x7f, 0x60
	exportedFunc, exportedMemory, exportedGlobal = 0, 2, 3
	page                                         = 1 << 16
)

func (c *compiler) module() []byte {
	var bodies, kinds, exports [][]byte
	for i, f := range c.funcs {
		kinds = append(kinds, unsigned(c.kind(f)))
		bodies = append(bodies, c.body(f))
		if f.Name.IsExported() {
			exports = append(exports, export(f.Name.Name, exportedFunc, i))
		}
	}
	exports = append(exports, export("memory", exportedMemory, 0))
	start := (c.memory + 15) / 16 * 16
	globals := [][]byte{global(true, start)} // where memory is free, the first behind all variables
	for i, v := range c.vars {
		globals = append(globals, global(true, 0))
		if v.Exported() {
			exports = append(exports, export(v.Name(), exportedGlobal, 1+i))
		}
	}
	for _, v := range c.arrays {
		if v.Exported() {
			exports = append(exports, export(v.Name(), exportedGlobal, len(globals)))
			globals = append(globals, global(false, c.place[v]))
		}
	}
	var types [][]byte
	for _, k := range c.kinds {
		t := append([]byte{typeFunc, byte(k / 2)}, repeated(typeI32, k/2)...)
		types = append(types, append(append(t, byte(k%2)), repeated(typeI32, k%2)...))
	}
	m := []byte("\x00asm\x01\x00\x00\x00")
	m = section(m, typeSection, types)
	m = section(m, funcSection, kinds)
	m = section(m, memorySection, [][]byte{append([]byte{0}, unsigned((start+page-1)/page)...)})
	m = section(m, globalSection, globals)
	m = section(m, exportSection, exports)
	return section(m, codeSection, bodies)
}

func repeated(b byte, n int) []byte {
	if n == 0 {
		return nil
	}
	return append(repeated(b, n-1), b)
}

func section(m []byte, id byte, parts [][]byte) []byte {
	body := unsigned(len(parts))
	for _, p := range parts {
		body = append(body, p...)
	}
	return append(append(append(m, id), unsigned(len(body))...), body...)
}

func export(name string, kind byte, place int) []byte {
	out := append(unsigned(len(name)), name...)
	return append(append(out, kind), unsigned(place)...)
}

func global(isVariable bool, value int) []byte {
	out := []byte{typeI32, 0, opConst}
	if isVariable {
		out[1] = 1
	}
	return append(signed(out, int64(value)), opEnd)
}

// kind finds or makes the type of a function.
func (c *compiler) kind(f *ast.FuncDecl) int {
	sig := c.info.Defs[f.Name].Type().(*types.Signature)
	for v := range sig.Params().Variables() {
		c.number(f.Pos(), v.Type())
	}
	for v := range sig.Results().Variables() {
		c.number(f.Pos(), v.Type())
		if sig.Results().Len() > 1 || v.Name() != "" {
			panic(unknown{f.Pos(), "such a result"})
		}
	}
	k := 2*sig.Params().Len() + sig.Results().Len()
	for i, had := range c.kinds {
		if had == k {
			return i
		}
	}
	c.kinds = append(c.kinds, k)
	return len(c.kinds) - 1
}

// body writes a function: its local variables, and its code.
func (c *compiler) body(f *ast.FuncDecl) []byte {
	c.function = function{locals: map[types.Object]int{}}
	sig := c.info.Defs[f.Name].Type().(*types.Signature)
	for v := range sig.Params().Variables() {
		c.locals[v] = len(c.locals)
	}
	c.block(f.Body)
	if sig.Results().Len() > 0 {
		c.emit(opUnreachable) // every way out was a return
	}
	c.emit(opEnd)
	head := []byte{0}
	if n := len(c.locals) - sig.Params().Len(); n > 0 {
		head = append(append([]byte{1}, unsigned(n)...), typeI32)
	}
	return append(append(unsigned(len(head)+len(c.code)), head...), c.code...)
}

func (c *compiler) emit(code ...byte) { c.code = append(c.code, code...) }

// with writes an opcode and a number without sign.
func (c *compiler) with(op byte, n int) { c.code = append(append(c.code, op), unsigned(n)...) }

func unsigned(n int) []byte { return binary.AppendUvarint(nil, uint64(n)) }

// signed adds a number as LEB128 with a sign.
func signed(out []byte, v int64) []byte {
	v = int64(int32(uint32(v & math.MaxUint32)))
	for v < -64 || v > 63 {
		out = append(out, byte(v)|0x80)
		v >>= 7
	}
	return append(out, byte(v)&0x7f)
}
