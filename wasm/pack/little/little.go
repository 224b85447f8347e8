// Package little compiles a little of Go to WebAssembly without a runtime: what
// a program of some hundred lines over numbers and bytes needs. What it does not
// know it refuses by line; it never compiles to something else.
//
// It knows
//
//   - constants; variables of the package without a value to begin with; functions
//     with parameters and at most one result, unnamed;
//   - uint32, and int32 for >> alone; bool in conditions;
//   - arrays of byte, uint16 and uint32 and slices of byte, of the package alone,
//     by index; x = make([]byte, n); copy(x[a:b], y[c:]);
//   - =, := and op= with names, several at once too; if; for without range; break,
//     and continue where the loop has no third part; return; panic.
//
// Two things differ from Go. An index is not checked against its array: only what
// is beyond all memory traps. And shifts are taken modulo 32, so they have to be
// less.
//
// What the package exports the module exports: functions; numbers and slices (where
// one begins) as variable globals; arrays (where one begins) as constant ones; and
// memory.
package little

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"go/types"
	"os"
	"path/filepath"
	"strings"
)

// An unknown is where the source has what this package does not know.
type unknown struct {
	pos  token.Pos
	what string
}

type compiler struct {
	files *token.FileSet
	info  types.Info

	funcs  []*ast.FuncDecl
	place  map[types.Object]int // of a function, a variable or an array, in its own kind
	vars   []*types.Var
	arrays []*types.Var
	memory int   // bytes that arrays take
	kinds  []int // of functions: twice the parameters, and 1 for a result
	function
}

// A function as it is written.
type function struct {
	code   []byte
	locals map[types.Object]int
	depth  int // blocks that are open
	loops  []loop
}

// A loop knows at which depth it can be left, and where it begins again; or -1.
type loop struct{ out, again int }

// Compile makes a module of the package in dir, without its tests.
func Compile(dir string) (module []byte, err error) {
	c := &compiler{files: token.NewFileSet(), place: map[types.Object]int{}}
	c.info = types.Info{Types: map[ast.Expr]types.TypeAndValue{}, Defs: map[*ast.Ident]types.Object{}, Uses: map[*ast.Ident]types.Object{}}
	files, err := c.parse(dir)
	if err != nil {
		return nil, err
	}
	if _, err := (&types.Config{}).Check("little", c.files, files, &c.info); err != nil {
		return nil, err
	}
	defer func() {
		if found := recover(); found != nil {
			u, is := found.(unknown)
			if !is {
				panic(found)
			}
			module, err = nil, fmt.Errorf("%s: %s is not in the little Go that can be compiled", c.files.Position(u.pos), u.what)
		}
	}()
	for _, f := range files {
		for _, d := range f.Decls {
			c.declare(d)
		}
	}
	return c.module(), nil
}

func (c *compiler) parse(dir string) ([]*ast.File, error) {
	names, err := filepath.Glob(filepath.Join(dir, "*.go"))
	if err != nil {
		return nil, err
	}
	var files []*ast.File
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		source, err := os.ReadFile(name)
		if err != nil {
			return nil, err
		}
		f, err := parser.ParseFile(c.files, filepath.Base(name), source, parser.SkipObjectResolution)
		if err != nil {
			return nil, err
		}
		files = append(files, f)
	}
	return files, nil
}

func (c *compiler) declare(d ast.Decl) {
	switch d := d.(type) {
	case *ast.FuncDecl:
		if d.Recv != nil || d.Body == nil || d.Type.TypeParams != nil {
			panic(unknown{d.Pos(), "such a function"})
		}
		c.place[c.info.Defs[d.Name]] = len(c.funcs)
		c.funcs = append(c.funcs, d)
	case *ast.GenDecl:
		if d.Tok == token.CONST {
			return
		}
		for _, spec := range d.Specs {
			v, is := spec.(*ast.ValueSpec)
			if !is || v.Values != nil {
				panic(unknown{spec.Pos(), "such a declaration"})
			}
			for _, name := range v.Names {
				c.variable(c.info.Defs[name].(*types.Var))
			}
		}
	}
}

func (c *compiler) variable(v *types.Var) {
	switch t := v.Type().(type) {
	case *types.Array:
		size := c.width(v.Pos(), t.Elem())
		c.memory = (c.memory + size - 1) / size * size
		c.place[v] = c.memory
		c.memory += size * int(t.Len())
		c.arrays = append(c.arrays, v)
	case *types.Slice:
		if c.width(v.Pos(), t.Elem()) != 1 {
			panic(unknown{v.Pos(), "such a slice"})
		}
		c.place[v] = len(c.vars)
		c.vars = append(c.vars, v)
	default:
		c.number(v.Pos(), t)
		c.place[v] = len(c.vars)
		c.vars = append(c.vars, v)
	}
}

// width is how many bytes an element takes.
func (c *compiler) width(pos token.Pos, t types.Type) int {
	if b, is := t.(*types.Basic); is {
		switch b.Kind() {
		case types.Byte:
			return 1
		case types.Uint16:
			return 2
		case types.Uint32:
			return 4
		}
	}
	panic(unknown{pos, "an array of " + t.String()})
}

// number refuses whatever a local variable, a parameter or a result cannot be.
func (c *compiler) number(pos token.Pos, t types.Type) {
	if t != types.Typ[types.Uint32] {
		panic(unknown{pos, "a variable of " + t.String()})
	}
}
