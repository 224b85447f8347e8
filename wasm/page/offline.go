//go:build js && wasm

package page

import (
	"syscall/js"

	"splittally/calc"
	"splittally/calc/report"
)

// about gives what a report says of the program that made it. The page has been
// told its engine's hash when it was packed, and has checked it where it could.
func (p *page) about() report.About {
	return report.About{Today: today(), Version: calc.Version, Engine: attribute(p.doc.DocumentElement().Underlying(), "data-engine-hash")}
}

// takeUpdate keeps what was typed and lets static/offline.js start the version
// that waits. Where the browser keeps nothing, the person must save a file first.
func (p *page) takeUpdate() {
	p.keep()
	if p.unkept && !p.warned {
		p.warned = true
		p.notice("What you typed can't be kept here while the new version starts. Save it to a file first, then press again.")
		return
	}
	event := js.Global().Get("Event").New("take-update")
	p.doc.Underlying().Call("dispatchEvent", event)
}
