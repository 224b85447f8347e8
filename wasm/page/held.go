//go:build js && wasm

package page

import (
	"splittally/wasm/form"
	"splittally/wasm/shelf"
)

// A case that another takes the place of is on the shelf, and can be opened from
// there. Where the browser is full or keeps nothing it is not; then the page
// holds it, and goes on trying to keep it.

// hold holds a case of which something could not be kept.
func (p *page) hold(t *shelf.Tab) {
	if t.IsDirty() && form.Holds(t.Case()) {
		p.held = append(p.held, t)
	}
}

// keepHeld tries again to keep what is held.
func (p *page) keepHeld() {
	if len(p.held) == 0 {
		return
	}
	var left []*shelf.Tab
	for _, t := range p.held {
		if _, err := t.Keep(); err != nil {
			left = append(left, t)
			continue
		}
		p.listed(t.Entry())
	}
	if p.held = left; len(left) > 0 {
		p.again.milli = 5000
		p.again.start()
	}
}

func (p *page) isHeld(id string) bool {
	for _, t := range p.held {
		if t.ID() == id {
			return true
		}
	}
	return false
}

// tabOf gives a case to work on: the one that waits while another is shown, one
// that is held, or one from the shelf.
func (p *page) tabOf(id string) (*shelf.Tab, error) {
	if id == p.tab.ID() {
		return p.tab, nil
	}
	for i, t := range p.held {
		if t.ID() == id {
			p.held = append(p.held[:i:i], p.held[i+1:]...)
			return t, nil
		}
	}
	return p.shelf.Open(id)
}
