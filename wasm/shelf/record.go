package shelf

import (
	"errors"
	"strconv"
	"strings"
	"unicode/utf8"

	"splittally/calc"
	"splittally/calc/document"
)

// record is what is kept of a case under its key: lines of a name and a text,
// then its last steps, then the case as a file would hold it.
type record struct {
	id      stamp
	at      int64 // when it was written; later than all it is built on
	seen    seen
	name    string // what a list calls it
	isAway  bool
	done    int    // the number of the last step that is done
	history string // the id of the older steps
	tail    []step // those after them
	text    string // of calc.Save
}

const (
	recordMark = "split-tally case 2"
	mostName   = 80 // letters
)

var errRecord = errors.New("it is cut short or altered")

// String writes the record down.
func (r record) String() string {
	var b strings.Builder
	b.WriteString(recordMark + "\n")
	line := func(name, text string) { b.WriteString(name + " " + text + "\n") }
	line("id", r.id.String())
	line("at", strconv.FormatInt(r.at, 10))
	line("seen", r.seen.String())
	line("name", strconv.Quote(r.name))
	line("away", strconv.FormatBool(r.isAway))
	line("done", strconv.Itoa(r.done))
	line("history", r.history)
	tail := writeSteps(r.tail)
	line("tail", strconv.Itoa(len(tail)))
	body := tail + r.text
	line("sum", strconv.FormatUint(sum(body), 16))
	return b.String() + body
}

// readRecord reads a record back. What is not as it was written is an error.
func readRecord(text string) (record, error) {
	var r record
	mark, rest, _ := strings.Cut(text, "\n")
	if mark != recordMark {
		return r, errRecord
	}
	next := func(name string) (value string) {
		line, after, _ := strings.Cut(rest, "\n")
		value, ok := strings.CutPrefix(line, name+" ")
		if !ok {
			return ""
		}
		rest = after
		return value
	}
	var ok1, ok2, ok3 bool
	r.id, ok1 = readStamp(next("id"))
	at, err1 := strconv.ParseInt(next("at"), 10, 64)
	r.at = at
	r.seen, ok2 = readSeen(next("seen"))
	name, err2 := strconv.Unquote(next("name"))
	r.name, r.isAway = name, next("away") == "true"
	done, err3 := strconv.Atoi(next("done"))
	r.done, r.history = done, next("history")
	tail, err4 := strconv.Atoi(next("tail"))
	total := next("sum")
	if err1 != nil || err2 != nil || err3 != nil || err4 != nil || !ok1 || !ok2 || tail < 0 || tail > len(rest) ||
		total != strconv.FormatUint(sum(rest), 16) {
		return r, errRecord
	}
	r.text = rest[tail:]
	if r.tail, ok3 = readSteps(rest[:tail]); !ok3 {
		return r, errRecord
	}
	return r, nil
}

// sum tells whether a text is as it was written: FNV-1a, 64 bits.
func sum(text string) uint64 {
	h := uint64(14695981039346656037)
	for i := 0; i < len(text); i++ {
		h = (h ^ uint64(text[i])) * 1099511628211
	}
	return h
}

// flat writes a case down by its paths.
func flat(c calc.Case) document.Flat { return document.Flatten(document.Write(c.Fields)) }

// caseOf makes a case of its paths.
func caseOf(f document.Flat) (c calc.Case, ok bool) {
	problems := document.Read(f.Node(), c.Fields)
	return c, len(problems) == 0
}

// Name is what a list calls a case: its title, or else its dates, or its monitor.
func Name(c calc.Case) string {
	if title := strings.TrimSpace(c.Title); title != "" {
		return short(title)
	}
	from, to := "", ""
	for _, p := range c.Periods {
		if from == "" {
			from = strings.TrimSpace(p.From)
		}
		if p := strings.TrimSpace(p.To); p != "" {
			to = p
		}
	}
	switch {
	case from != "" && to != "":
		return short("Bills from " + from + " to " + to)
	case from != "":
		return short("Bill from " + from)
	}
	for i := range c.Monitors {
		if name := strings.TrimSpace(c.Monitors[i].Name); name != "" {
			return short(name)
		}
	}
	return "A case without a title"
}

// short cuts a name to what a list has room for.
func short(name string) string {
	for i, n := 0, 0; i < len(name); n++ {
		if n == mostName {
			return name[:i] + "…"
		}
		_, size := utf8.DecodeRuneInString(name[i:])
		i += size
	}
	return name
}
