// Package markup builds HTML and SVG that a text can't break out of.
//
// Names of elements and attributes are constants of the program: Name is a type
// of its own, so that a string that somebody typed does not fit. Texts and the
// values of attributes are escaped where they are put. A Markup can only be
// made here, so whatever holds one is well formed as far as its parts are.
package markup

import (
	"html"
	"strconv"
	"strings"
)

// Name is the name of an element or an attribute, written in the program.
type Name string

// Markup is finished HTML or SVG. The zero value is nothing.
type Markup struct{ text string }

// String gives the markup as text for a page.
func (m Markup) String() string { return m.text }

// Empty says that there is nothing in it.
func (m Markup) Empty() bool { return m.text == "" }

// Part is what an element is made of: an Attr, a Text, or other Markup.
type Part interface{ put(e *element) }

type element struct{ attributes, inside strings.Builder }

// Attr is an attribute; see A.
type Attr struct {
	name  Name
	value string
	bare  bool
}

// A gives an attribute.
func A(name Name, value string) Attr { return Attr{name: name, value: value} }

// Is gives an attribute that has no value, such as hidden or checked.
func Is(name Name) Attr { return Attr{name: name, bare: true} }

// If gives the attribute where it applies and nothing elsewhere.
func (a Attr) If(applies bool) Attr {
	if applies {
		return a
	}
	return Attr{}
}

// Class gives a class attribute. Its value is a Name: classes are the style
// sheet's, never somebody's text.
func Class(name Name) Attr { return A("class", string(name)) }

// ID gives an id attribute.
func ID(id string) Attr { return A("id", id) }

// Num gives an attribute of a number in the unit of a drawing, to a hundredth.
func Num(name Name, value float64) Attr { return A(name, Number(value)) }

// Number writes a coordinate to a hundredth, without trailing zeros.
func Number(value float64) string {
	text := strings.TrimRight(strings.TrimRight(strconv.FormatFloat(value, 'f', 2, 64), "0"), ".")
	if text == "-0" {
		return "0"
	}
	return text
}

func (a Attr) put(e *element) {
	switch {
	case a.name == "":
	case a.bare:
		e.attributes.WriteString(" " + string(a.name))
	default:
		e.attributes.WriteString(" " + string(a.name) + `="` + html.EscapeString(a.value) + `"`)
	}
}

// Text is text within an element.
type Text string

func (t Text) put(e *element) { e.inside.WriteString(html.EscapeString(string(t))) }

func (m Markup) put(e *element) { e.inside.WriteString(m.text) }

// empty lists the elements of HTML that hold nothing and have no end tag.
var empty = map[Name]bool{"br": true, "hr": true, "input": true, "col": true}

// El gives an element of its parts, in order.
func El(name Name, parts ...Part) Markup {
	var e element
	for _, p := range parts {
		p.put(&e)
	}
	start := "<" + string(name) + e.attributes.String() + ">"
	if empty[name] {
		return Markup{start}
	}
	return Markup{start + e.inside.String() + "</" + string(name) + ">"}
}

// Join gives several parts in a row, without an element around them.
// Attributes among them are dropped.
func Join(parts ...Part) Markup {
	var e element
	for _, p := range parts {
		p.put(&e)
	}
	return Markup{e.inside.String()}
}

// Each gives the markup of every item, in order.
func Each[T any](items []T, draw func(T) Markup) Markup {
	var b strings.Builder
	for _, item := range items {
		b.WriteString(draw(item).text)
	}
	return Markup{b.String()}
}
