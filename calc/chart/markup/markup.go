// Package markup builds HTML and SVG that a text can't break out of.
//
// Names of elements and attributes are constants of the program: Name is a type
// of its own, so that a string that somebody typed does not fit. Texts and the
// values of attributes are escaped where they are put. A Markup can only be
// made here, so whatever holds one is well formed as far as its parts are.
package markup

import (
	"html"
	"math"
	"strconv"
	"strings"
)

// Name is the name of an element or an attribute, written in the program.
type Name string

// Markup is HTML or SVG. The zero value is nothing. It is kept as a tree until
// String writes it in one go, because a page is drawn at every key.
type Markup struct{ parts []Part }

// String writes the markup for a page.
func (m Markup) String() string {
	var b strings.Builder
	m.inside(&b)
	return b.String()
}

// Empty says that there is nothing in it.
func (m Markup) Empty() bool { return len(m.parts) == 0 }

// Part is what an element is made of: an Attr, a Text, or other Markup.
type Part interface {
	attribute(b *strings.Builder) // writes the part if it is an attribute
	inside(b *strings.Builder)    // writes the part if it is none
}

// element is an element with its parts, attributes among them.
type element struct {
	name  Name
	parts []Part
}

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

// Number writes a coordinate to a hundredth, without trailing zeros. Values
// beyond any drawing are written as its edge would be, at a million.
func Number(value float64) string { return string(AppendNumber(nil, value)) }

// AppendNumber appends what Number writes. A drawing has thousands of numbers,
// and the general way to format one takes most of its time.
func AppendNumber(to []byte, value float64) []byte {
	const most = 1e6
	hundredths := int64(math.Round(100 * math.Max(-most, math.Min(most, value))))
	if hundredths < 0 {
		to = append(to, '-')
		hundredths = -hundredths
	}
	to = strconv.AppendInt(to, hundredths/100, 10)
	switch rest := hundredths % 100; {
	case rest == 0:
	case rest%10 == 0:
		to = append(to, '.', byte('0'+rest/10))
	default:
		to = append(to, '.', byte('0'+rest/10), byte('0'+rest%10))
	}
	return to
}

// escape writes a text so that it stays one, within an element or an attribute.
func escape(b *strings.Builder, text string) {
	if strings.ContainsAny(text, `<>&'"`) {
		text = html.EscapeString(text)
	}
	b.WriteString(text)
}

func (a Attr) attribute(b *strings.Builder) {
	if a.name == "" {
		return
	}
	b.WriteByte(' ')
	b.WriteString(string(a.name))
	if !a.bare {
		b.WriteString(`="`)
		if a.name == "aria-label" {
			escape(b, Plain(a.value)) // read, and not given back
		} else {
			escape(b, a.value)
		}
		b.WriteByte('"')
	}
}

func (a Attr) inside(*strings.Builder) {}

// Text is text within an element; see Plain.
type Text string

func (t Text) attribute(*strings.Builder) {}

func (t Text) inside(b *strings.Builder) { escape(b, Plain(string(t))) }

func (m Markup) attribute(*strings.Builder) {}

func (m Markup) inside(b *strings.Builder) {
	for _, p := range m.parts {
		p.inside(b)
	}
}

func (e element) attribute(*strings.Builder) {}

func (e element) inside(b *strings.Builder) {
	b.WriteByte('<')
	b.WriteString(string(e.name))
	for _, p := range e.parts {
		p.attribute(b)
	}
	b.WriteByte('>')
	if empty[e.name] {
		return
	}
	for _, p := range e.parts {
		p.inside(b)
	}
	b.WriteString("</")
	b.WriteString(string(e.name))
	b.WriteByte('>')
}

// empty lists the elements of HTML that hold nothing and have no end tag.
var empty = map[Name]bool{"br": true, "hr": true, "input": true, "col": true}

// El gives an element of its parts, in order.
func El(name Name, parts ...Part) Markup { return Markup{[]Part{element{name, parts}}} }

// Join gives several parts in a row, without an element around them.
// Attributes among them are dropped, and so is what is empty.
func Join(parts ...Part) Markup {
	var kept []Part
	for _, p := range parts {
		if m, ok := p.(Markup); !ok || !m.Empty() {
			kept = append(kept, p)
		}
	}
	return Markup{kept}
}
