//go:build js && wasm

package page

import "syscall/js"

// takeUpdate keeps what was typed and lets static/offline.js start the version
// that waits. Where the browser keeps nothing, the person must save a file first.
func (p *page) takeUpdate() {
	p.keep()
	if (p.unkept || len(p.held) > 0) && !p.warned {
		p.warned = true
		p.notice("What you typed can't be kept here while the new version starts. Save it to a file first, then press again.")
		return
	}
	event := js.Global().Get("Event").New("take-update")
	p.doc.Underlying().Call("dispatchEvent", event)
}
