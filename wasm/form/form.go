// Package form carries a case between the fields of the page and calc.Case.
// It knows no field by name: the page's names are the case's own (see
// calc.Case.Fields), so a new field needs nothing here.
//
// The step before is wasm/page, which reads the fields off the page; the step
// after is calc.Work.
package form

import (
	"strconv"
	"strings"

	"splittally/calc"
	"splittally/calc/document"
	"splittally/calc/remark"
)

// Field is a field of the page and what it holds.
type Field struct {
	Path  string // such as periods.0.kwh; numbers count from 0
	Text  string
	Lines bool // a text of several lines
}

// Filled is what a case puts into the page.
type Filled struct {
	Texts map[string]string // by path; a field that is not in it is blank
	Items map[string]int    // how many items each list has, by path
}

// Case makes a case of all fields of the page. Problems tell of a page and a
// program that do not fit together; there are none otherwise.
func Case(fields []Field) (calc.Case, []remark.Problem) {
	root := document.Node{Kind: document.Group}
	for _, f := range fields {
		put(&root, strings.Split(f.Path, "."), leaf(f))
	}
	var c calc.Case
	return c, document.Read(root, c.Fields)
}

func leaf(f Field) document.Node {
	if !f.Lines {
		return document.Node{Text: f.Text}
	}
	list := document.Node{Kind: document.List}
	for _, line := range strings.Split(f.Text, "\n") {
		list.Items = append(list.Items, document.Node{Text: line})
	}
	return list
}

// put sets the place that steps lead to, making groups and lists on the way.
func put(n *document.Node, steps []string, value document.Node) {
	if len(steps) == 0 {
		*n = value
		return
	}
	if i, err := strconv.Atoi(steps[0]); err == nil {
		n.Kind = document.List
		for len(n.Items) <= i {
			n.Items = append(n.Items, document.Node{Kind: document.Group})
		}
		put(&n.Items[i], steps[1:], value)
		return
	}
	n.Kind = document.Group
	for i := range n.Names {
		if n.Names[i].Name == steps[0] {
			put(&n.Names[i].Node, steps[1:], value)
			return
		}
	}
	n.Names = append(n.Names, document.Named{Name: steps[0]})
	put(&n.Names[len(n.Names)-1].Node, steps[1:], value)
}

// Fields gives what the page is to hold for a case.
func Fields(c calc.Case) Filled {
	f := Filled{Texts: map[string]string{}, Items: map[string]int{}}
	f.take("", document.Write(c.Fields))
	return f
}

func (f *Filled) take(path string, n document.Node) {
	switch n.Kind {
	case document.Leaf:
		f.Texts[path] = n.Text
	case document.Group:
		for _, m := range n.Names {
			f.take(below(path, m.Name), m.Node)
		}
	case document.List:
		f.takeList(path, n.Items)
	}
}

// takeList tells the lines of a text from a list of groups: an empty list of
// either kind is not in a document.
func (f *Filled) takeList(path string, items []document.Node) {
	if len(items) > 0 && items[0].Kind == document.Leaf {
		lines := make([]string, len(items))
		for i, item := range items {
			lines[i] = item.Text
		}
		f.Texts[path] = strings.Join(lines, "\n")
		return
	}
	f.Items[path] = len(items)
	for i, item := range items {
		f.take(below(path, strconv.Itoa(i)), item)
	}
}

func below(path, name string) string {
	if path == "" {
		return name
	}
	return path + "." + name
}

// Blank says that nothing has been typed into any of the fields.
func Blank(fields []Field) bool {
	for _, f := range fields {
		if strings.TrimSpace(f.Text) != "" {
			return false
		}
	}
	return true
}

// Holds says whether there is anything in a case but the day of its last edit.
func Holds(c calc.Case) bool {
	for path, text := range Fields(c).Texts {
		if path != "today" && strings.TrimSpace(text) != "" {
			return true
		}
	}
	return false
}
