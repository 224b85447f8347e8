// Package shelf keeps cases in the browser's storage: several of them, each
// with the history of its steps, safe from other tabs and from storage that is
// full, refused or damaged. It knows no browser; wasm/page gives it a Storage.
//
// There is no index. Each case has a key of its own, whose text says in its
// first lines what a list needs (see record), so that what can be read is found
// whatever happened to the rest:
//
//	split-tally/case/2/ID       a case, with its last few steps
//	split-tally/steps/2/ID      the steps before those
//	split-tally/set-aside/2/ID  what could not be read, as it was
//	split-tally/last/2          the case that was open last
//
// What a tab has of a case is a Tab. No tab writes over what it has not seen: a
// record says which records it is built on, and a tab that meets one that lacks
// its own merges the two (see merged) and writes that. Two tabs that merge the
// same two records come to the same text, so they end by agreeing.
package shelf

import (
	"errors"
	"strconv"
	"strings"

	"splittally/calc"
	"splittally/calc/sorted"
)

// Storage is a store of texts by key, such as localStorage.
type Storage interface {
	Get(key string) (text string, ok bool, err error)
	Set(key, text string) error // ErrFull if there is no room
	Remove(key string) error
	Keys() ([]string, error)
}

// ErrFull says that the storage has no room for what is to be written.
var ErrFull = errors.New("the room that this browser gives the page is full")

const (
	caseKey  = "split-tally/case/2/"
	stepsKey = "split-tally/steps/2/"
	asideKey = "split-tally/set-aside/2/"
	lastKey  = "split-tally/last/2"

	onlyKey      = "split-tally/case/1" // where earlier versions kept their one case
	onlyAsideKey = "split-tally/set-aside/1"
)

// Shelf is all that a browser keeps.
type Shelf struct {
	store Storage
	now   func() int64  // milliseconds since 1970
	newID func() string // never the same twice, in no tab
}

// New gives the shelf of a storage.
func New(store Storage, now func() int64, newID func() string) *Shelf {
	return &Shelf{store, now, newID}
}

// Entry is a case as a list shows it.
type Entry struct {
	ID     string
	Name   string
	At     int64 // when it was changed last, in milliseconds since 1970
	Size   int   // bytes, with its steps
	IsAway bool  // taken away, and can be brought back
}

// Cases lists what is on the shelf, what was changed last first. What is no
// record is set aside.
func (s *Shelf) Cases() ([]Entry, error) {
	keys, err := s.store.Keys()
	if err != nil {
		return nil, err
	}
	var entries []Entry
	for _, key := range keys {
		id, ok := strings.CutPrefix(key, caseKey)
		if !ok {
			continue
		}
		text, ok, err := s.store.Get(key)
		if err != nil || !ok {
			continue
		}
		r, err := readRecord(text)
		if err != nil {
			s.setAside(key, text)
			continue
		}
		steps, _, _ := s.store.Get(stepsKey + id)
		entries = append(entries, Entry{id, r.name, r.at, len(text) + len(steps), r.isAway})
	}
	sorted.Stable(entries, func(a, b Entry) int {
		if a.At == b.At {
			return strings.Compare(a.ID, b.ID)
		}
		if a.At > b.At {
			return -1
		}
		return 1
	})
	return entries, nil
}

// Mine says of which case a key of the storage holds the record.
func Mine(key string) (id string, ok bool) { return strings.CutPrefix(key, caseKey) }

// Last gives the case that was open last, "" if none or unknown.
func (s *Shelf) Last() string {
	id, _, _ := s.store.Get(lastKey)
	return id
}

// SetLast notes which case is open.
func (s *Shelf) SetLast(id string) { _ = s.store.Set(lastKey, id) }

// Unread says that a case is on the shelf but can't be opened.
type Unread struct {
	Text string // as it is kept
	Why  string
}

func (e *Unread) Error() string { return e.Why }

// Open takes a case off the shelf to work on it. The error is an *Unread, or
// the storage's own.
func (s *Shelf) Open(id string) (*Tab, error) {
	text, ok, err := s.store.Get(caseKey + id)
	if err != nil {
		return nil, err
	}
	if !ok {
		return nil, &Unread{Why: "it is no longer there"}
	}
	r, err := readRecord(text)
	if err != nil {
		s.setAside(caseKey+id, text)
		return nil, &Unread{text, err.Error()}
	}
	t := &Tab{shelf: s, id: id, me: stamp{tab: s.newID()}}
	if err := t.take(r); err != nil { // of another version, it may be: it stays where it is
		return nil, &Unread{text, err.Error()}
	}
	t.remember(r)
	t.entry = Entry{id, r.name, r.at, len(text) + sizeOf(t.history.steps), r.isAway}
	return t, nil
}

// Add begins a case. It is on the shelf once it is kept.
func (s *Shelf) Add(c calc.Case) *Tab {
	return &Tab{shelf: s, id: s.newID(), me: stamp{tab: s.newID()}, doc: flat(c), isDirty: true}
}

// Case gives a case without opening it.
func (s *Shelf) Case(id string) (calc.Case, error) {
	t, err := s.Open(id)
	if err != nil {
		return calc.Case{}, err
	}
	return t.Case(), nil
}

// TakeAway marks a case as taken away. It needs no more room than before, and
// BringBack undoes it.
func (s *Shelf) TakeAway(id string) error { return s.mark(id, true) }

// BringBack takes the mark off again.
func (s *Shelf) BringBack(id string) error { return s.mark(id, false) }

func (s *Shelf) mark(id string, away bool) error {
	text, ok, err := s.store.Get(caseKey + id)
	if err != nil || !ok {
		return err
	}
	r, err := readRecord(text)
	if err != nil {
		s.setAside(caseKey+id, text)
		return err
	}
	r.seen = r.seen.with(r.id)
	r.id, r.at, r.isAway = stamp{s.newID(), 1}, max(s.now(), r.at+1), away
	return s.put(id, r.String())
}

// Erase removes a case and its steps for good.
func (s *Shelf) Erase(id string) error {
	if err := s.store.Remove(caseKey + id); err != nil {
		return err
	}
	return s.store.Remove(stepsKey + id)
}

// Aside gives the texts that were set aside, by their keys.
func (s *Shelf) Aside() map[string]string {
	keys, _ := s.store.Keys()
	found := map[string]string{}
	for _, key := range keys {
		if strings.HasPrefix(key, asideKey) || key == onlyAsideKey {
			if text, ok, _ := s.store.Get(key); ok {
				found[key] = text
			}
		}
	}
	return found
}

// Discard erases what was set aside.
func (s *Shelf) Discard(key string) error {
	if !strings.HasPrefix(key, asideKey) && key != onlyAsideKey {
		return nil
	}
	return s.store.Remove(key)
}

// setAside moves what can't be read to a key of its own. If there is no room
// for both it stays where it is, where nothing overwrites it either.
func (s *Shelf) setAside(key, text string) {
	if s.store.Set(asideKey+s.newID(), text) == nil {
		_ = s.store.Remove(key)
	}
}

// TakeOver puts the one case of earlier versions on the shelf. Tab is nil if
// there was none, or nothing in it that can be read; text is then what it was.
func (s *Shelf) TakeOver() (t *Tab, text string, err error) {
	text, ok, err := s.store.Get(onlyKey)
	if err != nil || !ok {
		return nil, "", err
	}
	c, problems := calc.Open(text)
	if len(problems) > 0 {
		s.setAside(onlyKey, text)
		return nil, text, &Unread{text, problems[0].String()}
	}
	t = s.Add(c)
	t.id = "first-" + strconv.FormatUint(sum(text), 36) // two tabs that do this at once make one case
	if _, err := t.Keep(); err != nil {
		return t, text, err // the old copy stays
	}
	return t, text, s.store.Remove(onlyKey)
}
