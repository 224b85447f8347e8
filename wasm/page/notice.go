//go:build js && wasm

package page

import (
	"syscall/js"

	"splittally/calc"
	"splittally/wasm/form"
)

// notice shows a sentence over the top of the page; "" takes it away.
func (p *page) notice(text string) {
	box := p.byID("page-notice")
	show(box, text)
	box.Set("hidden", text == "")
	p.aside = ""
	p.notices++
	if text != "" {
		box.Call("append", " ", p.button("put-away", "Hide this"))
	}
}

// offer tells what was done, with a button that brings the case back that was
// there before. An empty case is not worth one.
func (p *page) offer(text, before string) {
	p.notice(text)
	if c, problems := calc.Open(before); len(problems) > 0 || !form.Holds(c) {
		return
	}
	p.aside = before
	p.byID("page-notice").Call("append", " ", p.button("bring-back", "Bring back what was there"))
}

// addAct gives the notice a button; id is the case that it is about.
func (p *page) addAct(act, words, id string) {
	b := p.button(act, words)
	b.Call("setAttribute", "data-id", id)
	p.byID("page-notice").Call("append", " ", b)
}

// outdate takes the button from a notice that would undo something else, now
// that there is a later step.
func (p *page) outdate() {
	for _, b := range within(p.byID("page-notice"), `[data-do="undo"]`) {
		b.Call("remove")
	}
}

// button makes a button for an act.
func (p *page) button(act, words string) js.Value {
	b := p.doc.Underlying().Call("createElement", "button")
	b.Set("type", "button")
	b.Set("textContent", words)
	b.Call("setAttribute", "data-do", act)
	return b
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
	p.toKeep()
}
