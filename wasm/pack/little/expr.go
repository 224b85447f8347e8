package little

import (
	"go/ast"
	"go/constant"
	"go/token"
	"go/types"
)

// Opcodes of WebAssembly Core Specification 1.0, 5.4; memory.copy is of 2.0.
const (
	opUnreachable                = 0x00
	opBlock, opLoop              = 0x02, 0x03
	opIf, opElse, opEnd          = 0x04, 0x05, 0x0b
	opBr, opBrIf                 = 0x0c, 0x0d
	opReturn, opCall, opDrop     = 0x0f, 0x10, 0x1a
	opLocalGet, opLocalSet       = 0x20, 0x21
	opGlobalGet, opGlobalSet     = 0x23, 0x24
	opLoad, opLoad8, opLoad16    = 0x28, 0x2d, 0x2f
	opStore, opStore8, opStore16 = 0x36, 0x3a, 0x3b
	opMemorySize, opMemoryGrow   = 0x3f, 0x40
	opConst, opEqz               = 0x41, 0x45
	opAdd, opSub                 = 0x6a, 0x6b
	opAnd, opXor, opShl          = 0x71, 0x73, 0x74
	opShrS, opShrU               = 0x75, 0x76
	opNumeric, numericCopy       = 0xfc, 0x0a

	empty = 0x40 // a block without a result
)

// What each operation of uint32 is.
var operations = map[token.Token]byte{
	token.ADD: opAdd, token.SUB: opSub, token.MUL: 0x6c, token.QUO: 0x6e, token.REM: 0x70,
	token.AND: opAnd, token.OR: 0x72, token.XOR: opXor, token.SHL: opShl, token.SHR: opShrU,
	token.EQL: 0x46, token.NEQ: 0x47, token.LSS: 0x49, token.GTR: 0x4b, token.LEQ: 0x4d, token.GEQ: 0x4f,
}

func (c *compiler) expr(x ast.Expr) {
	if v := c.info.Types[x].Value; v != nil {
		n, exact := constant.Int64Val(constant.ToInt(v))
		if !exact || v.Kind() != constant.Int {
			panic(unknown{x.Pos(), "such a constant"})
		}
		c.constant(n)
		return
	}
	switch x := x.(type) {
	case *ast.ParenExpr:
		c.expr(x.X)
	case *ast.Ident:
		c.name(x)
	case *ast.BinaryExpr:
		c.binary(x)
	case *ast.IndexExpr:
		i := c.address(x)
		c.emit([]byte{opLoad8, opLoad16, opLoad}[i], byte(i))
		c.code = append(c.code, unsigned(c.offset(x))...)
	case *ast.CallExpr:
		if c.info.Types[x.Fun].IsType() {
			c.conversion(x)
		} else {
			c.call(x)
		}
	default:
		panic(unknown{x.Pos(), "such an expression"})
	}
}

func (c *compiler) constant(n int64) { c.code = signed(append(c.code, opConst), n) }

// binary writes an operation. The second half of a condition is worked out only
// if the first does not tell, as in Go.
func (c *compiler) binary(x *ast.BinaryExpr) {
	c.expr(x.X)
	switch x.Op {
	case token.LAND:
		c.emit(opIf, typeI32)
		c.expr(x.Y)
		c.emit(opElse, opConst, 0, opEnd)
	case token.LOR:
		c.emit(opIf, typeI32, opConst, 1, opElse)
		c.expr(x.Y)
		c.emit(opEnd)
	default:
		c.expr(x.Y)
		c.operation(x.Pos(), x.Op, c.info.TypeOf(x.X))
	}
}

// operation writes what is done with the two numbers of type t before it.
func (c *compiler) operation(pos token.Pos, op token.Token, t types.Type) {
	code, is := operations[op]
	switch {
	case op == token.AND_NOT && t == types.Typ[types.Uint32]:
		c.emit(opConst, 0x7f, opXor, opAnd)
	case op == token.SHR && t == types.Typ[types.Int32]:
		c.emit(opShrS)
	case is && t == types.Typ[types.Uint32]:
		c.emit(code)
	default:
		panic(unknown{pos, op.String() + " of " + t.String()})
	}
}

// conversion writes a number that stays as it is: those of arrays are read as
// numbers of 32 bits.
func (c *compiler) conversion(x *ast.CallExpr) {
	to := c.info.TypeOf(x)
	if to != types.Typ[types.Uint32] && to != types.Typ[types.Int32] {
		panic(unknown{x.Pos(), "a conversion to " + to.String()})
	}
	c.expr(x.Args[0])
}

func (c *compiler) call(x *ast.CallExpr) {
	for _, arg := range x.Args {
		c.expr(arg)
	}
	name := ident(x.Fun)
	if _, is := c.info.Uses[name].(*types.Func); !is {
		panic(unknown{x.Pos(), "a call of " + name.Name})
	}
	c.with(opCall, c.place[c.info.Uses[name]])
}

// store writes x = value for an element. Only here a number is cut to fewer bits.
func (c *compiler) store(x *ast.IndexExpr, value ast.Expr) {
	i := c.address(x)
	if call, is := value.(*ast.CallExpr); is && c.info.Types[call.Fun].IsType() && c.info.Types[value].Value == nil {
		value = call.Args[0]
	}
	c.expr(value)
	c.emit([]byte{opStore8, opStore16, opStore}[i], byte(i))
	c.code = append(c.code, unsigned(c.offset(x))...)
}

// address writes where an element is, counted from offset, and returns the
// logarithm of its width.
func (c *compiler) address(x *ast.IndexExpr) int {
	width := c.width(x.Pos(), c.info.TypeOf(x))
	if _, is := c.info.TypeOf(x.X).(*types.Slice); is {
		c.name(x.X)
		c.expr(x.Index)
		c.emit(opAdd)
		return 0
	}
	c.expr(x.Index)
	if width > 1 {
		c.emit(opConst, byte(width/2), opShl)
	}
	return width / 2
}

func (c *compiler) offset(x *ast.IndexExpr) int {
	if _, is := c.info.TypeOf(x.X).(*types.Slice); is {
		return 0
	}
	return c.place[c.info.Uses[ident(x.X)]]
}
