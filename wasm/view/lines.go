package view

import (
	"strconv"

	"splittally/calc/chart/markup"
	"splittally/calc/intake"
	"splittally/calc/remark"
	"splittally/calc/say"
)

// mostLines bounds the lists of lines; a text can have thousands.
const mostLines = 40

// lines accounts for every line pasted for a monitor, and lists the wrong ones
// as buttons that mark them in the text.
func (s *sheet) lines(monitor int) markup.Markup {
	r := s.f.Readings[monitor]
	path := "monitors." + strconv.Itoa(monitor) + ".readings"
	var wrong []remark.Problem
	for _, p := range s.f.Problems {
		if p.Path == path && p.Line > 0 {
			wrong = append(wrong, p)
		}
	}
	if s.c.Monitors[monitor].Readings == "" {
		return markup.Markup{}
	}
	account := capital(say.Counted(len(r.Lines), "line", "lines")) + ": " + strconv.Itoa(r.Used) + " used, " +
		strconv.Itoa(r.Ignored) + " ignored, " + strconv.Itoa(r.Wrong) + " wrong."
	if r.Unit != "" && r.Used > 0 {
		account += " Unit: " + r.Unit + "."
	}
	return el("div", class("lines"), el("p", text(account)), s.wrong(monitor, path, wrong), s.ignored(monitor, r.Lines))
}

func (s *sheet) wrong(monitor int, path string, problems []remark.Problem) markup.Markup {
	if len(problems) == 0 {
		return markup.Markup{}
	}
	pasted := s.c.Monitors[monitor].Readings
	total := strconv.Itoa(len(s.f.Readings[monitor].Lines))
	items := markup.Each(problems[:min(len(problems), mostLines)], func(p remark.Problem) markup.Markup {
		from, to := place(pasted, p.Line, p.Column, p.Found)
		return el("li", el("button", markup.A("type", "button"), markup.A("data-do", "select"), markup.A("data-at", path),
			markup.A("data-from", strconv.Itoa(from)), markup.A("data-to", strconv.Itoa(to)),
			markup.A("data-line", strconv.Itoa(p.Line)), markup.A("data-lines", total), text(capital(p.String())+".")))
	})
	return markup.Join(el("ul", markup.A("aria-label", "Wrong lines"), items), more(len(problems)))
}

// ignored lists the lines that hold no reading, with the reason of each.
func (s *sheet) ignored(monitor int, all []intake.Line) markup.Markup {
	var told []intake.Line
	for _, l := range all {
		if l.Use == intake.Ignored && l.Why != "" {
			told = append(told, l)
		}
	}
	if len(told) == 0 {
		return markup.Markup{}
	}
	return s.folded("more", id("ignored", monitor), "Lines that were ignored", func() markup.Markup {
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
