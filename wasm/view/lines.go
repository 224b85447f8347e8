package view

import (
	"strconv"

	"splittally/calc"
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
func (s *sheet) lines(t pasted) piece {
	if t.text == "" {
		return none
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
	return el("div", class("lines"), prose(account), t.wrong(wrong), s.ignored(t))
}

func (t pasted) wrong(problems []remark.Problem) piece {
	if len(problems) == 0 {
		return none
	}
	total := strconv.Itoa(len(t.Lines))
	items := each(len(problems[:min(len(problems), mostLines)]), func(i int) piece {
		p := problems[:min(len(problems), mostLines)][i]
		from, to := place(t.text, p.Line, p.Column, p.Found)
		return el("li", el("button", attr("type", "button"), attr("data-do", "select"), attr("data-at", t.path),
			attr("data-from", strconv.Itoa(from)), attr("data-to", strconv.Itoa(to)),
			attr("data-line", strconv.Itoa(p.Line)), attr("data-lines", total), text(capital(p.String())+".")))
	})
	return join(el("ul", attr("aria-label", "Wrong lines"), items), more(len(problems)))
}

// ignored lists the lines that hold no reading, with the reason of each.
func (s *sheet) ignored(t pasted) piece {
	var told []intake.Line
	for _, l := range t.Lines {
		if l.Use == intake.Ignored && l.Why != "" {
			told = append(told, l)
		}
	}
	if len(told) == 0 {
		return none
	}
	return s.folded("more", t.id+"-ignored", "Lines that were ignored", func() piece {
		items := each(len(told[:min(len(told), mostLines)]), func(i int) piece {
			l := told[:min(len(told), mostLines)][i]
			return el("li", text("Line "+strconv.Itoa(l.Number)+": "+l.Why))
		})
		return join(el("ul", items), more(len(told)))
	})
}

func more(n int) piece {
	if n <= mostLines {
		return none
	}
	return prose("And " + strconv.Itoa(n-mostLines) + " more.")
}
