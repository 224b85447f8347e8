package view

import (
	"strconv"
	"strings"

	"splittally/calc"
	"splittally/calc/document"
	"splittally/calc/say"
)

// heading is the title of the case and the day of its last edit, for the printed page.
func (s *sheet) heading() piece {
	if s.c.Title == "" && s.c.Today == "" {
		return none
	}
	return el("p", el("strong", text(s.c.Title)), text(" "+s.c.Today))
}

// inputs is what was typed, as text, for the printed page: fields cut long
// texts off there.
func (s *sheet) inputs() piece {
	c := s.c
	c.Answers = nil
	var list []fact
	var texts []piece
	s.take("", document.Write(c.Fields), &list, &texts)
	if len(list) == 0 && len(texts) == 0 {
		return s.filesRead()
	}
	return join(s.filesRead(), el("h2", text("What was typed")), facts(list...), join(texts...))
}

// filesRead tells what the files of readings were and how they were read, whose
// cards the printed page leaves out.
func (s *sheet) filesRead() piece {
	var out []piece
	for i := range s.f.Readings {
		out = append(out, fileRead("Monitor "+strconv.Itoa(i+1), &s.f.Readings[i]))
	}
	out = append(out, fileRead("The utility’s meter", &s.f.MeterDays), s.recordings())
	if isEmpty(join(out...)) {
		return none
	}
	return join(el("h2", text("What was read from files")), join(out...))
}

func fileRead(of string, read *calc.Readings) piece {
	if !read.IsRecord {
		return none
	}
	r := read.Record
	told := []string{"Readings: " + say.Readings(r.Source), "Clock: " + r.Source.Zone, "Without readings: " + say.Lost(r)}
	for i, c := range r.Channels {
		told = append(told, say.Column(c, i)+": "+say.Role(c.Role)+"; "+c.Unit)
	}
	told = append(told, r.Source.Said...)
	for _, o := range r.Oddities {
		told = append(told, say.RecordOddity(o))
	}
	return join(prose(of+": "+named(r.Source.File)), bullets(told))
}

// take walks the document and sorts its texts into short ones and long ones.
func (s *sheet) take(path string, n document.Node, list *[]fact, texts *[]piece) {
	for _, m := range n.Names {
		if m.Name != "record" && m.Name != "marks" { // thousands of hours or pulses, which nobody typed
			s.take(strings.TrimPrefix(path+"."+m.Name, "."), m.Node, list, texts)
		}
	}
	if n.Kind == document.List && len(n.Items) > 0 && n.Items[0].Kind == document.Leaf {
		var lines []string
		for _, item := range n.Items {
			lines = append(lines, item.Text)
		}
		*texts = append(*texts, prose(say.Place(path)), el("pre", text(strings.Join(lines, "\n"))))
		return
	}
	for i, item := range n.Items {
		s.take(path+"."+strconv.Itoa(i), item, list, texts)
	}
	if n.Kind == document.Leaf && n.Text != "" && path != "" {
		*list = append(*list, fact{say.Place(path), asShown(path, n.Text)})
	}
}

// asShown gives the words that the page has for a choice.
func asShown(path, value string) string {
	if strings.HasPrefix(path, "timing.") && strings.HasSuffix(path, ".how") {
		return howWords[value]
	}
	return value
}
