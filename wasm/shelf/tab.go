package shelf

import (
	"splittally/calc"
	"splittally/calc/document"
)

// Tab is a case as one tab of the browser has it.
type Tab struct {
	shelf *Shelf
	id    string
	entry Entry
	me    stamp // of what this tab wrote last

	doc     document.Flat
	isDirty bool   // it is not kept as it is
	written string // the record that this tab wrote last
	known   past   // the record that it is built on; no id if it was never kept
	past    []past // that and some of those before, the newest first
	seen    seen

	history  history
	stored   string // the id of the kept steps, if they are this tab's
	tailFrom int    // the number of the first step that is not among them
	fullAt   int64  // when the storage had no room for all
}

// past is a document as it once was kept, to merge from.
type past struct {
	id  stamp
	at  int64
	doc document.Flat
}

// Bounds of what is remembered of a case. Tabs write some times a second: of
// what is older than the newest few some are left out, and the oldest stays,
// since a tab that slept may be built on that.
const mostPast, newest = 12, 6

// News is what a tab came to know from others.
type News struct {
	IsChanged bool // the document is another now
	IsAway    bool // the case was taken away elsewhere; the next change brings it back
	// Lost are the texts that both sides changed: Before is the one that gave
	// way, and can be had by undoing once, After the one that is there now.
	Lost []document.Change
}

// ID names the case on the shelf.
func (t *Tab) ID() string { return t.id }

// Case gives the document.
func (t *Tab) Case() calc.Case {
	c, _ := caseOf(t.doc) // take and Note admit nothing else
	return c
}

// IsDirty says that there is something to keep.
func (t *Tab) IsDirty() bool { return t.isDirty }

// Entry is the case as a list shows it, as it was kept last.
func (t *Tab) Entry() Entry { return t.entry }

// Note takes what the page holds now, and says whether that is a change. words
// says in words what was done.
func (t *Tab) Note(c calc.Case, words func([]document.Change) string) bool {
	now := flat(c)
	changes := changesOf(t.doc, now)
	t.doc = now
	if len(changes) == 0 {
		return false
	}
	t.step(changes, words)
	t.isDirty = true
	return true
}

// Settle takes the form in which the page shows the case, with the items that it
// has at least. That is no change.
func (t *Tab) Settle(c calc.Case) { t.doc = flat(c) }

// Pause ends the step that goes on: what follows is another.
func (t *Tab) Pause() { t.history.goes = false }

func (t *Tab) step(changes []document.Change, words func([]document.Change) string) {
	t.history.add(changes, t.shelf.now(), words)
	t.tailFrom = min(t.tailFrom, max(1, t.history.next()-1)) // the last one is new, or another than before
}

// changesOf gives what differs, but for the day of the last edit.
func changesOf(before, after document.Flat) []document.Change {
	changes := document.Changes(before, after)
	for i, c := range changes {
		if c.Path == dayPath {
			return append(changes[:i:i], changes[i+1:]...)
		}
	}
	return changes
}

// Undo takes the last step back; Redo does it again.
func (t *Tab) Undo() bool { return t.went(t.history.undo(t.doc)) }

// Redo does again what was undone last.
func (t *Tab) Redo() bool { return t.went(t.history.redo(t.doc)) }

func (t *Tab) went(doc document.Flat, ok bool) bool {
	if ok {
		if _, ok = caseOf(doc); !ok {
			t.history.forget()
		}
	}
	if ok {
		t.doc, t.isDirty = doc, true
	}
	return ok
}

// Undoes says in words what Undo and Redo would do, "" if there is nothing.
func (t *Tab) Undoes() (undo, redo string) {
	if h := t.history; h.done > 0 {
		undo = h.steps[h.done-1].words
	}
	if h := t.history; h.done < len(h.steps) {
		redo = h.steps[h.done].words
	}
	return undo, redo
}

// take makes a record the document.
func (t *Tab) take(r record) error {
	c, problems := calc.Open(r.text)
	if len(problems) > 0 {
		return &Unread{r.text, problems[0].String()}
	}
	t.doc = flat(c)
	t.learn(r, t.doc)
	t.isDirty = false
	return nil
}

// learn makes a record the one that the document is built on.
func (t *Tab) learn(r record, doc document.Flat) {
	t.known = past{r.id, r.at, doc}
	t.past = append([]past{t.known}, t.past...)
	if len(t.past) > mostPast {
		out := newest + t.me.n%(mostPast-newest)
		t.past = append(t.past[:out], t.past[out+1:]...)
	}
	t.seen = t.seen.with(r.seen...).with(r.id)
}

// Keep writes the case, if there is something to keep. Had another tab written
// meanwhile, both are merged first.
func (t *Tab) Keep() (News, error) {
	if !t.isDirty {
		return News{}, nil
	}
	news, err := t.Look()
	if err != nil || !t.isDirty {
		return news, err
	}
	return news, t.write()
}

// Look sees whether the storage has what this tab last wrote or heard of, and
// takes over what it does not know.
func (t *Tab) Look() (News, error) {
	text, ok, err := t.shelf.store.Get(caseKey + t.id)
	if err != nil || !ok || text == t.written {
		return News{}, err
	}
	r, err := readRecord(text)
	if err != nil {
		t.shelf.setAside(caseKey+t.id, text)
		t.isDirty = true
		return News{}, nil
	}
	if r.id != t.known.id && t.seen.has(r.id) { // an older one came back over it
		t.isDirty = true
	}
	return t.meet(r), nil
}

// Hear takes what another tab has written, the record's text. Text that is no
// record changes nothing.
func (t *Tab) Hear(text string) News {
	r, err := readRecord(text)
	if err != nil {
		return News{}
	}
	return t.meet(r)
}

// meet takes over a record that the tab has not seen.
func (t *Tab) meet(r record) News {
	if t.seen.has(r.id) {
		return News{}
	}
	c, problems := calc.Open(r.text)
	if len(problems) > 0 { // of a later version; the tab that wrote it has it
		return News{}
	}
	theirs, mine := flat(c), t.doc
	doc, lost := theirs, []document.Change(nil)
	if isAhead := r.seen.has(t.known.id) && !t.isDirty; isAhead {
		t.steps(mine, theirs, elsewhere)
	} else {
		doc, lost = t.merge(r, theirs)
	}
	isAway := r.isAway && !t.isDirty
	t.learn(r, theirs)
	t.doc = doc
	t.isDirty = len(changesOf(theirs, doc)) > 0 || r.isAway && !isAway
	t.stored = "" // those are the steps of the other
	return News{IsChanged: len(changesOf(mine, doc)) > 0, IsAway: isAway, Lost: lost}
}

// merge puts the document and another together, and what that does to it among
// the steps, so that the texts that gave way can be had by undoing.
func (t *Tab) merge(r record, theirs document.Flat) (doc document.Flat, lost []document.Change) {
	wins := t.isDirty || later(t.known.at, t.known.id, r.at, r.id)
	base := t.base(r)
	doc = merged(base, t.doc, theirs, wins, wins)
	other := merged(base, t.doc, theirs, !wins, wins)
	t.steps(t.doc, other, elsewhere)
	t.steps(other, doc, between)
	return doc, changesOf(other, doc)
}

// What the steps are called that came from another tab.
const (
	elsewhere = "what another tab changed"
	between   = "which of two tabs’ entries is kept"
)

func (t *Tab) steps(before, after document.Flat, words string) {
	if changes := changesOf(before, after); len(changes) > 0 {
		t.Pause()
		t.step(changes, func([]document.Change) string { return words })
		t.Pause()
	}
}

func later(at int64, id stamp, otherAt int64, otherID stamp) bool {
	return at > otherAt || at == otherAt && (id.tab > otherID.tab || id.tab == otherID.tab && id.n > otherID.n)
}

// base gives the last document that both sides have seen.
func (t *Tab) base(r record) (base document.Flat) {
	var best past
	for _, p := range t.past {
		if r.seen.has(p.id) && (best.id.n == 0 || later(p.at, p.id, best.at, best.id)) {
			best = p
		}
	}
	return best.doc
}
