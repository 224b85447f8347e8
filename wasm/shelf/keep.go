package shelf

import (
	"strings"

	"splittally/calc"
)

// mostTail is how many bytes of steps a record takes along. What a key writes
// is the case and these; the steps before them are written when they are more.
const mostTail = 2000

// fullFor is how long after the storage was full no steps are put there.
const fullFor = 60_000

// write writes the document as a record of its own.
func (t *Tab) write() error {
	c := t.Case()
	t.me.n++
	r := record{id: t.me, at: t.shelf.now(), seen: t.seen, name: Name(c), done: t.history.next() - 1, text: calc.Save(c)}
	for _, p := range t.past {
		r.at = max(r.at, p.at+1)
	}
	if t.fullAt == 0 || t.shelf.now()-t.fullAt > fullFor {
		t.fullAt = 0
		t.moveSteps()
	}
	if t.fullAt == 0 {
		r.history, r.tail = t.stored, t.tail()
	}
	text := r.String()
	err := t.shelf.put(t.id, text)
	if err == ErrFull {
		t.fullAt, t.stored = t.shelf.now(), ""
		r.history, r.tail = "", nil
		_ = t.shelf.store.Remove(stepsKey + t.id)
		text = r.String()
		err = t.shelf.store.Set(caseKey+t.id, text)
	}
	if err != nil {
		return err
	}
	t.written = text
	t.learn(r, t.doc)
	t.isDirty = false
	t.entry = Entry{ID: t.id, Name: r.name, At: r.at, Size: len(r.text) + sizeOf(t.history.steps)}
	return nil
}

// tail gives the steps that are not kept under their own key.
func (t *Tab) tail() []step {
	if t.stored == "" {
		t.tailFrom = 0
	}
	for i, s := range t.history.steps {
		if s.n >= t.tailFrom {
			return t.history.steps[i:]
		}
	}
	return nil
}

// moveSteps writes the steps under their own key if the tail has grown long, but
// for one that may go on. Where there is no room the steps of other cases give
// way, and then the oldest of these.
func (t *Tab) moveSteps() {
	h := &t.history
	if sizeOf(t.tail()) <= mostTail {
		return
	}
	steps := h.steps
	if last := len(steps) - 1; h.goes && h.done == len(steps) && steps[last].size() <= mostTail {
		steps = steps[:last]
	} else {
		h.goes = false
	}
	id, next := t.shelf.newID(), steps[len(steps)-1].n+1
	for len(steps) > 0 {
		err := t.shelf.store.Set(stepsKey+t.id, stepsText(id, t.stored, steps))
		if err == nil {
			t.stored, t.tailFrom = id, next
			return
		}
		if err != ErrFull || !t.shelf.forgetSteps(t.id) {
			steps = steps[(len(steps)+1)/2:]
		}
	}
	t.stored, t.fullAt = "", t.shelf.now()
}

func sizeOf(steps []step) (bytes int) {
	for _, s := range steps {
		bytes += s.size()
	}
	return bytes
}

const stepsMark = "split-tally steps 2"

// stepsText is what is kept of steps: their id, the id of those that they took
// the place of, and the steps.
func stepsText(id, was string, steps []step) string {
	return stepsMark + "\nid " + id + "\nwas " + was + "\n" + writeSteps(steps)
}

func readStepsText(text string) (id, was string, steps []step, ok bool) {
	mark, rest, _ := strings.Cut(text, "\nid ")
	id, rest, _ = strings.Cut(rest, "\nwas ")
	was, rest, _ = strings.Cut(rest, "\n")
	steps, ok = readSteps(rest)
	return id, was, steps, ok && mark == stepsMark
}

// remember reads the steps of a record. Those under their own key may have been
// written just before a record that never was; they are then more than its own.
func (t *Tab) remember(r record) {
	var steps []step
	text, _, _ := t.shelf.store.Get(stepsKey + t.id)
	if id, was, kept, ok := readStepsText(text); ok && r.history != "" && (id == r.history || was == r.history) {
		steps, t.stored = kept, id
	}
	if len(r.tail) > 0 {
		for len(steps) > 0 && steps[len(steps)-1].n >= r.tail[0].n {
			steps = steps[:len(steps)-1]
		}
		if n := len(steps); n > 0 && steps[n-1].n+1 != r.tail[0].n {
			steps = nil
		}
		t.tailFrom = r.tail[0].n
	} else if n := len(steps); n > 0 {
		t.tailFrom = steps[n-1].n + 1
	}
	t.history.steps = append(steps, r.tail...)
	t.history.dropped = r.done
	if len(t.history.steps) > 0 {
		t.history.dropped = t.history.steps[0].n - 1
	}
	for _, s := range t.history.steps {
		if s.n <= r.done {
			t.history.done++
		}
	}
}

// put writes a record. Where there is no room the steps of other cases give way.
func (s *Shelf) put(id, text string) error {
	err := s.store.Set(caseKey+id, text)
	for err == ErrFull && s.forgetSteps(id) {
		err = s.store.Set(caseKey+id, text)
	}
	return err
}

// forgetSteps removes the steps of the case that was changed longest ago, other
// than this one. It says whether there was any.
func (s *Shelf) forgetSteps(but string) bool {
	keys, _ := s.store.Keys()
	oldest, at := "", int64(0)
	for _, key := range keys {
		id, ok := strings.CutPrefix(key, stepsKey)
		if !ok || id == but {
			continue
		}
		text, _, _ := s.store.Get(caseKey + id)
		if r, _ := readRecord(text); oldest == "" || r.at < at {
			oldest, at = id, r.at
		}
	}
	return oldest != "" && s.store.Remove(stepsKey+oldest) == nil
}
