// Package document carries a document of named texts between a Go value, a
// file and a page.
//
// Every leaf is a text as a person typed it, so that half-typed fields survive
// being kept. One description of the fields (see Fields) serves all ways: into
// a tree, out of a tree, and with JSON to and from a file.
package document

// Node is a place in a document: a text, a list, or a group of named places.
// The zero value is an empty text.
type Node struct {
	Kind  Kind
	Text  string  // of a Leaf
	Items []Node  // of a List
	Names []Named // of a Group, in order
}

// Kind says what a Node is.
type Kind uint8

// The kinds of Node.
const (
	Leaf Kind = iota
	List
	Group
)

func (k Kind) String() string { return [...]string{"a text", "a list", "a group of fields"}[k] }

// Named is a place in a Group.
type Named struct {
	Name string
	Node Node
}

// Get gives the place of that name in a group; ok is false if there is none.
func (n Node) Get(name string) (Node, bool) {
	for _, m := range n.Names {
		if m.Name == name {
			return m.Node, true
		}
	}
	return Node{}, false
}

// Set puts a place into a group, replacing one of the same name.
func (n *Node) Set(name string, child Node) {
	n.Kind = Group
	for i := range n.Names {
		if n.Names[i].Name == name {
			n.Names[i].Node = child
			return
		}
	}
	n.Names = append(n.Names, Named{name, child})
}
