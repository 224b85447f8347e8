package changes

import (
	"slices"
	"strconv"
	"strings"

	"splittally/calc"
	"splittally/calc/sorted"
)

// renew notes that the text of a monitor, by its path in mine or in theirs, is
// new, so that the answers about it are theirs'.
func (m *merger) renew(whose int, path string) {
	m.redone = append(m.redone, strconv.Itoa(whose)+path)
}

// isPasted says that a question is about a pasted text, and which monitor's. A
// link leaves such answers out, as its own texts need none.
func isPasted(question string) (path string, is bool) {
	steps := strings.Split(question, ".")
	switch {
	case steps[0] == "meter":
		return "meter", true
	case steps[0] == "monitors" && len(steps) > 1:
		return steps[0] + "." + steps[1], steps[len(steps)-1] != "columns"
	}
	return "", false
}

// answerItems tells the answers that differ, but for those about pasted texts and
// those about what only one case has.
func (m *merger) answerItems() {
	mine, theirs := choices(m.mine), m.asMine()
	for _, id := range inOrder(union(mine, theirs)) {
		if _, is := isPasted(id); is || mine[id] == theirs[id] {
			continue
		}
		if _, both := renamed(m.paired, id); !both && theirs[id] == "" {
			continue
		}
		m.wants("answer "+id, m.where(id), "the answer to a question: "+what(id), shown(id, mine[id]), shown(id, theirs[id]))
	}
}

// inOrder gives the keys of a set in their order.
func inOrder(set map[string]bool) (keys []string) {
	for key := range set {
		keys = append(keys, key)
	}
	sorted.Stable(keys, strings.Compare)
	return keys
}

// choices gives the answers of a case by their questions.
func choices(c calc.Case) map[string]string {
	out := map[string]string{}
	for _, a := range c.Answers {
		out[a.Question] = a.Choice
	}
	return out
}

// asMine gives the answers of theirs by what the questions are called in mine.
func (m *merger) asMine() map[string]string {
	out := map[string]string{}
	for _, a := range m.theirs.Answers {
		if id, ok := renamed(m.asTheirs, a.Question); ok {
			out[id] = a.Choice
		}
	}
	return out
}

// renamed gives what a question is called where the items of lists have other
// numbers; ok is false if one of them has none.
func renamed(numbers map[string]int, id string) (name string, ok bool) {
	steps := strings.Split(id, ".")
	was := ""
	for i, step := range steps {
		if was = join(was, step); !isNumber(step) {
			continue
		}
		now, ok := numbers[was]
		if !ok {
			return "", false
		}
		steps[i] = strconv.Itoa(now)
	}
	return strings.Join(steps, "."), true
}

// answers gives the answers of the merged case: mine, those that were taken, and
// those that new texts need.
func (m *merger) answers() (out []calc.Answer) {
	had := map[string]bool{}
	put := func(numbers map[string]int, id, choice string) {
		id, ok := renamed(numbers, id)
		if ok && choice != "" && !had[id] {
			had[id] = true
			out = append(out, calc.Answer{Question: id, Choice: choice})
		}
	}
	for _, id := range inOrder(union(m.needed, nil)) {
		put(m.moved[0], id, m.needed[id])
	}
	theirs := m.asMine()
	for _, a := range m.mine.Answers {
		path, is := isPasted(a.Question)
		switch {
		case is && slices.Contains(m.redone, "0"+path):
		case slices.Contains(m.take, "answer "+a.Question):
			put(m.moved[0], a.Question, theirs[a.Question])
		default:
			put(m.moved[0], a.Question, a.Choice)
		}
	}
	for _, a := range m.theirs.Answers {
		id, both := renamed(m.asTheirs, a.Question)
		path, is := isPasted(a.Question)
		switch {
		case !both, is && slices.Contains(m.redone, "1"+path):
			put(m.moved[1], a.Question, a.Choice)
		case slices.Contains(m.take, "answer "+id):
			put(m.moved[0], id, a.Choice)
		}
	}
	return out
}
