package view

import (
	"strings"

	"splittally/calc/chart/markup"
	"splittally/calc/say"
)

func el(name markup.Name, parts ...markup.Part) markup.Markup { return markup.El(name, parts...) }

func text(s string) markup.Text { return markup.Text(s) }

func class(name markup.Name) markup.Attr { return markup.Class(name) }

func p(s string) markup.Markup { return el("p", text(s)) }

// folded gives a part that opens when its summary is tapped. What is inside is
// only drawn while it is open: a page is drawn at every key, and most of it is
// workings that nobody looks at just then.
func (s *sheet) folded(name markup.Name, id, summary string, inside func() markup.Markup) markup.Markup {
	head := el("summary", markup.ID(id+"-head"), text(summary))
	if !s.open[id] {
		return el("details", class(name), markup.ID(id), head)
	}
	return el("details", class(name), markup.ID(id), markup.Is("open"), head, inside())
}

// tied keeps each ± and its number on one line.
func tied(said string) string { return strings.ReplaceAll(said, "± ", "±"+nbsp) }

// nbsp keeps a sign and its number on one line.
const nbsp = "\u00a0"

// cell is a table cell. Its heading is told again in the cell on narrow screens,
// where the row becomes a block.
type cell struct {
	heading string
	inside  markup.Part
	class   markup.Name
}

func td(c cell) markup.Markup {
	return el("td", markup.A("role", "cell"), class(c.class).If(c.class != ""), markup.A("data-heading", c.heading).If(c.heading != ""), c.inside)
}

// table gives a table whose rows may become blocks: the roles keep it a table
// for readers of the screen.
func table(name markup.Name, caption string, heads []string, rows ...markup.Part) markup.Markup {
	head := el("tr", markup.A("role", "row"), markup.Each(heads, func(h string) markup.Markup {
		return el("th", markup.A("role", "columnheader"), markup.A("scope", "col"), text(h))
	}))
	parts := []markup.Part{
		class(name), markup.A("role", "table"), el("caption", text(caption)),
		el("thead", markup.A("role", "rowgroup"), head),
	}
	return el("table", append(parts, rows...)...)
}

// tbody gives the rows of a table.
func tbody(rows ...markup.Part) markup.Markup {
	return el("tbody", append([]markup.Part{markup.A("role", "rowgroup")}, rows...)...)
}

// tr gives a row: its heading, then its cells.
func tr(heading markup.Part, cells ...cell) markup.Markup {
	head := el("th", markup.A("role", "rowheader"), markup.A("scope", "row"), heading)
	return el("tr", markup.A("role", "row"), head, markup.Each(cells, td))
}

// fact is a line of a list of facts.
type fact struct{ name, value string }

func facts(list ...fact) markup.Markup {
	return el("dl", class("facts"), markup.Each(list, func(f fact) markup.Markup {
		if f.value == "" {
			return markup.Markup{}
		}
		return markup.Join(el("dt", text(f.name)), el("dd", text(f.value)))
	}))
}

// kWh writes an energy that is text already with its unit.
func kWh(amount string) string { return amount + say.Thin + "kWh" }

// percent writes a number that is text already with its sign of percent.
func percent(amount string) string { return amount + say.Thin + "%" }
