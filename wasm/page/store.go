//go:build js && wasm

package page

import (
	"syscall/js"

	"splittally/calc"
	"splittally/calc/example"
	"splittally/wasm/form"
	"splittally/wasm/view"
)

// Names in the browser's storage. Pages opened from disk share it with every
// other such page, so each name begins with the program's.
const (
	ownKey   = "split-tally/case/1"
	asideKey = "split-tally/set-aside/1" // what could not be read
)

// restore brings back the case that was kept. What was typed before the engine
// came wins; the kept case can then be brought back with a button.
func (p *page) restore() {
	text, err := p.stored()
	if err != nil {
		p.tellKept("This browser keeps nothing for this page: " + err.Error() + " Save to a file before you leave.")
	}
	if text == "" {
		p.today = today()
		return
	}
	c, problems := calc.Open(text)
	switch {
	case len(problems) > 0:
		p.setAside(text)
		p.notice("What this browser had kept could not be read, so it was set aside and nothing was opened. " + view.Refused("the kept copy", problems))
		p.today = today()
	case !form.Blank(p.typed()):
		p.today = today()
		p.unkept = true
		p.offer("You began to type before your kept case was there.", text)
		p.later.start()
	default:
		p.fill(c)
	}
}

// storage gives the browser's storage. Where it is refused the mere look at it
// throws, and of all ways to look only a call can be recovered from.
func storage() js.Value {
	return js.Global().Get("Reflect").Call("get", js.Global(), "localStorage")
}

func (p *page) stored() (text string, err error) {
	err = p.attempt(func() {
		if v := storage().Call("getItem", ownKey); v.Type() == js.TypeString {
			text = v.String()
		}
	})
	return text, err
}

// keep writes the case into the browser's storage, if it changed.
func (p *page) keep() {
	if p.example || !p.unkept {
		return
	}
	text := p.saved()
	err := p.attempt(func() { storage().Call("setItem", ownKey, text) })
	if err != nil {
		p.tellKept("This browser could not keep it: " + err.Error() + " Save to a file before you leave.")
		return
	}
	p.unkept = false
	p.tellKept("Kept in this browser.")
}

func (p *page) setAside(text string) {
	_ = p.attempt(func() { storage().Call("setItem", asideKey, text) })
}

func (p *page) tellKept(text string) { p.byID("kept").Set("textContent", text) }

// listenToLeaving keeps the case before the page goes, and tells when another
// tab keeps one too.
func (p *page) listenToLeaving() {
	leave := func(js.Value, js.Value) { p.keep() }
	p.on("visibilitychange", leave)
	p.onWindow("pagehide", func(js.Value) { p.keep() })
	p.onWindow("storage", func(e js.Value) {
		if e.Get("key").Equal(js.ValueOf(ownKey)) && !p.example {
			p.notice("The same case is open in another tab, and was changed there. Whichever tab is typed into last is the one that is kept.")
		}
	})
}

func (p *page) onWindow(kind string, f func(e js.Value)) {
	js.Global().Call("addEventListener", kind, js.FuncOf(func(_ js.Value, args []js.Value) any {
		p.guard(kind, func() { f(args[0]) })
		return nil
	}))
}

// showExample shows the invented home. One's own case waits meanwhile, and
// nothing is kept.
func (p *page) showExample() {
	c, problems := calc.Open(example.Text)
	if len(problems) > 0 { // a test opens it
		panic("the example can't be opened: " + problems[0].String())
	}
	p.keep()
	p.own = p.saved()
	p.example = true
	p.doc.DocumentElement().SetAttribute("data-case", "example")
	p.replace(c)
	p.work() // so that the findings are where they will be
	p.toFindings()
}

func (p *page) leaveExample() {
	c, problems := calc.Open(p.own)
	if len(problems) > 0 {
		panic("one's own case can't be opened again: " + problems[0].String())
	}
	p.endExample()
	p.replace(c)
	p.all(`[data-do="show-example"]`)[0].Call("focus")
}

func (p *page) endExample() {
	p.example = false
	p.doc.DocumentElement().RemoveAttribute("data-case")
}

// replace shows another case than before.
func (p *page) replace(c calc.Case) {
	p.clearSays()
	p.stopAll()
	p.fill(c)
	p.notice("")
	p.redo()
}
