package document

import (
	"cmp"
	"strconv"
	"strings"

	"splittally/calc/sorted"
)

// Flat is a document as texts by their paths, such as "periods.0.kwh". What is
// not in it is blank.
type Flat struct {
	Texts map[string]string
	Items map[string]int // how many items each list of groups has
}

// Flatten writes a tree down by its paths.
func Flatten(n Node) Flat {
	f := Flat{Texts: map[string]string{}, Items: map[string]int{}}
	f.take("", n)
	return f
}

func (f *Flat) take(path string, n Node) {
	switch n.Kind {
	case Leaf:
		f.Texts[path] = n.Text
	case Group:
		for _, m := range n.Names {
			f.take(join(path, m.Name), m.Node)
		}
	case List:
		f.takeList(path, n.Items)
	}
}

// takeList tells the lines of a text from a list of groups: an empty list of
// either kind is not in a document.
func (f *Flat) takeList(path string, items []Node) {
	if len(items) > 0 && items[0].Kind == Leaf {
		lines := make([]string, len(items))
		for i, item := range items {
			lines[i] = item.Text
		}
		f.Texts[path] = strings.Join(lines, "\n")
		return
	}
	f.Items[path] = len(items)
	for i, item := range items {
		f.take(join(path, strconv.Itoa(i)), item)
	}
}

// Node makes the tree again. A text of several lines becomes one leaf, which
// Fields.Lines reads as well. Lists are as long as Items says.
func (f Flat) Node() Node {
	root := Node{Kind: Group}
	for path, n := range f.Items {
		root.lengthen(strings.Split(path, "."), n)
	}
	for path, text := range f.Texts {
		root.Put(strings.Split(path, "."), Node{Text: text})
	}
	return root
}

// lengthen gives the list that steps lead to at least n items.
func (n *Node) lengthen(steps []string, items int) {
	if items > 0 {
		n.Put(append(steps[:len(steps):len(steps)], strconv.Itoa(items-1)), Node{Kind: Group})
	}
}

// Put sets the place that steps lead to, making groups and lists on the way. A
// step that is a number counts the items of a list from 0. A group that is put
// where one stands leaves that as it is.
func (n *Node) Put(steps []string, value Node) {
	if len(steps) == 0 {
		if value.Kind != Group || n.Kind != Group {
			*n = value
		}
		return
	}
	if i, err := strconv.Atoi(steps[0]); err == nil && i >= 0 && i < MaxItems {
		n.Kind = List
		for len(n.Items) <= i {
			n.Items = append(n.Items, Node{Kind: Group})
		}
		n.Items[i].Put(steps[1:], value)
		return
	}
	n.Kind = Group
	for i := range n.Names {
		if n.Names[i].Name == steps[0] {
			n.Names[i].Node.Put(steps[1:], value)
			return
		}
	}
	n.Names = append(n.Names, Named{Name: steps[0]})
	n.Names[len(n.Names)-1].Node.Put(steps[1:], value)
}

// Change is one text, or the number of items of one list, that differs between
// two documents.
type Change struct {
	Path          string
	IsItems       bool   // the texts are numbers of items
	Before, After string // empty for none
}

// Changes gives what differs, by path.
func Changes(before, after Flat) []Change {
	var changes []Change
	for path := range union(before.Texts, after.Texts) {
		if b, a := before.Texts[path], after.Texts[path]; b != a {
			changes = append(changes, Change{path, false, b, a})
		}
	}
	for path := range union(before.Items, after.Items) {
		if b, a := before.Items[path], after.Items[path]; b != a {
			changes = append(changes, Change{path, true, strconv.Itoa(b), strconv.Itoa(a)})
		}
	}
	sorted.Stable(changes, func(a, b Change) int {
		if c := cmp.Compare(a.Path, b.Path); c != 0 {
			return c
		}
		return cmp.Compare(a.After, b.After)
	})
	return changes
}

func union[V any](a, b map[string]V) map[string]bool {
	all := make(map[string]bool, len(a)+len(b))
	for path := range a {
		all[path] = true
	}
	for path := range b {
		all[path] = true
	}
	return all
}
