package little

import (
	"go/ast"
	"go/token"
	"go/types"
)

func (c *compiler) block(b *ast.BlockStmt) {
	for _, s := range b.List {
		c.stmt(s)
	}
}

func (c *compiler) stmt(s ast.Stmt) {
	switch s := s.(type) {
	case *ast.BlockStmt:
		c.block(s)
	case *ast.AssignStmt:
		c.assign(s)
	case *ast.IncDecStmt:
		c.name(s.X)
		c.emit(opConst, 1, map[token.Token]byte{token.INC: opAdd, token.DEC: opSub}[s.Tok])
		c.set(s.X)
	case *ast.IfStmt:
		c.ifElse(s)
	case *ast.ForStmt:
		c.loop(s)
	case *ast.BranchStmt:
		c.branch(s)
	case *ast.ReturnStmt:
		for _, x := range s.Results {
			c.expr(x)
		}
		c.emit(opReturn)
	case *ast.ExprStmt:
		call, is := s.X.(*ast.CallExpr)
		if !is {
			panic(unknown{s.Pos(), "such a statement"})
		}
		c.callAlone(call)
	default:
		panic(unknown{s.Pos(), "such a statement"})
	}
}

func (c *compiler) assign(s *ast.AssignStmt) {
	if to, is := s.Lhs[0].(*ast.IndexExpr); is && len(s.Lhs) == 1 {
		if s.Tok != token.ASSIGN {
			panic(unknown{s.Pos(), s.Tok.String() + " with an index"})
		}
		c.store(to, s.Rhs[0])
		return
	}
	if call := c.builtin(s.Rhs[0], "make"); call != nil {
		c.make(s, call)
		return
	}
	if len(s.Lhs) != len(s.Rhs) {
		panic(unknown{s.Pos(), "such an assignment"})
	}
	for i, x := range s.Rhs {
		if s.Tok != token.ASSIGN && s.Tok != token.DEFINE {
			c.name(s.Lhs[0])
		}
		c.expr(x)
		if s.Tok == token.DEFINE {
			name := s.Lhs[i].(*ast.Ident)
			v := c.info.Defs[name]
			if v == nil {
				panic(unknown{s.Pos(), ":= with a name that is not new"})
			}
			c.number(s.Pos(), v.Type())
		}
	}
	if s.Tok != token.ASSIGN && s.Tok != token.DEFINE {
		c.operation(s.Pos(), s.Tok-token.ADD_ASSIGN+token.ADD, c.info.TypeOf(s.Lhs[0]))
	}
	for i := len(s.Lhs) - 1; i >= 0; i-- {
		if v := c.info.Defs[ident(s.Lhs[i])]; v != nil {
			c.locals[v] = len(c.locals)
		}
		c.set(s.Lhs[i])
	}
}

// make takes bytes where memory is free. If there is more memory than that already,
// asking for fewer pages than none does nothing.
func (c *compiler) make(s *ast.AssignStmt, call *ast.CallExpr) {
	if s.Tok != token.ASSIGN || len(s.Lhs) != 1 || len(call.Args) != 2 {
		panic(unknown{s.Pos(), "such a make"})
	}
	c.with(opGlobalGet, 0)
	c.set(s.Lhs[0])
	c.with(opGlobalGet, 0)
	c.expr(call.Args[1])
	c.emit(opAdd)
	c.with(opGlobalSet, 0)
	c.with(opGlobalGet, 0)
	c.constant(page - 1)
	c.emit(opAdd)
	c.constant(16)
	c.emit(opShrU, opMemorySize, 0, opSub, opMemoryGrow, 0, opDrop)
}

func (c *compiler) ifElse(s *ast.IfStmt) {
	if s.Init != nil {
		c.stmt(s.Init)
	}
	c.expr(s.Cond)
	c.emit(opIf, empty)
	c.depth++
	c.block(s.Body)
	if s.Else != nil {
		c.emit(opElse)
		c.stmt(s.Else)
	}
	c.depth--
	c.emit(opEnd)
}

func (c *compiler) loop(s *ast.ForStmt) {
	if s.Init != nil {
		c.stmt(s.Init)
	}
	c.emit(opBlock, empty, opLoop, empty)
	c.depth += 2
	l := loop{out: c.depth - 1, again: c.depth}
	if s.Post != nil {
		l.again = -1
	}
	if s.Cond != nil {
		c.expr(s.Cond)
		c.emit(opEqz)
		c.with(opBrIf, 1)
	}
	c.loops = append(c.loops, l)
	c.block(s.Body)
	c.loops = c.loops[:len(c.loops)-1]
	if s.Post != nil {
		c.stmt(s.Post)
	}
	c.with(opBr, 0)
	c.depth -= 2
	c.emit(opEnd, opEnd)
}

func (c *compiler) branch(s *ast.BranchStmt) {
	l := c.loops[len(c.loops)-1]
	to := l.out
	if s.Tok == token.CONTINUE {
		to = l.again
	}
	if s.Label != nil || to < 0 || s.Tok != token.BREAK && s.Tok != token.CONTINUE {
		panic(unknown{s.Pos(), "such a " + s.Tok.String()})
	}
	c.with(opBr, c.depth-to)
}

// callAlone is a call as a statement.
func (c *compiler) callAlone(call *ast.CallExpr) {
	switch {
	case c.builtin(call, "panic") != nil:
		c.emit(opUnreachable)
	case c.builtin(call, "copy") != nil:
		c.copy(call)
	default:
		c.call(call)
		if t, is := c.info.TypeOf(call).(*types.Tuple); !is || t.Len() > 0 {
			c.emit(opDrop)
		}
	}
}

// copy is copy(x[a:b], y[c:]), which copies b-a bytes.
func (c *compiler) copy(call *ast.CallExpr) {
	to, is := call.Args[0].(*ast.SliceExpr)
	from, too := call.Args[1].(*ast.SliceExpr)
	if !is || !too || to.Low == nil || to.High == nil || from.Low == nil || from.High != nil || from.Max != nil || to.Max != nil {
		panic(unknown{call.Pos(), "such a copy"})
	}
	for _, s := range []*ast.SliceExpr{to, from} {
		c.name(s.X)
		c.expr(s.Low)
		c.emit(opAdd)
	}
	c.expr(to.High)
	c.expr(to.Low)
	c.emit(opSub, opNumeric, numericCopy, 0, 0)
}

// builtin gives the call that x is, if it is one of that function of the language.
func (c *compiler) builtin(x ast.Expr, name string) *ast.CallExpr {
	call, is := x.(*ast.CallExpr)
	if !is {
		return nil
	}
	f, is := call.Fun.(*ast.Ident)
	if !is || f.Name != name {
		return nil
	}
	if _, is := c.info.Uses[f].(*types.Builtin); !is {
		return nil
	}
	return call
}

func ident(x ast.Expr) *ast.Ident {
	name, is := x.(*ast.Ident)
	if !is || name.Name == "_" {
		panic(unknown{x.Pos(), "anything but a name here"})
	}
	return name
}

// name writes what a variable holds; of a slice, where it begins.
func (c *compiler) name(x ast.Expr) { c.access(x, opLocalGet, opGlobalGet) }

func (c *compiler) set(x ast.Expr) { c.access(x, opLocalSet, opGlobalSet) }

func (c *compiler) access(x ast.Expr, local, global byte) {
	name := ident(x)
	v := c.info.ObjectOf(name)
	if i, is := c.locals[v]; is {
		c.with(local, i)
		return
	}
	i, is := c.place[v]
	if _, isArray := v.Type().(*types.Array); !is || isArray {
		panic(unknown{x.Pos(), name.Name})
	}
	c.with(global, 1+i)
}
