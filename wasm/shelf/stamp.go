package shelf

import (
	"strconv"
	"strings"
)

// stamp names a record: the tab that wrote it, and which of its records it is.
type stamp struct {
	tab string
	n   int // from 1
}

func (s stamp) String() string { return s.tab + "." + strconv.Itoa(s.n) }

func readStamp(text string) (stamp, bool) {
	tab, number, _ := strings.Cut(text, ".")
	n, err := strconv.Atoi(number)
	return stamp{tab, n}, err == nil && n > 0 && tab != ""
}

// seen is all the records that a document is built on: of each tab the last one,
// which was built on those before it. Who wrote last stands first.
type seen []stamp

// mostSeen bounds the tabs that a case remembers. Each opening of the page is
// one; what would be forgotten is that of an opening long ago.
const mostSeen = 24

func (s seen) has(r stamp) bool {
	for _, last := range s {
		if last.tab == r.tab {
			return last.n >= r.n
		}
	}
	return false
}

// with gives what is built on both.
func (s seen) with(others ...stamp) seen {
	out := make(seen, 0, len(s)+len(others))
	for _, last := range append(append(out, others...), s...) {
		at := 0
		for at < len(out) && out[at].tab != last.tab {
			at++
		}
		if at == len(out) {
			out = append(out, last)
		}
		out[at].n = max(out[at].n, last.n)
	}
	return out[:min(len(out), mostSeen)]
}

func (s seen) String() string {
	var words []string
	for _, last := range s {
		words = append(words, last.String())
	}
	return strings.Join(words, " ")
}

func readSeen(text string) (s seen, ok bool) {
	for _, word := range strings.Fields(text) {
		last, ok := readStamp(word)
		if !ok {
			return s, false
		}
		s = append(s, last)
	}
	return s, true
}
