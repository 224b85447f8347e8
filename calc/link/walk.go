package link

import (
	"slices"
	"strings"

	"splittally/calc/calendar"
	"splittally/calc/document"
	"splittally/calc/link/coder"
)

// walk writes or reads a document, place by place in the order of the table.
type walk struct {
	*coder.Coder
	words   []string // of the vocabulary
	texts   []string // free texts so far, since names come again
	behind  texts    // what is behind numbers
	last    numeral  // the number before
	lastDay calendar.Day
	records records // what is known of records so far
	newer   bool    // the link knows fields that are not known here
	days    days    // what is known of days of readings so far
}

// Limits of what a link may hold.
const (
	mostItems = 2_000
	mostDepth = 12
)

// group writes or reads a group of fields.
func (w *walk) group(p *place, n *document.Node, depth int) {
	if depth > mostDepth || !w.Spend(fieldCost) {
		w.Broken = true
		return
	}
	n.Kind = document.Group
	known := p.places
	for _, child := range known {
		field, has := n.Get(child.name)
		if w.Bit(&child.texts.has, one(has)) == 1 {
			w.field(child, &field, depth)
			if w.Reading {
				n.Names = append(n.Names, document.Named{Name: child.name, Node: field})
			}
		}
	}
	w.others(p, n, known, depth)
}

// others writes or reads the fields of a group that the table lacks, by name.
func (w *walk) others(p *place, n *document.Node, known []*place, depth int) {
	var names []document.Named
	if !w.Reading {
		for _, m := range n.Names {
			if !slices.ContainsFunc(known, func(k *place) bool { return k.name == m.Name }) {
				names = append(names, m)
			}
		}
	}
	count := int(w.Number(&p.texts.others, uint64(len(names))))
	if count > mostItems || w.Broken {
		w.Broken = true
		return
	}
	for i := range count {
		var m document.Named
		if !w.Reading {
			m = names[i]
		}
		m.Name = w.Text(m.Name)
		if w.Broken || w.Reading && (m.Name == "" || strings.ContainsAny(m.Name, ".*")) {
			w.Broken = true
			return
		}
		w.field(&place{name: m.Name}, &m.Node, depth)
		if w.Reading {
			n.Names = append(n.Names, m)
		}
	}
}

// Kinds of a field.
const (
	isText = iota
	isList
	isGroup
)

// field writes or reads a field: a text, a list of groups or a group. Which of
// them is told only of a field that the table lacks.
func (w *walk) field(p *place, n *document.Node, depth int) {
	kind := isText
	switch {
	case p.item != nil:
		kind = isList
	case p.places != nil:
		kind = isGroup
	case !p.known:
		switch {
		case n.Kind == document.Group:
			kind = isGroup
		case n.Kind == document.List && len(n.Items) > 0 && n.Items[0].Kind != document.Leaf:
			kind = isList
		}
		kind = w.tree3(&p.texts.kinds, kind)
	}
	switch kind {
	case isGroup:
		w.group(p, n, depth+1)
	case isList:
		w.list(p, n, depth)
	default:
		w.text(p, n)
	}
}

func (w *walk) list(p *place, n *document.Node, depth int) {
	count := int(w.Number(&p.texts.others, uint64(len(n.Items))))
	if count > mostItems || !w.Spend(20*count) {
		w.Broken = true
		return
	}
	if w.Reading {
		n.Kind, n.Items = document.List, make([]document.Node, count)
	}
	item := p.child("*")
	for i := range n.Items {
		if w.group(item, &n.Items[i], depth+1); w.Broken {
			return
		}
	}
}

// lined is the text of a leaf, or of a list of lines.
func lined(n document.Node) string {
	if n.Kind != document.List {
		return n.Text
	}
	lines := make([]string, len(n.Items))
	for i, item := range n.Items {
		lines[i] = item.Text
	}
	return strings.Join(lines, "\n")
}

func one(is bool) int {
	if is {
		return 1
	}
	return 0
}
