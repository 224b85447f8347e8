// Package form carries a case between the fields of the page and calc.Case.
// It knows no field by name: the page's names are the case's own (see
// calc.Case.Fields), so a new field needs nothing here.
//
// The step before is wasm/page, which reads the fields off the page; the step
// after is calc.Work.
package form

import (
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

// Case makes a case of all fields of the page. Problems tell of a page and a
// program that do not fit together; there are none otherwise.
func Case(fields []Field) (calc.Case, []remark.Problem) {
	root := document.Node{Kind: document.Group}
	for _, f := range fields {
		root.Put(strings.Split(f.Path, "."), leaf(f))
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

// Fields gives what the page is to hold for a case.
func Fields(c calc.Case) document.Flat { return document.Flatten(document.Write(c.Fields)) }

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
