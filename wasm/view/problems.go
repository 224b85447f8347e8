package view

import (
	"strconv"
	"strings"

	"splittally/calc"
	"splittally/calc/remark"
	"splittally/calc/say"
	"splittally/calc/tariff"
)

// told leaves out what is said of readings that nobody has pasted yet: a blank
// field is not wrong, and the verdict says that it is awaited.
func told(c calc.Case, problems []remark.Problem) []remark.Problem {
	blank := map[string]bool{}
	for i, m := range c.Monitors {
		blank["monitors."+strconv.Itoa(i)+".readings"] = strings.TrimSpace(m.Readings) == ""
	}
	var out []remark.Problem
	for _, p := range problems {
		if !blank[p.Path] {
			out = append(out, p)
		}
	}
	return out
}

// sentence tells a problem to a person, without its place.
func sentence(p remark.Problem) string {
	if p.Found == "" {
		return "Expected here: " + p.Wanted + "."
	}
	return "“" + p.Found + "” can’t be used here. Expected: " + p.Wanted + "."
}

// says gives the message at each field that has a problem.
func (s *sheet) says() map[string]string {
	out := map[string]string{}
	wrong := map[string]int{}
	for _, p := range s.f.Problems {
		if p.Line > 0 {
			wrong[p.Path]++
			continue
		}
		out[p.Path] = strings.TrimSpace(out[p.Path] + " " + sentence(p))
	}
	for path, n := range wrong {
		out[path] = strings.TrimSpace(out[path] + " " + capital(say.Counted(n, "line", "lines")) + " could not be read and are listed below; the rest is used.")
		if n == 1 {
			out[path] = strings.Replace(out[path], "are listed", "is listed", 1)
		}
	}
	return out
}

// mend lists the problems of single fields, each with a button to its field.
// Lines of pasted text have a list of their own beside the text.
func (s *sheet) mend() piece {
	var out []piece
	for _, p := range s.f.Problems {
		if p.Line == 0 {
			out = append(out, el("li", el("button", attr("type", "button"), attr("data-do", "go"), attr("data-at", p.Path),
				text(say.Place(p.Path)+": "+sentence(p)))))
		}
	}
	if len(out) == 0 {
		return none
	}
	return el("ul", append([]piece{class("todo"), attr("aria-label", "To mend")}, out...)...)
}

// toMend counts what is wrong: fields, and lines of pasted texts.
func (s *sheet) toMend() int { return len(s.f.Problems) }

// Refused tells why a text is not opened. what names it.
func Refused(what string, problems []remark.Problem) string {
	first := problems[0]
	found := "it is " + first.Found
	if first.Path != "" {
		found = "at " + first.Path + " there is " + first.Found
	}
	more := ""
	if n := len(problems) - 1; n > 0 {
		more = " " + capital(say.Counted(n, "more thing is", "more things are")) + " wrong with it."
	}
	return capital(what) + " can’t be opened: " + found + ". Expected: " + first.Wanted + "." + more
}

// FileName gives the name under which a case is saved: its title and the day
// of its last edit.
func FileName(c calc.Case) string {
	return "split-tally" + plainName(c.Title) + plainName(c.Today) + ".json"
}

// TableName gives the name under which a table of a case is saved for a
// spreadsheet.
func TableName(c calc.Case, what string) string {
	return strings.TrimSuffix(FileName(c), ".json") + "-" + what + ".csv"
}

// PlanName gives the name under which a tariff is saved.
func PlanName(s tariff.Schedule) string { return "tariff" + plainName(s.Name) + ".json" }

// plainName gives a title in letters that every system takes, with a hyphen
// before it; nothing if there is none.
func plainName(title string) string {
	var b strings.Builder
	for _, r := range strings.ToLower(title) {
		switch {
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9':
			b.WriteRune(r)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
		if b.Len() >= 40 {
			break
		}
	}
	if name := strings.Trim(b.String(), "-"); name != "" {
		return "-" + name
	}
	return ""
}
