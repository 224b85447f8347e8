//go:build js && wasm

package page

import (
	"syscall/js"

	"splittally/calc"
	"splittally/wasm/form"
	"splittally/wasm/shelf"
)

// openKey names the case that this tab has open, in the storage of the tab
// alone. A reload then shows what it showed before, whatever other tabs do.
const openKey = "split-tally/open/2"

// How long, in milliseconds, what is typed waits to be kept: from the first key
// that is not kept, not from the last. A case that takes long to write waits
// longer, but never so long that a second could be lost.
const soonest, latest = 200, 600

// restore opens the case that was open last. What was typed before the engine
// came is a case of its own, and the kept one can be opened with a button.
func (p *page) restore() {
	p.shelf = shelf.New(local{p}, clockMilli, newID)
	p.today = today()
	old, _, err := p.shelf.TakeOver()
	if unread, ok := err.(*shelf.Unread); ok {
		p.notice("What this browser had kept could not be read, so it was set aside and nothing was opened. It is at the end of “Keep this”: " + unread.Why)
	}
	if p.list, err = p.shelf.Cases(); err == nil {
		p.unread = p.shelf.Aside()
	} else {
		p.tellKept("This browser keeps nothing for this page: " + err.Error() + ". Save to a file before you leave.")
	}
	kept := old
	if kept == nil {
		kept = p.lastOpen()
	}
	if !form.Blank(p.typed()) {
		p.tab = p.shelf.Add(p.read())
		p.toKeep()
		if kept != nil {
			p.hold(kept)
			p.notice("You began to type before your kept case was there. What you typed is a case of its own.")
			p.addAct("open-case", "Open the kept case", kept.ID())
		}
		return
	}
	if kept == nil {
		p.tab = p.shelf.Add(p.read())
		return
	}
	p.tab = kept
	p.fill(kept.Case())
	if p.settle(); p.unkept {
		p.wait()
	}
}

// lastOpen opens what this tab had open, or else what any had open last, or else
// what was changed last. It gives nil if there is nothing.
func (p *page) lastOpen() *shelf.Tab {
	mine := ""
	_ = p.attempt(func() {
		if v := storage("sessionStorage").Call("getItem", openKey); v.Type() == js.TypeString {
			mine = v.String()
		}
	})
	ids := []string{mine, p.shelf.Last()}
	for _, e := range p.list {
		ids = append(ids, e.ID)
	}
	for _, id := range ids {
		if e, ok := p.entry(id); !ok || e.IsAway {
			continue
		}
		t, err := p.shelf.Open(id)
		if err == nil {
			return t
		}
		p.notice("A case that this browser keeps can’t be opened and was left alone: " + err.Error())
	}
	return nil
}

// settle tells the shelf how the page shows the case, and notes that it is open.
// A new case is not kept before something is in it.
func (p *page) settle() {
	p.tab.Settle(p.read())
	p.unkept = p.tab.IsDirty() && (p.tab.Entry().ID != "" || form.Holds(p.tab.Case()))
	p.shelf.SetLast(p.tab.ID())
	_ = p.attempt(func() { storage("sessionStorage").Call("setItem", openKey, p.tab.ID()) })
}

// keep writes the case into the browser's storage, if it changed. Where that is
// refused it says so, offers a file, and goes on trying.
func (p *page) keep() {
	p.mend()
	p.keepHeld()
	if !p.unkept {
		return
	}
	began := now()
	p.note()
	isNew := p.tab.Entry().ID == ""
	news, err := p.tab.Keep()
	p.met(news)
	if err != nil {
		p.unkeptFor(err)
		return
	}
	p.unkept, p.isFailing = p.tab.IsDirty(), false
	if isNew && !p.isGuest() {
		p.settle()
	}
	p.tellKept("Kept in this browser.")
	p.listed(p.tab.Entry())
	p.later.milli = min(latest, max(soonest, int(8*(now()-began))))
	p.again.milli = 1500
	p.again.start()
}

// unkeptFor tells that the case can't be kept, and tries again some time later.
func (p *page) unkeptFor(err error) {
	p.tellKept("This browser could not keep it: " + err.Error() + ". Save to a file before you leave.")
	if !p.isFailing {
		p.notice("This browser could not keep what you typed: " + err.Error() + ". It is still on the page, and the page goes on trying. Save it to a file before you leave.")
		p.addAct("save-file", "Save to a file", "")
	}
	p.isFailing = true
	p.again.milli = 5000
	p.again.start()
}

// look sees what other tabs have done that this one has not heard of, and tries
// again what could not be kept.
func (p *page) look() {
	if p.unkept || len(p.held) > 0 {
		p.keep()
		return
	}
	if p.tab.Entry().ID == "" {
		return
	}
	if news, err := p.tab.Look(); err == nil {
		p.met(news)
	}
}

func (p *page) tellKept(text string) { p.byID("kept").Set("textContent", text) }

// listenToLeaving keeps the case before the page goes, and takes over what
// other tabs keep.
func (p *page) listenToLeaving() {
	p.on("visibilitychange", func(js.Value, js.Value) { p.keep(); p.look() })
	p.onWindow("hashchange", func(js.Value) { p.openLinked() })
	p.onWindow("pagehide", func(js.Value) { p.keep() })
	p.onWindow("beforeunload", func(e js.Value) {
		if p.keep(); p.isFailing || len(p.held) > 0 {
			e.Call("preventDefault")
		}
	})
	p.onWindow("storage", func(e js.Value) {
		if e.Get("key").Type() == js.TypeString {
			p.stored(e.Get("key").String(), e.Get("newValue"))
		}
	})
}

// stored takes what another tab has written under a key.
func (p *page) stored(key string, text js.Value) {
	id, ok := shelf.Mine(key)
	if !ok {
		return
	}
	p.lister.start()
	if id != p.tab.ID() {
		return
	}
	if text.Type() != js.TypeString {
		p.notice("This case was erased in another tab. It is still on this page, and what you type here keeps it again.")
		return
	}
	p.note()
	p.met(p.tab.Hear(text.String()))
}

// met shows what another tab has changed, and says what both had changed.
func (p *page) met(news shelf.News) {
	if news.IsChanged && !p.isGuest() {
		p.take(p.tab.Case())
		p.note() // what the page makes of it
		p.tellKept("Kept, with what another tab changed.")
	}
	if news.IsAway {
		p.notice("This case was taken away in another tab. It is still on this page, and what you type here brings it back.")
	}
	if len(news.Lost) > 0 {
		p.notice(p.lostWords(news.Lost))
		if !p.isGuest() {
			p.addAct("undo", "Take the other", "")
		}
	}
	if p.tab.IsDirty() {
		p.unkept = true
		p.wait()
	}
}

// wait lets what is to be kept be kept soon. What is typed meanwhile does not
// put it off.
func (p *page) wait() {
	if !p.later.waits {
		p.later.start()
	}
}

// take shows a case that is the same, changed elsewhere or taken a step back.
// What reads files goes on, unless their places have moved.
func (p *page) take(c calc.Case) {
	if len(c.Monitors) != len(p.c.Monitors) || len(c.Timing.Runs) != len(p.c.Timing.Runs) {
		p.stopAllReading()
	}
	p.clearSays()
	p.fill(c)
	p.redo()
}

func (p *page) onWindow(kind string, f func(e js.Value)) {
	js.Global().Call("addEventListener", kind, js.FuncOf(func(_ js.Value, args []js.Value) any {
		p.guard(kind, func() { f(args[0]) })
		return nil
	}))
}
