package view

import (
	"splittally/calc"
	"splittally/calc/chart/markup"
	"splittally/calc/report"
)

// Paper draws a report for printing: the same words as its Markdown, and
// pictures. Its ids are its own, as the page below it has pictures of its own.
func Paper(p report.Paper, c calc.Case, f calc.Findings) string {
	s := &sheet{c: c, f: f}
	out := join(el("h2", text(p.Title)), each(len(p.Lead), func(i int) piece { return para("lead", tied(p.Lead[i])) }),
		each(len(p.Sections), func(i int) piece { return s.part(p.Sections[i]) }), para("stamp", p.Stamp))
	return out.(markup.Markup).String()
}

// part draws a section. Pictures that follow one another stand side by side.
func (s *sheet) part(of report.Section) piece {
	var pictures, rest []piece
	for _, b := range of.Blocks {
		if b.Picture.Kind != report.NoPicture {
			pictures = append(pictures, s.picture(b.Picture))
			continue
		}
		rest = append(rest, block(b))
	}
	out := join(rest...)
	if len(pictures) > 0 {
		out = join(el("div", class("pictures"), join(pictures...)), out)
	}
	if of.Title == "" {
		return out
	}
	return join(el("h3", text(of.Title)), out)
}

func block(b report.Block) piece {
	words := each(len(b.Words), func(i int) piece { return prose(b.Words[i]) })
	if len(b.Points) > 0 {
		words = join(words, bullets(b.Points))
	}
	if b.Table == nil {
		return words
	}
	t := b.Table
	caption := none
	if t.Caption != "" {
		caption = el("caption", text(t.Caption))
	}
	cells := func(name markup.Name, of []string) piece {
		return el("tr", each(len(of), func(i int) piece {
			return el(name, markup.Class("num").If(t.Numbers[i]), text(of[i]))
		}))
	}
	return join(words, el("table", caption, el("thead", cells("th", t.Head)),
		el("tbody", each(len(t.Rows), func(i int) piece { return cells("td", t.Rows[i]) }))))
}

// picture draws what a picture names; nothing where there is nothing to draw.
func (s *sheet) picture(of report.Picture) piece {
	const begins = "paper-"
	if of.Kind == report.Stick {
		for _, j := range s.judgements() {
			if j.instrument == of.Instrument {
				return s.stick(j, begins)
			}
		}
		return none
	}
	last := pair{period: -1}
	for _, p := range s.compared() {
		if p.instrument == of.Instrument {
			last = p
		}
	}
	if last.period < 0 {
		return none
	}
	return s.daysFigure(last, s.standsOut(of.Instrument), begins)
}
