//go:build js && wasm

package page

import (
	"strings"
	"syscall/js"

	"splittally/wasm/form"
)

// The walks over many elements use plain values: dom's own wrapping of an
// element asks for its class first, which takes some seventy calls. The longest
// are in static/walks.js, because each call out of the engine costs as much as
// dozens of steps there.

// field is a field of the page.
type field struct {
	path  string
	el    js.Value
	kind  kind
	store store // that a keyed field has the key of
}

// store keeps long texts behind the keys that hidden fields hold.
type store interface {
	text(field js.Value) string
	set(field js.Value, text string)
}

type kind uint8

const (
	plain  kind = iota
	lines       // a text of several lines
	check       // a box that is ticked or not
	choice      // a select
	keyed       // a hidden field of a record, by its key in files
	beaten      // a hidden field of pulses, by its key in beats
)

func (f field) text() string {
	switch {
	case f.store != nil:
		return f.store.text(f.el)
	case f.kind == check && !f.el.Get("checked").Bool():
		return ""
	}
	return f.el.Get("value").String()
}

func (f field) set(text string) {
	switch {
	case f.store != nil:
		f.store.set(f.el, text)
	case f.kind == check:
		f.el.Set("checked", text == f.el.Get("value").String())
	case f.text() == text:
	case f.kind == choice:
		choose(f.el, text)
	default:
		f.el.Set("value", text)
	}
}

// choose sets a select. A value that it does not offer, from a file or of a
// tariff that has changed since, is not lost: it gets an option of its own.
func choose(list js.Value, value string) {
	for _, stray := range within(list, "[data-stray]") {
		stray.Call("remove")
	}
	list.Set("value", value)
	if list.Get("value").String() == value {
		return
	}
	stray := js.Global().Get("Option").New(value, value)
	stray.Call("setAttribute", "data-stray", "")
	list.Call("append", stray)
	list.Set("value", value)
}

// survey finds all fields and slots anew, after items came or went.
func (p *page) survey() {
	p.fields, p.slots = p.fields[:0], p.slots[:0]
	for _, found := range placesOf("data-field") {
		f := field{path: found.place, el: found.el}
		switch found.kind {
		case "textarea":
			f.kind = lines
		case "select-one":
			f.kind = choice
		case "checkbox":
			f.kind = check
		case "hidden":
			f.kind, f.store = keyed, &p.files
			if f.el.Call("hasAttribute", "data-holds").Bool() {
				f.kind, f.store = beaten, &p.beats
			}
		}
		p.fields = append(p.fields, f)
	}
	for _, found := range placesOf("data-slot") {
		p.slots = append(p.slots, &slot{path: found.place, el: found.el})
	}
	p.sweep()
}

// placed is an element with its path, and the type of a field.
type placed struct {
	el          js.Value
	place, kind string
}

// placesOf finds the elements that have an attribute, and where each stands.
func placesOf(attr string) []placed {
	found := js.Global().Call("placesOf", attr)
	all := found.Get("all")
	out := make([]placed, 0, all.Length())
	for line := range strings.SplitSeq(found.Get("lines").String(), "\n") {
		place, kind, _ := strings.Cut(line, "\t")
		out = append(out, placed{el: all.Index(len(out)), place: place, kind: kind})
	}
	return out
}

// typed gives what all fields hold.
func (p *page) typed() []form.Field {
	out := make([]form.Field, len(p.fields))
	for i, f := range p.fields {
		out[i] = form.Field{Path: f.path, Text: f.text(), Lines: f.kind == lines || f.store != nil}
	}
	return out
}

// field finds the field of a path.
func (p *page) field(path string) (field, bool) {
	for _, f := range p.fields {
		if f.path == path {
			return f, true
		}
	}
	return field{}, false
}

// placeOf gives the path of an element: its own name below those of the groups,
// lists and items that hold it.
func placeOf(el js.Value, attr string) string {
	return js.Global().Call("placeOf", el, attr).String()
}

// position counts the items before an item of a list.
func position(item js.Value) int {
	n := 0
	for at := item.Get("previousElementSibling"); !at.IsNull(); at = at.Get("previousElementSibling") {
		n++
	}
	return n
}

// all gives the elements of the document that a selector names.
func (p *page) all(selector string) []js.Value { return within(p.doc.Underlying(), selector) }

// within gives the elements below root that a selector names.
func within(root js.Value, selector string) []js.Value {
	found := root.Call("querySelectorAll", selector)
	out := make([]js.Value, found.Length())
	for i := range out {
		out[i] = found.Index(i)
	}
	return out
}

// byID gives the element of an id. There must be one: it is the page's own.
func (p *page) byID(id string) js.Value {
	el := p.doc.Underlying().Call("getElementById", id)
	if el.IsNull() {
		panic("the page has no element " + id)
	}
	return el
}

func attribute(el js.Value, name string) string {
	if v := el.Call("getAttribute", name); v.Type() == js.TypeString {
		return v.String()
	}
	return ""
}

// element gives the element that an event happened to: a text's event is its
// parent's, the document's own is the root's.
func element(target js.Value) js.Value {
	switch target.Get("nodeType").Int() {
	case 1:
		return target
	case 9:
		return target.Get("documentElement")
	}
	return target.Get("parentElement")
}
