package view

import (
	"strconv"
	"strings"

	"splittally/calc/chart/markup"
	"splittally/calc/remark"
)

// questions puts each question near what it is about.
func (s *sheet) questions() {
	for i, q := range s.f.Questions {
		s.put(questionSlot(q), s.question(i, q))
	}
}

// questionSlot names the slot of a question, by its path.
func questionSlot(q remark.Question) string {
	steps := strings.Split(q.Path, ".")
	switch steps[0] {
	case "monitors", "periods", "plans":
		if len(steps) > 1 {
			if _, err := strconv.Atoi(steps[1]); err == nil {
				return steps[0] + "." + steps[1] + ".questions"
			}
		}
	case "checks", "price", "timing":
		return steps[0] + ".questions"
	case "meter", "confidence":
		return "judging.questions"
	}
	return "questions"
}

func (s *sheet) question(number int, q remark.Question) piece {
	name := id("question", number)
	choices := join()
	for k, c := range q.Choices {
		choices = join(choices, choice(id("question", number, k), name, q, c, s.errorsUnder(q, c)))
	}
	return el("fieldset", class("asks"), attr("id", name),
		el("legend", text(q.Asks)), para("quiet", q.Why), choices)
}

// errorsUnder gives the error of each monitor if a choice about a bill's dates
// were taken; "" for other questions.
func (s *sheet) errorsUnder(q remark.Question, c remark.Choice) string {
	var out []string
	for _, p := range s.pairs() {
		if q.ID != "periods."+strconv.Itoa(p.period)+".convention" {
			continue
		}
		for _, w := range p.Ways {
			if string(w.Way.Convention) == c.ID && w.Known {
				said := percent(sign(w.Percent.StringFixed(1)))
				if len(s.f.Instruments) > 1 {
					said = s.name(p) + " " + said
				}
				out = append(out, said)
			}
		}
	}
	if len(out) == 0 {
		return ""
	}
	return "; error " + strings.Join(out, ", ")
}

// choice is one answer of a question. results is what it would give beside
// what the question itself says.
func choice(id, group string, q remark.Question, c remark.Choice, results string) piece {
	taken := c.ID == q.Taken
	label := []piece{text(c.Label)}
	if taken && !q.Answered {
		label = append(label, mark("mark", "taken for now"))
	}
	if c.Gives != "" && c.Gives != c.Label {
		label = append(label, gives("gives "+c.Gives+results))
	}
	return el("label",
		el("input", attr("type", "radio"), attr("id", id), attr("name", group), attr("value", c.ID),
			attr("data-question", q.ID), markup.Is("checked").If(taken && q.Answered)),
		el("span", label...))
}

// unanswered counts the questions that nobody has answered, and gives the first one.
func (s *sheet) unanswered() (n, first int) {
	first = -1
	for i, q := range s.f.Questions {
		if q.Answered {
			continue
		}
		if n++; first < 0 {
			first = i
		}
	}
	return n, first
}
