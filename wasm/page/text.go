//go:build js && wasm

package page

import (
	"syscall/js"

	"splittally/calc/report"
	"splittally/wasm/view"
)

// asText shows the findings as text and copies them; a second tap puts them
// away.
func (p *page) asText(button js.Value) {
	if p.disclose(button, "text-box") {
		p.copyText(p.all(`[data-text][aria-pressed="true"]`)[0])
	}
}

// copyText shows the findings in the form that a button stands for, and copies
// them. Where the browser does not let the page copy, the text is there to be
// copied by hand.
func (p *page) copyText(button js.Value) {
	for _, b := range p.all("[data-text]") {
		b.Call("setAttribute", "aria-pressed", b.Equal(button))
	}
	p.writeText()
	p.copyFrom("as-text", "text-says")
}

// copyFrom marks the text of a field and copies it. The older way to copy works
// from disk and in every engine.
func (p *page) copyFrom(area, says string) {
	text := p.byID(area)
	text.Call("focus")
	text.Call("select")
	text.Set("scrollTop", 0)
	copied := false
	p.attempt(func() { copied = p.doc.Underlying().Call("execCommand", "copy").Bool() })
	said := "Mark all of it and copy it."
	if copied {
		said = "Copied. Paste it where you like."
	}
	p.byID(says).Set("textContent", said)
}

// writeText brings the findings as text up to date while they are shown.
func (p *page) writeText() {
	if p.byID("text-box").Get("hidden").Bool() {
		return
	}
	text := ""
	switch attribute(p.all(`[data-text][aria-pressed="true"]`)[0], "data-text") {
	case "markdown":
		text = p.paper().Markdown()
	case "plain":
		text = p.paper().Plain()
	default:
		text = report.Text(p.c, p.f)
	}
	p.byID("as-text").Set("value", text)
}

// saveTable saves the days or the bills for a spreadsheet.
func (p *page) saveTable(button js.Value) {
	what := attribute(button, "data-table")
	p.find()
	text := report.BillsCSV(p.f)
	if what == "days" {
		text = report.DaysCSV(p.f)
	}
	p.download(view.TableName(p.c, what), text)
}
