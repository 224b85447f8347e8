package main

import (
	"bytes"
	"slices"
)

// lateGap is restGap for the second part. What it writes over between its own
// bytes is there already, and stays as it is.
const lateGap = 48

// splitMemory parts the memory that a program finds: what describes late
// functions alone is left out of it, and comes as a data section. Those bytes are
// read when such a function is on a stack or gives its name, and never written.
func splitMemory(p *program, late []bool, version string) (memory, lateData []byte, err error) {
	memory = slices.Clone(p.memory)
	if !knows(version) || !slices.Contains(late, true) {
		return memory, []byte{0}, nil
	}
	t, err := findTables(p.memory)
	if err != nil {
		return nil, nil, err
	}
	m, err := findModuleData(p.memory, t.at)
	if err != nil {
		return nil, nil, err
	}
	d := &descriptions{t: t, m: m, pairs: make([]bool, len(t.pairs)), names: map[int]bool{}, maps: map[int]bool{}}
	for i := range t.count {
		f, err := d.of(i)
		if err != nil {
			return nil, nil, err
		}
		if n := f.slot - firstFunc; n < 0 || n >= len(late) {
			return nil, nil, errTables
		} else if err := d.note(f, late[n]); err != nil {
			return nil, nil, err
		}
	}
	d.move(func(at, end int) { clear(memory[at:end]) })
	return memory, piecesOf(p.memory, lateGap, func(at int) bool { return p.memory[at] != memory[at] }), nil
}

// descriptions tells which bytes of the tables of functions describe late ones
// alone.
type descriptions struct {
	t     tables
	m     *moduleData
	late  []description
	pairs []bool       // bytes that others need
	names map[int]bool // by offset: others need them
	maps  map[int]bool // likewise, of stacks; all that there are stand here
}

type description struct {
	slot, name int
	from, end  int // in memory
	pairs      []int
	maps       []int
}

func (d *descriptions) of(i int) (description, error) {
	f, err := d.t.function(i)
	if err != nil {
		return description{}, err
	}
	pairs, maps := word(f, npcdataAt), int(f[funcHead-1])
	size := funcHead + 4*pairs + 4*maps
	if size > len(f) {
		return description{}, errTables
	}
	at := d.t.funcsAt + word(d.t.funcs, 8*i+4)
	out := description{slot: word(f, 0), name: word(f, nameAt), from: at, end: at + size, pairs: []int{word(f, pcspAt)}}
	for j := range pairs {
		out.pairs = append(out.pairs, word(f, funcHead+4*j))
	}
	for j := range maps {
		if at := word(f, funcHead+4*pairs+4*j); at != 1<<32-1 { // there is none
			out.maps = append(out.maps, at)
		}
	}
	return out, nil
}

func (d *descriptions) note(f description, late bool) error {
	if late {
		d.late = append(d.late, f)
	}
	if f.name > len(d.t.names) {
		return errTables
	}
	for _, at := range f.maps {
		if at > d.m.gofuncEnd-d.m.gofunc {
			return errTables
		}
		d.maps[at] = d.maps[at] || !late
	}
	if late {
		return nil
	}
	d.names[f.name] = true
	for _, at := range f.pairs {
		if err := d.t.keep(d.pairs, at); err != nil {
			return err
		}
	}
	return nil
}

func (d *descriptions) move(move func(at, end int)) {
	starts := make([]int, 0, len(d.maps))
	for at := range d.maps {
		starts = append(starts, at)
	}
	slices.Sort(starts)
	for _, f := range d.late {
		move(f.from, f.end)
		if !d.names[f.name] {
			name, _, _ := bytes.Cut(d.t.names[f.name:], []byte{0})
			move(d.t.namesAt+f.name, d.t.namesAt+f.name+len(name))
		}
	}
	for i, kept := range d.pairs {
		if !kept {
			move(d.t.pairsAt+i, d.t.pairsAt+i+1)
		}
	}
	// How long the map of a stack is nobody says; it ends before the next.
	for i := 0; i+1 < len(starts); i++ {
		if !d.maps[starts[i]] {
			move(d.m.gofunc+starts[i], d.m.gofunc+starts[i+1])
		}
	}
}
