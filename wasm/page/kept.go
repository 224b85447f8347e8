//go:build js && wasm

package page

import (
	"slices"
	"strconv"
	"strings"
	"syscall/js"

	"splittally/calc/interval"
	"splittally/calc/record"
	"splittally/wasm/form"
	"splittally/wasm/view"
)

// files keeps the records of files of readings. Their fields are hidden and hold
// short keys: a record has 60 kB a year, which nobody reads at each key.
type files struct {
	byKey map[string]*kept
	last  int
	parse func(text string) *view.Kept // nil as long as nobody can
}

// wake reads what was put there while nobody could.
func (f *files) wake(parse func(text string) *view.Kept) {
	f.parse = parse
	for _, k := range f.byKey {
		k.shown = parse(k.text)
	}
}

// kept is a record with what else the page knows of its file. It never changes.
type kept struct {
	key      string
	text     string // as the case holds it
	file     js.Value
	packed   bool
	settings map[string]string // that the person has set right
	shown    *view.Kept
}

// mostKept bounds what is kept: the records of a case, and of the one before
// that can be brought back.
const mostKept = 16

// text gives the record of a field.
func (f *files) text(field js.Value) string {
	if k := f.byKey[field.Get("value").String()]; k != nil {
		return k.text
	}
	return ""
}

// set puts a record into a field. One that was there before is known again, with
// its file.
func (f *files) set(field js.Value, text string) {
	if f.text(field) == text {
		return
	}
	key := ""
	for _, k := range f.byKey {
		if k.text == text {
			key = k.key
		}
	}
	if key == "" && text != "" {
		k := kept{text: text}
		if f.parse != nil {
			k.shown = f.parse(text)
		}
		key = f.put(k)
	}
	field.Set("value", key)
}

// put keeps a record and gives its key.
func (f *files) put(k kept) string {
	if f.byKey == nil {
		f.byKey = map[string]*kept{}
	}
	f.last++
	k.key = strconv.Itoa(f.last)
	f.byKey[k.key] = &k
	return k.key
}

// forget drops records that no field holds, the oldest first.
func (f *files) forget(fields []field) {
	held := map[string]bool{}
	for _, field := range fields {
		if field.kind == keyed {
			held[field.el.Get("value").String()] = true
		}
	}
	for n := 1; n <= f.last && len(f.byKey) > mostKept; n++ {
		if key := strconv.Itoa(n); !held[key] {
			delete(f.byKey, key)
		}
	}
}

// spot is a place for a file of readings, by its hidden field.
type spot struct {
	field js.Value
	job   *job        // that reads a file for it
	tried *view.Tried // the file that gave nothing
}

// spotOf gives the spot of a hidden field.
func (p *page) spotOf(field js.Value) *spot {
	for _, s := range p.spots {
		if s.field.Equal(field) {
			return s
		}
	}
	s := &spot{field: field}
	p.spots = append(p.spots, s)
	return s
}

// spotAround gives the spot of the part of the page that an element stands in,
// or nil.
func (p *page) spotAround(el js.Value) *spot {
	place := el.Call("closest", "[data-takes-file]")
	if place.IsNull() {
		return nil
	}
	return p.spotOf(hiddenIn(place))
}

func hiddenIn(place js.Value) js.Value {
	return place.Call("querySelector", "input[type=hidden][data-field]")
}

// freeSpot gives the first place of a list that has no readings yet, or the
// first one.
func (p *page) freeSpot() *spot {
	places := p.all("[data-item][data-takes-file]")
	for _, place := range places {
		if hiddenIn(place).Get("value").String() != "" {
			continue
		}
		blank := p.spotOf(hiddenIn(place)).job == nil
		for _, area := range within(place, "textarea") {
			blank = blank && strings.TrimSpace(area.Get("value").String()) == ""
		}
		if blank {
			return p.spotOf(hiddenIn(place))
		}
	}
	return p.spotOf(hiddenIn(places[0]))
}

// sweep forgets spots that are no longer on the page.
func (p *page) sweep() {
	var here []*spot
	for _, s := range p.spots {
		if s.field.Get("isConnected").Bool() {
			here = append(here, s)
		} else if s.job != nil {
			p.rest.stop(s.job)
		}
	}
	p.spots = here
	p.ears = slices.DeleteFunc(p.ears, func(e *ear) bool {
		gone := !e.field.Get("isConnected").Bool()
		if gone {
			if e.job != nil {
				p.rest.stopListening(e)
			}
		}
		return gone
	})
}

// keptAt gives the record of a spot, or nil.
func (p *page) keptAt(s *spot) *kept { return p.files.byKey[s.field.Get("value").String()] }

// put gives a spot another record.
func (p *page) put(s *spot, k kept) {
	s.field.Set("value", p.files.put(k))
	p.files.forget(p.fields)
}

// cards draws what there is of files, by slot. A slot of this kind has the path
// of the hidden field, but for its last step.
func (p *page) cards() map[string]string {
	cards := map[string]string{}
	for _, f := range p.fields {
		if f.kind != keyed {
			continue
		}
		s := p.spotOf(f.el)
		place := beside(f.path, "file")
		card := view.File{ID: form.ID(place), Tried: s.tried, Bills: p.c.Periods, Open: p.unfolded}
		if k := p.keptAt(s); k != nil {
			card.Kept = k.shown
		}
		if s.job != nil {
			card.Going = s.job.shown(p)
		}
		for _, problem := range p.f.Problems {
			if problem.Path == f.path {
				card.Problems = append(card.Problems, problem)
			}
		}
		cards[place] = card.Markup()
	}
	p.sounds(cards)
	return cards
}

// drawFiles draws the slots of files alone.
func (p *page) drawFiles() {
	cards := p.cards()
	for _, s := range p.slots {
		if html, ok := cards[s.path]; ok {
			p.show(s, html)
		}
	}
}

// setRecord gives a spot a record whose text has changed.
func (p *page) setRecord(s *spot, k kept, shown view.Kept) {
	k.text = record.Format(shown.Record)
	k.shown = view.Keep(shown)
	p.put(s, k)
	p.soon(func() { p.memory.Prepare(k.text) })
	p.touched()
}

// setFound takes a candidate of what a file came to.
func (p *page) setFound(s *spot, k kept, found interval.Found, taken int, chosen bool) {
	p.setRecord(s, k, view.Kept{Record: found.Records[taken].Record, Found: found, Taken: taken, Chosen: chosen, Again: true})
}
