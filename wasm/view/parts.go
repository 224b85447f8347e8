package view

import (
	"strings"

	"splittally/calc/chart/markup"
	"splittally/calc/say"
)

// piece is what markup is made of. All that draws gives one, since a call costs
// fewer bytes of engine where nothing has to be turned into another type.
type piece = markup.Part

// none is nothing.
var none piece = markup.Markup{}

func el(name markup.Name, pieces ...piece) piece { return markup.El(name, pieces...) }

func join(pieces ...piece) piece { return markup.Join(pieces...) }

// each joins what is drawn for each of n things. It goes by number, because a
// function of any type would be compiled anew for each.
func each(n int, draw func(i int) piece) piece {
	pieces := make([]piece, n)
	for i := range pieces {
		pieces[i] = draw(i)
	}
	return join(pieces...)
}

func text(s string) piece { return markup.Text(s) }

func attr(name markup.Name, value string) piece { return markup.A(name, value) }

func class(name markup.Name) piece { return markup.Class(name) }

func isEmpty(m piece) bool {
	inside, ok := m.(markup.Markup)
	return ok && inside.Empty()
}

// prose gives a paragraph.
func prose(s string) piece { return el("p", text(s)) }

// para gives a paragraph of a class.
func para(name markup.Name, s string) piece { return el("p", class(name), text(s)) }

// folded gives a part that opens when its summary is tapped. What is inside is
// only drawn while it is open: a page is drawn at every key, and most of it is
// workings that nobody looks at just then.
func (s *sheet) folded(name markup.Name, id, summary string, inside func() piece) piece {
	head := el("summary", attr("id", id+"-head"), text(summary))
	if !s.open[id] {
		return el("details", class(name), attr("id", id), head)
	}
	return el("details", class(name), attr("id", id), markup.Is("open"), head, inside())
}

// tied keeps each ± and its number on one line.
func tied(said string) string { return strings.ReplaceAll(said, "± ", "±"+nbsp) }

// nbsp keeps a sign and its number on one line.
const nbsp = "\u00a0"

// cell is a table cell. Its heading is told again in the cell on narrow screens,
// where the row becomes a block.
type cell struct {
	heading string
	inside  piece
	class   markup.Name
}

// num is a cell of a figure, word one of words.
func num(heading, value string) cell { return cell{heading, text(value), "num"} }

func word(heading, value string) cell { return cell{heading, text(value), ""} }

func td(c cell) piece {
	return el("td", attr("role", "cell"), markup.Class(c.class).If(c.class != ""), markup.A("data-heading", c.heading).If(c.heading != ""), c.inside)
}

// table gives a table whose rows may become blocks: the roles keep it a table
// for readers of the screen.
func table(name markup.Name, caption string, heads []string, rows ...piece) piece {
	head := el("tr", attr("role", "row"), each(len(heads), func(i int) piece {
		return el("th", attr("role", "columnheader"), attr("scope", "col"), text(heads[i]))
	}))
	return el("table", class(name), attr("role", "table"), el("caption", text(caption)), el("thead", attr("role", "rowgroup"), head), join(rows...))
}

// tbody gives the rows of a table.
func tbody(rows ...piece) piece { return el("tbody", attr("role", "rowgroup"), join(rows...)) }

// tr gives a row: its heading, then its cells.
func tr(heading piece, cells ...cell) piece {
	return el("tr", attr("role", "row"), el("th", attr("role", "rowheader"), attr("scope", "row"), heading),
		each(len(cells), func(i int) piece { return td(cells[i]) }))
}

// row gives a row of figures below the heads of a table.
func row(heads []string, heading piece, figures ...string) piece {
	cells := make([]cell, len(figures))
	for i, f := range figures {
		cells[i] = num(heads[i+1], f)
	}
	return tr(heading, cells...)
}

// fact is a line of a list of facts.
type fact struct{ name, value string }

func facts(list ...fact) piece {
	return el("dl", class("facts"), each(len(list), func(i int) piece {
		f := list[i]
		if f.value == "" {
			return none
		}
		return join(el("dt", text(f.name)), el("dd", text(f.value)))
	}))
}

// headed gives pieces below a heading, or nothing if there are none.
func headed(title string, pieces []piece) piece {
	if len(pieces) == 0 {
		return none
	}
	return join(el("h3", text(title)), join(pieces...))
}

// under gives a line below a name, or nothing.
func under(name markup.Name, words string) piece {
	if words == "" {
		return none
	}
	return el("span", class(name), text(words))
}

// gives is under for what a name or figure comes from.
func gives(words string) piece { return under("gives", words) }

// mark gives a word that stands out behind others.
func mark(name markup.Name, word string) piece {
	return join(text(" "), el("span", class(name), text(word)))
}

// kWh writes an energy that is text already with its unit.
func kWh(amount string) string { return amount + say.Thin + "kWh" }

// percent writes a number that is text already with its sign of percent.
func percent(amount string) string { return amount + say.Thin + "%" }
