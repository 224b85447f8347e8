//go:build js && wasm

package page

import (
	"fmt"
	"syscall/js"

	"splittally/calc"
	"splittally/wasm/form"
)

// guard runs what the browser calls. A panic would end the program and leave a
// dead page; here it becomes a message, and what was typed stays. It says whether
// all went well.
func (p *page) guard(doing string, f func()) (fine bool) {
	defer func() {
		if r := recover(); r != nil {
			p.trouble(doing, r)
		}
	}()
	f()
	return true
}

// trouble shows the message. It must not fail itself, so it leans on little.
func (p *page) trouble(doing string, r any) {
	defer func() { _ = recover() }()
	p.byID("inside-trouble-what").Set("textContent", fmt.Sprintf("It happened while %s: %v.", doing, r))
	box, button := p.byID("inside-trouble"), p.byID("inside-trouble-save")
	if box.Get("hidden").Bool() {
		box.Set("hidden", false)
		button.Set("onclick", js.FuncOf(func(js.Value, []js.Value) any {
			defer func() { _ = recover() }()
			p.download("split-tally-rescued.json", p.saved())
			return nil
		}))
	}
	p.keepTyped()
}

// keepTyped keeps what the fields hold even if the page can't be drawn.
func (p *page) keepTyped() {
	if !p.isGuest() && !form.Blank(p.typed()) {
		p.unkept = true
		p.keep()
	}
}

// saved gives what the fields hold as the text of a file.
func (p *page) saved() string { return calc.Save(p.read()) }

// attempt runs what a browser may refuse, and gives its refusal.
func (p *page) attempt(f func()) (err error) {
	defer func() {
		if r := recover(); r != nil {
			refusal, ok := r.(js.Error)
			if !ok {
				panic(r)
			}
			err = refusal
		}
	}()
	f()
	return nil
}
