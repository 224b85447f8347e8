package document

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"splittally/calc/remark"
)

// Fields describes the fields of one group, both for writing a value into a
// tree and for reading it back: the same calls do either. A description is a
// function that names each field once:
//
//	func (l *leg) fields(f *document.Fields) {
//		f.Text("name", &l.Name)
//		document.Each(f, "pairs", &l.Pairs, (*pair).fields)
//	}
type Fields struct {
	node     *Node
	writing  bool
	path     string
	known    map[string]bool
	problems *[]remark.Problem
}

// MaxItems bounds a list that is read. A household has no ten thousand bills.
const MaxItems = 10_000

// Write gives the tree of a value, by its description. Empty texts and empty
// lists are left out.
func Write(describe func(*Fields)) Node {
	n := Node{Kind: Group}
	describe(&Fields{node: &n, writing: true})
	return n
}

// Read fills a value from a tree, by its description. What does not fit, and
// every name that the description does not know, is a problem; the value is
// then only partly filled and not to be used.
func Read(n Node, describe func(*Fields)) []remark.Problem {
	var problems []remark.Problem
	readGroup(n, "", &problems, describe)
	return problems
}

func readGroup(n Node, path string, problems *[]remark.Problem, describe func(*Fields)) {
	f := &Fields{node: &n, path: path, known: map[string]bool{}, problems: problems}
	if n.Kind != Group {
		f.refuse(path, n.Kind.String(), "a group of fields")
		return
	}
	describe(f)
	seen := map[string]bool{}
	for _, m := range n.Names {
		switch {
		case !f.known[m.Name]:
			f.refuse(join(path, m.Name), m.Name, "only fields that this version knows")
		case seen[m.Name]:
			f.refuse(join(path, m.Name), m.Name+" twice", "each field once")
		}
		seen[m.Name] = true
	}
}

// Former lets documents be read that have a field under a name it once had.
// It stands before the field's own description.
func (f *Fields) Former(name, once string) {
	if f.writing {
		return
	}
	if _, both := f.node.Get(name); both {
		return
	}
	f.node.Names = slices.Clone(f.node.Names)
	for i := range f.node.Names {
		if f.node.Names[i].Name == once {
			f.node.Names[i].Name = name
		}
	}
}

// Text is a field of one line.
func (f *Fields) Text(name string, p *string) {
	if f.writing {
		if *p != "" {
			f.node.Set(name, Node{Text: *p})
		}
		return
	}
	if child, ok := f.get(name, Leaf); ok {
		*p = child.Text
	}
}

// Lines is a text of several lines, kept as a list with a text for each line,
// so that a file stays readable. One text is read as well.
func (f *Fields) Lines(name string, p *string) {
	if f.writing {
		if *p == "" {
			return
		}
		list := Node{Kind: List}
		for _, line := range strings.Split(*p, "\n") {
			list.Items = append(list.Items, Node{Text: line})
		}
		f.node.Set(name, list)
		return
	}
	if child, ok := f.node.Get(name); ok && child.Kind == Leaf {
		f.Text(name, p)
		return
	}
	child, ok := f.get(name, List)
	if !ok {
		return
	}
	lines := make([]string, len(child.Items))
	for i, item := range child.Items {
		if item.Kind != Leaf {
			f.refuse(join(f.path, name, strconv.Itoa(i)), item.Kind.String(), Leaf.String())
			return
		}
		lines[i] = item.Text
	}
	*p = strings.Join(lines, "\n")
}

// Group is a field that is a group of fields itself.
func (f *Fields) Group(name string, describe func(*Fields)) {
	if f.writing {
		if child := Write(describe); len(child.Names) > 0 {
			f.node.Set(name, child)
		}
		return
	}
	if child, ok := f.get(name, Group); ok {
		readGroup(child, join(f.path, name), f.problems, describe)
	}
}

// Each is a field that is a list of groups, each described by describe.
func Each[T any](f *Fields, name string, items *[]T, describe func(*T, *Fields)) {
	if f.writing {
		if len(*items) == 0 {
			return
		}
		list := Node{Kind: List}
		for i := range *items {
			list.Items = append(list.Items, Write(func(c *Fields) { describe(&(*items)[i], c) }))
		}
		f.node.Set(name, list)
		return
	}
	child, ok := f.get(name, List)
	if !ok {
		return
	}
	if len(child.Items) > MaxItems {
		f.refuse(join(f.path, name), fmt.Sprintf("%d items", len(child.Items)), fmt.Sprintf("at most %d", MaxItems))
		return
	}
	*items = make([]T, len(child.Items))
	for i := range child.Items {
		readGroup(child.Items[i], join(f.path, name, strconv.Itoa(i)), f.problems, func(c *Fields) { describe(&(*items)[i], c) })
	}
}

// get finds a field to read and notes its name as known.
func (f *Fields) get(name string, want Kind) (Node, bool) {
	f.known[name] = true
	child, ok := f.node.Get(name)
	if ok && child.Kind != want {
		f.refuse(join(f.path, name), child.Kind.String(), want.String())
		return Node{}, false
	}
	return child, ok
}

func (f *Fields) refuse(path, found, wanted string) {
	*f.problems = append(*f.problems, remark.Problem{Path: path, Found: found, Wanted: wanted})
}

func join(parts ...string) string {
	kept := parts[:0:0]
	for _, p := range parts {
		if p != "" {
			kept = append(kept, p)
		}
	}
	return strings.Join(kept, ".")
}
