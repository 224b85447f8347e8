//go:build js && wasm

package page

import (
	"syscall/js"

	"splittally/wasm/form"
	"splittally/wasm/view"
)

// slot is a place for results.
type slot struct {
	path string
	el   js.Value
	html string // what it shows
	set  bool   // false until it was drawn
}

// draw shows what a case came to. A slot whose markup is as before is left alone.
func (p *page) draw(d view.Drawing) {
	for _, s := range p.slots {
		if !view.IsPicture(s.path) {
			p.show(s, d.Slots[s.path])
		}
	}
	p.say(d.Says)
	if d.Short != p.short {
		p.short = d.Short
		p.hush.start()
	}
}

// show puts markup into a slot. What had the focus there has it again, if the
// new markup has an element of the same id.
func (p *page) show(s *slot, html string) {
	if s.set && s.html == html {
		return
	}
	s.html, s.set = html, true
	if list := s.el.Call("closest", "select"); !list.IsNull() {
		value := list.Get("value").String()
		pour(s.el, html)
		choose(list, value)
		return
	}
	focus := ""
	if active := p.doc.Underlying().Get("activeElement"); !active.IsNull() && s.el.Call("contains", active).Bool() {
		focus = active.Get("id").String()
	}
	pour(s.el, html)
	if focus == "" {
		return
	}
	el := p.doc.Underlying().Call("getElementById", focus)
	if el.IsNull() { // the button that is always there beside a file
		el = s.el.Get("parentElement").Call("querySelector", `:scope > [data-do="choose-readings"]`)
	}
	if item := s.el.Call("closest", "[data-takes-sound]"); el.IsNull() && !item.IsNull() {
		el = firstShown(within(item, `[data-do="tap"], [data-do="choose-sound"], [data-do="watch"]`))
	}
	if !el.IsNull() {
		el.Call("focus", map[string]any{"preventScroll": true})
	}
}

// say puts messages beside their fields and takes back those that no longer hold.
func (p *page) say(says map[string]string) {
	for path := range p.said {
		if says[path] == "" {
			p.unsay(path)
		}
	}
	for path, text := range says {
		if p.said[path] != text {
			p.sayAt(path, text)
		}
	}
}

func (p *page) sayAt(path, text string) {
	f, ok := p.field(path)
	if !ok {
		return // view lists it among all problems
	}
	id := form.ID(path) + "-says"
	message := p.doc.Underlying().Call("getElementById", id)
	if message.IsNull() {
		message = p.doc.Underlying().Call("createElement", "p")
		message.Set("id", id)
		message.Set("className", "says")
		f.el.Call("closest", ".field, li").Call("appendChild", message)
	}
	show(message, text)
	f.el.Call("setAttribute", "aria-invalid", "true")
	f.el.Call("setAttribute", "aria-describedby", form.With(attribute(f.el, "aria-describedby"), id))
	p.said[path] = text
}

func (p *page) unsay(path string) {
	delete(p.said, path)
	f, ok := p.field(path)
	if !ok {
		return
	}
	id := form.ID(path) + "-says"
	if message := p.doc.Underlying().Call("getElementById", id); !message.IsNull() {
		message.Call("remove")
	}
	f.el.Call("removeAttribute", "aria-invalid")
	if rest := form.Without(attribute(f.el, "aria-describedby"), id); rest != "" {
		f.el.Call("setAttribute", "aria-describedby", rest)
	} else {
		f.el.Call("removeAttribute", "aria-describedby")
	}
}

// clearSays takes all messages back, before the paths of fields change.
func (p *page) clearSays() {
	for path := range p.said {
		p.unsay(path)
	}
}

// tell says the short verdict aloud, once nobody has typed for a moment.
func (p *page) tell() { p.announce(p.short) }

// announce says something aloud to readers of the screen.
func (p *page) announce(text string) { show(p.byID("live"), text) }
