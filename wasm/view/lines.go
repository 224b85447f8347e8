package view

import (
	"strconv"

	"splittally/calc"
	"splittally/calc/chart/markup"
	"splittally/calc/intake"
	"splittally/calc/remark"
	"splittally/calc/say"
)

// mostLines bounds the lists of lines; a text can have thousands.
const mostLines = 40

// pasted is a text of readings with what became of it.
type pasted struct {
	id   string // begins the ids of what is drawn for it
	path string // of its field
	text string
	calc.Readings
}

// lines accounts for every line of a pasted text, and lists the wrong ones as
// buttons that mark them in it.
func (s *sheet) lines(t pasted) markup.Markup {
	if t.text == "" {
		return markup.Markup{}
	}
	var wrong []remark.Problem
	for _, p := range s.f.Problems {
		if p.Path == t.path && p.Line > 0 {
			wrong = append(wrong, p)
		}
	}
	account := capital(say.Counted(len(t.Lines), "line", "lines")) + ": " + strconv.Itoa(t.Used) + " used, " +
		strconv.Itoa(t.Ignored) + " ignored, " + strconv.Itoa(t.Wrong) + " wrong."
	if t.Unit != "" && t.Used > 0 {
		account += " Unit: " + t.Unit + "."
	}
	return el("div", class("lines"), el("p", text(account)), t.wrong(wrong), s.ignored(t))
}

func (t pasted) wrong(problems []remark.Problem) markup.Markup {
	if len(problems) == 0 {
		return markup.Markup{}
	}
	total := strconv.Itoa(len(t.Lines))
	items := markup.Each(problems[:min(len(problems), mostLines)], func(p remark.Problem) markup.Markup {
		from, to := place(t.text, p.Line, p.Column, p.Found)
		return el("li", el("button", markup.A("type", "button"), markup.A("data-do", "select"), markup.A("data-at", t.path),
			markup.A("data-from", strconv.Itoa(from)), markup.A("data-to", strconv.Itoa(to)),
			markup.A("data-line", strconv.Itoa(p.Line)), markup.A("data-lines", total), text(capital(p.String())+".")))
	})
	return markup.Join(el("ul", markup.A("aria-label", "Wrong lines"), items), more(len(problems)))
}

// ignored lists the lines that hold no reading, with the reason of each.
func (s *sheet) ignored(t pasted) markup.Markup {
	var told []intake.Line
	for _, l := range t.Lines {
		if l.Use == intake.Ignored && l.Why != "" {
			told = append(told, l)
		}
	}
	if len(told) == 0 {
		return markup.Markup{}
	}
	return s.folded("more", t.id+"-ignored", "Lines that were ignored", func() markup.Markup {
		items := markup.Each(told[:min(len(told), mostLines)], func(l intake.Line) markup.Markup {
			return el("li", text("Line "+strconv.Itoa(l.Number)+": "+l.Why))
		})
		return markup.Join(el("ul", items), more(len(told)))
	})
}

func more(n int) markup.Markup {
	if n <= mostLines {
		return markup.Markup{}
	}
	return p("And " + strconv.Itoa(n-mostLines) + " more.")
}
