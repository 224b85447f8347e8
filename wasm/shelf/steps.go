package shelf

import (
	"strconv"
	"strings"

	"splittally/calc/document"
)

// step is one thing that was done to a case. Steps are numbered from 1 for all
// the life of a case; those of a history follow one another without a gap.
type step struct {
	n         int
	began, at int64 // when it began and was added to last, in milliseconds
	words     string
	parts     []part
}

// part is one text that a step changed, or the length of one list. Of a text
// only the middle that changed is kept.
type part struct {
	path          string
	isItems       bool
	head, tail    int // bytes before and behind the middle, which stayed
	before, after string
}

// size is about how many bytes a step takes, written down.
func (s step) size() int {
	n := 32 + len(s.words)
	for _, p := range s.parts {
		n += 24 + len(p.path) + len(p.before) + len(p.after)
	}
	return n
}

// partOf makes a part of a change.
func partOf(c document.Change) part {
	b, a := c.Before, c.After
	if c.IsItems {
		return part{path: c.Path, isItems: true, before: b, after: a}
	}
	most := min(len(b), len(a))
	head := 0
	for head < most && b[head] == a[head] {
		head++
	}
	tail := 0
	for tail < most-head && b[len(b)-1-tail] == a[len(a)-1-tail] {
		tail++
	}
	return part{c.Path, false, head, tail, b[head : len(b)-tail], a[head : len(a)-tail]}
}

// of gives what a part makes of a text, forwards or back; ok is false if it does
// not fit there.
func (p part) of(text string, back bool) (out string, ok bool) {
	before, after := p.before, p.after
	if back {
		before, after = after, before
	}
	if p.isItems {
		return after, text == before
	}
	if p.head < 0 || p.tail < 0 || len(text) != p.head+len(before)+p.tail || text[p.head:len(text)-p.tail] != before {
		return "", false
	}
	return text[:p.head] + after + text[len(text)-p.tail:], true
}

// of gives the document after a step, or before it. If any part does not fit
// there is none.
func (s step) of(f document.Flat, back bool) (document.Flat, bool) {
	out := clone(f)
	for _, p := range s.parts {
		if p.isItems {
			after, ok := p.of(strconv.Itoa(f.Items[p.path]), back)
			n, err := strconv.Atoi(after)
			if !ok || err != nil {
				return f, false
			}
			out.Items[p.path] = n
			continue
		}
		after, ok := p.of(f.Texts[p.path], back)
		if !ok {
			return f, false
		}
		out.Texts[p.path] = after
		if after == "" {
			delete(out.Texts, p.path)
		}
	}
	return out, true
}

func clone(f document.Flat) document.Flat {
	out := document.Flat{Texts: make(map[string]string, len(f.Texts)), Items: make(map[string]int, len(f.Items))}
	for path, text := range f.Texts {
		out.Texts[path] = text
	}
	for path, n := range f.Items {
		if n > 0 {
			out.Items[path] = n
		}
	}
	return out
}

// writeSteps writes steps down, a line for each and one for each of its parts.
func writeSteps(steps []step) string {
	var b strings.Builder
	for _, s := range steps {
		b.WriteString("= " + strconv.Itoa(s.n) + " " + strconv.FormatInt(s.began, 10) + " " + strconv.FormatInt(s.at, 10) + " " + strconv.Quote(s.words) + "\n")
		for _, p := range s.parts {
			kind := ". "
			if p.isItems {
				kind = "# "
			}
			b.WriteString(kind + strconv.Quote(p.path) + " " + strconv.Itoa(p.head) + " " + strconv.Itoa(p.tail) + " " + strconv.Quote(p.before) + " " + strconv.Quote(p.after) + "\n")
		}
	}
	return b.String()
}

// readSteps reads them back.
func readSteps(text string) (steps []step, ok bool) {
	for text != "" {
		line, rest, whole := strings.Cut(text, "\n")
		kind, line, _ := strings.Cut(line, " ")
		text = rest
		r := words{rest: line}
		switch {
		case !whole:
			return steps, false
		case kind == "=":
			steps = append(steps, step{n: int(r.number()), began: r.number(), at: r.number(), words: r.text()})
		case len(steps) > 0 && (kind == "." || kind == "#"):
			last := &steps[len(steps)-1]
			last.parts = append(last.parts, part{path: r.text(), isItems: kind == "#", head: int(r.number()), tail: int(r.number()), before: r.text(), after: r.text()})
		default:
			return steps, false
		}
		if r.failed || r.rest != "" || len(steps) > 1 && steps[len(steps)-1].n != steps[len(steps)-2].n+1 {
			return steps, false
		}
	}
	return steps, true
}

// words reads the numbers and quoted texts of a line.
type words struct {
	rest   string
	failed bool
}

func (w *words) number() int64 {
	word, rest, _ := strings.Cut(w.rest, " ")
	n, err := strconv.ParseInt(word, 10, 64)
	w.rest, w.failed = rest, w.failed || err != nil
	return n
}

func (w *words) text() string {
	quoted, err := strconv.QuotedPrefix(w.rest)
	if err != nil {
		w.failed = true
		return ""
	}
	text, err := strconv.Unquote(quoted)
	w.rest, w.failed = strings.TrimPrefix(w.rest[len(quoted):], " "), w.failed || err != nil
	return text
}
