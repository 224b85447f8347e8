//go:build js && wasm

package page

import (
	"syscall/js"

	"splittally/calc/report"
)

// asText shows the findings as text and copies them; a second tap puts them
// away. Where the browser does not let the page copy, the text is there to be
// copied by hand.
func (p *page) asText(button js.Value) {
	box := p.byID("text-box")
	show := box.Get("hidden").Bool()
	box.Set("hidden", !show)
	button.Call("setAttribute", "aria-expanded", show)
	if !show {
		return
	}
	p.writeText()
	text := p.byID("as-text")
	text.Call("focus")
	text.Call("select")
	// The older way to copy works from disk and in every engine.
	copied := false
	p.attempt(func() { copied = p.doc.Underlying().Call("execCommand", "copy").Bool() })
	says := "Mark all of it and copy it."
	if copied {
		says = "Copied. Paste it where you like."
	}
	p.byID("text-says").Set("textContent", says)
}

// writeText brings the findings as text up to date while they are shown.
func (p *page) writeText() {
	if !p.byID("text-box").Get("hidden").Bool() {
		p.byID("as-text").Set("value", report.Text(p.c, p.f))
	}
}
