package main

import (
	"fmt"
	"slices"
	"strings"
)

// doors are the functions that nobody calls before the second part of the engine
// is there. A function whose every way leads through a door comes with that part.
// Package page has one alone: it makes what the rest of the page reaches all such
// functions by, so that the page cannot come to one too soon.
var doors = []string{"splittally/wasm/page.(*page).wake"}

// isDoor says that a function is one of names, or a function literal in one.
func isDoor(name string, names []string) bool {
	for {
		if slices.Contains(names, name) {
			return true
		}
		dot := strings.LastIndexByte(name, '.')
		if dot < 0 {
			return false
		}
		name = name[:dot]
	}
}

// ways finds the functions that can run while those behind the doors can not.
// It follows whatever may lead from one to another:
//
//   - a call;
//   - the address of a function value, of a table of an interface's methods
//     (itab) or of a type in its code: a type leads to those of its methods that
//     have the name of an interface's, which a conversion at run time may look
//     up, and to what compares and hashes it;
//   - the same addresses anywhere in data, which may be reached by ways that
//     nobody sees; functions that begin packages are among those.
//
// What is left out: fmt looks for methods of what a printed value holds, too.
// That matters only if a value is printed whole whose type lies behind a door,
// in exported fields of one that does not; nothing here prints such.
type ways struct {
	p     *program
	known *moduleData
	shut  func(f int) bool
	open  []bool // by function: it can run
	todo  []int
	types map[int]bool // those whose methods were followed
	bare  map[int]bool // those whose comparing was
}

// lateFuncs says of each function whether it can run only behind a door.
func lateFuncs(p *program, version string, doors []string) ([]bool, error) {
	late := make([]bool, len(p.bodies))
	if !knows(version) {
		return late, nil
	}
	t, err := findTables(p.memory)
	if err != nil {
		return nil, err
	}
	known, err := findModuleData(p.memory, t.at)
	if err != nil {
		return nil, err
	}
	names, err := t.namesOf(len(p.bodies))
	if err != nil {
		return nil, err
	}
	for _, door := range doors {
		if !slices.Contains(names, door) {
			return nil, fmt.Errorf("the engine has no function %s", door)
		}
	}
	w := &ways{p: p, known: known, open: make([]bool, len(p.bodies)), types: map[int]bool{}, bare: map[int]bool{}}
	w.shut = func(f int) bool { return isDoor(names[f], doors) }
	if err := w.begin(); err != nil {
		return nil, err
	}
	for len(w.todo) > 0 {
		last := len(w.todo) - 1
		f := w.todo[last]
		w.todo = w.todo[:last]
		if err := w.follow(f); err != nil {
			return nil, err
		}
	}
	for f := range late {
		late[f] = !w.open[f]
	}
	return late, w.keepCallers(late)
}

// keepCallers takes functions out that call what comes from outside: the second
// part has no such imports.
func (w *ways) keepCallers(late []bool) error {
	for f, body := range w.p.bodies {
		if !late[f] {
			continue
		}
		_, err := instructions(body, func(i instruction) {
			if i.op == opCall && i.value < w.p.imports {
				late[f] = false
			}
		})
		if err != nil {
			return err
		}
	}
	return nil
}

func (w *ways) reach(f int) {
	if f >= 0 && !w.open[f] && !w.shut(f) {
		w.open[f] = true
		w.todo = append(w.todo, f)
	}
}

// begin reaches what the browser calls, and whatever data leads to.
func (w *ways) begin() error {
	for _, s := range w.p.sections {
		if s.id != exportSection {
			continue
		}
		r := reader{in: s.body}
		for n := r.unsigned(); n > 0 && !r.failed; n-- {
			r.bytes(r.unsigned())
			if kind, f := r.byte(), r.unsigned(); kind == kindFunc {
				w.reach(f - w.p.imports)
			}
		}
		if r.failed {
			return errProgram
		}
	}
	for at := 8; at+8 <= len(w.p.memory); at += 8 {
		if !w.known.isData(at) {
			continue
		}
		v := quad(w.p.memory, at)
		w.address(v)
		if at >= w.known.variables { // what can be written may hold places in the code themselves
			w.reach(w.p.funcAt(v))
		}
	}
	return nil
}

// follow reaches what a function leads to.
func (w *ways) follow(f int) error {
	_, err := instructions(w.p.bodies[f], func(i instruction) {
		switch i.op {
		case opCall:
			w.reach(i.value - w.p.imports)
		case opConst, opConst64:
			if i.value&0xffff <= 1 { // where a function begins; the runtime counts one more where it has returned
				w.reach(w.p.funcAt(i.value))
			}
			w.address(i.value)
		}
	})
	return err
}

// address reaches what the thing at an address leads to, if it is one that leads
// to functions.
func (w *ways) address(at int) {
	if at <= 0 || at%8 != 0 || at+8 > len(w.p.memory) {
		return
	}
	if methods, ok := w.known.itabs[at]; ok {
		for _, pc := range methods {
			w.reach(w.p.funcAt(pc))
		}
		return
	}
	if w.known.isType(at) {
		w.compared(at)
		if !w.types[at] {
			w.types[at] = true
			for _, m := range w.known.methods(at) {
				if w.known.called[m.name] {
					w.reach(w.p.funcAt(m.slot << 16))
				}
			}
		}
		return
	}
	if at < w.known.tables || at >= w.known.tablesEnd {
		w.reach(w.p.funcAt(quad(w.p.memory, at))) // a function value
	}
}

// compared reaches what compares and hashes values of a type, and of what it is
// made of.
func (w *ways) compared(at int) {
	if w.bare[at] {
		return
	}
	w.bare[at] = true
	for _, value := range w.known.comparers(at) {
		if value > 0 && value%8 == 0 && value+8 <= len(w.p.memory) {
			w.reach(w.p.funcAt(quad(w.p.memory, value)))
		}
	}
	for _, part := range w.known.parts(at) {
		if w.known.isType(part) {
			w.compared(part)
		}
	}
}
