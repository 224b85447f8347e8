package shelf

import (
	"splittally/calc/document"
)

// history is the steps of a case, the oldest first: those that are done, and
// behind them those that were undone and can be done again.
type history struct {
	steps   []step
	done    int  // how many are done
	goes    bool // the last one may go on: nothing came in between
	dropped int  // the number of the last step that is forgotten
}

// Bounds of a history: the steps and their bytes, how long a step waits for the
// next key, and how long it goes on at all, in milliseconds.
const (
	mostSteps, mostBytes = 200, 200_000
	stepWaits, stepLasts = 2000, 15_000
)

// next is the number of the next step.
func (h *history) next() int {
	if h.done > 0 {
		return h.steps[h.done-1].n + 1
	}
	return h.dropped + 1
}

// add appends a step of changes. Keys in one field within a short while go on
// with the step before, and if they come back to where it began there was none.
func (h *history) add(changes []document.Change, at int64, words func([]document.Change) string) {
	h.steps = h.steps[:h.done]
	if h.goes && h.done > 0 {
		last := &h.steps[h.done-1]
		if joined, ok := last.join(changes, at); ok {
			last.parts, last.at = []part{joined}, at
			if joined.before == joined.after {
				h.done--
				h.steps = h.steps[:h.done]
				h.goes = false
			}
			return
		}
	}
	s := step{n: h.next(), began: at, at: at, words: words(changes)}
	for _, c := range changes {
		s.parts = append(s.parts, partOf(c))
	}
	h.steps = append(h.steps, s)
	h.done++
	h.goes = true
	h.shorten(mostBytes)
}

// join gives the one part of a step with a further change of the same field.
func (s step) join(changes []document.Change, at int64) (part, bool) {
	if len(changes) != 1 || len(s.parts) != 1 || changes[0].Path != s.parts[0].path || changes[0].IsItems ||
		s.parts[0].isItems || at-s.at > stepWaits || at-s.began > stepLasts {
		return part{}, false
	}
	before, ok := s.parts[0].of(changes[0].Before, true)
	return partOf(document.Change{Path: changes[0].Path, Before: before, After: changes[0].After}), ok
}

// shorten forgets the oldest steps until the others fit, but for the last.
func (h *history) shorten(bytes int) {
	size := 0
	for i := len(h.steps) - 1; i >= 0; i-- {
		size += h.steps[i].size()
		if kept := len(h.steps) - i; i < h.done-1 && (size > bytes || kept > mostSteps) {
			h.dropped = h.steps[i].n
			h.steps = append([]step(nil), h.steps[i+1:]...)
			h.done -= i + 1
			return
		}
	}
}

// undo gives the document before the last step that is done.
func (h *history) undo(f document.Flat) (document.Flat, bool) {
	if h.done == 0 {
		return f, false
	}
	out, ok := h.steps[h.done-1].of(f, true)
	if !ok { // two tabs can leave steps behind that are not those of the case
		h.forget()
		return f, false
	}
	h.done--
	h.goes = false
	return out, true
}

// redo gives the document after the step that was undone last.
func (h *history) redo(f document.Flat) (document.Flat, bool) {
	if h.done == len(h.steps) {
		return f, false
	}
	out, ok := h.steps[h.done].of(f, false)
	if !ok {
		h.forget()
		return f, false
	}
	h.done++
	h.goes = false
	return out, true
}

func (h *history) forget() {
	if n := len(h.steps); n > 0 {
		h.dropped = h.steps[n-1].n
	}
	h.steps, h.done, h.goes = nil, 0, false
}
