package view

import (
	"encoding/xml"
	"errors"
	"fmt"
	"html"
	"io"
	"maps"
	"reflect"
	"strings"
	"testing"

	"splittally/calc"
	"splittally/calc/chart/markup"
	"splittally/calc/document"
	"splittally/calc/example"
	"splittally/calc/report"
)

// hostile are texts that would be more than text in a page that escapes badly.
var hostile = []string{
	`<script>alert(1)</script>`, `"><img src=x onerror=alert(1)>`, `' onmouseover='alert(1)`,
	`</textarea><svg onload=alert(1)>`, `&lt;b&gt; &amp;amp; &#x3c;i&#x3e;`, `javascript:alert(1)`, "\u2028<b>\u202e",
}

// elements and attributes are all that the views make.
var (
	elements   = set("root p strong span div ul ol li dl dt dd h2 h3 h4 h5 sup pre button fieldset legend label input option select progress details summary table caption thead tbody tr th td figure figcaption svg title desc defs pattern path g rect circle text")
	attributes = set("class id type name for value checked selected max open start tabindex role scope colspan aria-label aria-labelledby aria-describedby aria-hidden d x y cx cy r width height viewBox fill patternUnits text-anchor transform")
)

func set(words string) map[string]bool {
	out := map[string]bool{}
	for _, w := range strings.Fields(words) {
		out[w] = true
	}
	return out
}

// Every text of the example in turn becomes a hostile one; the page must hold
// no element and no attribute but its own.
func TestHostileTexts(t *testing.T) {
	kind := 0
	for _, path := range paths(t) {
		c := open(t)
		bad := hostile[kind%len(hostile)]
		kind++
		n := document.Write(c.Fields)
		replace(&n, path, bad)
		var changed calc.Case
		if problems := document.Read(n, changed.Fields); len(problems) > 0 {
			t.Fatal(problems)
		}
		d := all(changed, calc.Work(changed))
		for name, markup := range d.Slots {
			checkMarkup(t, path+" in "+name, markup)
		}
	}
}

// all draws a case with every part unfolded, and its paper.
func all(c calc.Case, f calc.Findings) Drawing {
	open := map[string]bool{}
	for {
		d := Render(c, f, open)
		maps.Copy(d.Slots, Pictures(c, f, open))
		before := len(open)
		for _, markup := range d.Slots {
			for _, rest := range strings.Split(markup, "<details ")[1:] {
				_, rest, _ = strings.Cut(rest, ` id="`)
				id, _, _ := strings.Cut(rest, `"`)
				open[id] = true
			}
		}
		if len(open) == before {
			d.Slots["paper"] = Paper(report.Compose(c, f, report.About{Today: "2025-09-11", Version: "1"}), c, f)
			return d
		}
	}
}

// Every text that the findings hold, whoever made it up, stays one.
func TestHostileFindings(t *testing.T) {
	for _, bad := range hostile {
		c, f := caused()
		poison(reflect.ValueOf(&f).Elem(), bad)
		d := all(c, f)
		for _, slot := range []string{"verdict", "causes", "corrections", "legs", "together"} {
			if d.Slots[slot] == "" {
				t.Errorf("nothing in %s", slot)
			}
			checkMarkup(t, bad+" in "+slot, d.Slots[slot])
			if escaped := html.EscapeString(markup.Plain(bad)); !strings.Contains(d.Slots[slot], escaped) && slot != "together" {
				t.Errorf("%s is not in %s: the test has no grip", bad, slot)
			}
		}
	}
}

// poison puts a text into every text of v; the names of kinds are types of
// their own and stay.
func poison(v reflect.Value, text string) {
	switch v.Kind() {
	case reflect.String:
		if v.Type() == reflect.TypeFor[string]() && v.CanSet() {
			v.SetString(text)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			poison(v.Field(i), text)
		}
	case reflect.Slice:
		for i := range v.Len() {
			poison(v.Index(i), text)
		}
	}
}

func checkMarkup(t *testing.T, where, markup string) {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader("<root>" + markup + "</root>"))
	d.Strict, d.AutoClose, d.Entity = false, xml.HTMLAutoClose, xml.HTMLEntity
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return
		}
		if err != nil {
			t.Fatalf("%s: %v", where, err)
		}
		e, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		if !elements[e.Name.Local] {
			t.Errorf("%s: an element <%s>", where, e.Name.Local)
		}
		for _, a := range e.Attr {
			if !attributes[a.Name.Local] && !strings.HasPrefix(a.Name.Local, "data-") {
				t.Errorf("%s: an attribute %s=%q of <%s>", where, a.Name.Local, a.Value, e.Name.Local)
			}
		}
	}
}

// The check must see what it is for.
func TestHostileMarkupIsSeen(t *testing.T) {
	for _, bad := range hostile[:2] {
		seen := false
		d := xml.NewDecoder(strings.NewReader("<root>" + bad + "</root>"))
		d.Strict, d.AutoClose = false, xml.HTMLAutoClose
		for {
			token, err := d.Token()
			if err != nil {
				seen = seen || !errors.Is(err, io.EOF)
				break
			}
			if e, ok := token.(xml.StartElement); ok && !elements[e.Name.Local] {
				seen = true
			}
		}
		if !seen {
			t.Errorf("%s passes as markup of the page", bad)
		}
	}
}

func open(t *testing.T) calc.Case {
	t.Helper()
	c, problems := calc.Open(example.Text)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	return c
}

// paths gives the paths of the example's texts, of long texts the first line.
func paths(t *testing.T) []string {
	c := open(t)
	var out []string
	var walk func(path string, n document.Node)
	walk = func(path string, n document.Node) {
		for _, m := range n.Names {
			walk(path+"."+m.Name, m.Node)
		}
		for i, item := range n.Items {
			if item.Kind == document.Leaf && i > 1 {
				break
			}
			walk(fmt.Sprintf("%s.%d", path, i), item)
		}
		if n.Kind == document.Leaf {
			out = append(out, path[1:])
		}
	}
	walk("", document.Write(c.Fields))
	return out
}

func replace(n *document.Node, path, text string) {
	step, rest, more := strings.Cut(path, ".")
	child := (*document.Node)(nil)
	for i := range n.Names {
		if n.Names[i].Name == step {
			child = &n.Names[i].Node
		}
	}
	if n.Kind == document.List {
		at := 0
		fmt.Sscan(step, &at)
		child = &n.Items[at]
	}
	if !more {
		child.Text = text
		return
	}
	replace(child, rest, text)
}
