package form

import (
	"strconv"
	"strings"

	"splittally/calc"
)

// Answered gives the answers with this choice for this question.
func Answered(answers []calc.Answer, question, choice string) []calc.Answer {
	out := make([]calc.Answer, 0, len(answers)+1)
	for _, a := range answers {
		if a.Question != question {
			out = append(out, a)
		}
	}
	return append(out, calc.Answer{Question: question, Choice: choice})
}

// Forgotten gives the answers after item index of a list was replaced: those
// about it go.
func Forgotten(answers []calc.Answer, list string, index int) []calc.Answer {
	return without(answers, list, index, 0)
}

// Removed gives the answers after item index of a list is gone: those about it
// go too, those about later items move up with them.
func Removed(answers []calc.Answer, list string, index int) []calc.Answer {
	return without(answers, list, index, 1)
}

// without leaves out the answers about an item; later items move up by up.
func without(answers []calc.Answer, list string, index, up int) []calc.Answer {
	var out []calc.Answer
	for _, a := range answers {
		rest, inside := strings.CutPrefix(a.Question, list+".")
		number, tail, _ := strings.Cut(rest, ".")
		at, err := strconv.Atoi(number)
		switch {
		case !inside || err != nil || at < index:
		case at == index:
			continue
		default:
			a.Question = list + "." + strconv.Itoa(at-up) + "." + tail
		}
		out = append(out, a)
	}
	return out
}
