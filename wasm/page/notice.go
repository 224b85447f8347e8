//go:build js && wasm

package page

import (
	"splittally/calc"
	"splittally/wasm/form"
)

// notice shows a sentence at the top of the page; "" takes it back.
func (p *page) notice(text string) {
	box := p.byID("page-notice")
	box.Set("textContent", text)
	box.Set("hidden", text == "")
	p.aside = ""
}

// offer tells what was done, with a button that brings the case back that was
// there before. An empty case is not worth one.
func (p *page) offer(text, before string) {
	p.notice(text)
	c, problems := calc.Open(before)
	if len(problems) > 0 || !form.Holds(c) {
		return
	}
	p.aside = before
	button := p.doc.Underlying().Call("createElement", "button")
	button.Set("type", "button")
	button.Set("textContent", "Bring back what was there")
	button.Call("setAttribute", "data-do", "bring-back")
	box := p.byID("page-notice")
	box.Call("append", " ", button)
	box.Call("scrollIntoView", map[string]any{"block": "nearest"})
}

// bringBack undoes the last replacement, and offers to undo that.
func (p *page) bringBack() {
	c, problems := calc.Open(p.aside)
	if len(problems) > 0 {
		return
	}
	before := p.saved()
	p.replace(c)
	p.offer("What was there before is back.", before)
	p.unkept = true
	p.later.start()
}

// askAfresh shows or hides the question whether to empty everything.
func (p *page) askAfresh(ask bool) {
	p.byID("afresh").Set("hidden", !ask)
	button := p.all(`[data-do="ask-afresh"]`)[0]
	button.Call("setAttribute", "aria-expanded", ask)
	if ask {
		p.byID("afresh").Call("querySelector", "button").Call("focus")
	} else {
		button.Call("focus")
	}
}

// startAfresh empties every field and what the browser keeps. One tap brings
// it back until the page is left.
func (p *page) startAfresh() {
	before := p.ownCase()
	p.askAfresh(false)
	p.endExample()
	p.replace(calc.Case{Today: today()})
	err := p.attempt(func() { storage().Call("removeItem", ownKey) })
	p.unkept = false
	if err == nil {
		p.tellKept("Nothing is kept in this browser now.")
	}
	p.offer("Everything is empty.", before)
}
