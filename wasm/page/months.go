//go:build js && wasm

package page

import (
	"strconv"
	"strings"
	"syscall/js"

	"splittally/calc"
)

// nextMonth adds a bill that goes on where the last one ends.
func (p *page) nextMonth() {
	c, at := calc.Next(p.read())
	if at < 0 {
		p.notice("There is no bill yet to go on from. Type the first one.")
		p.goTo("periods.0.from")
		return
	}
	p.replace(c)
	p.toKeep()
	p.notice("Bill " + strconv.Itoa(at+1) + " goes on where the one before ends. Its days go below those that are already there.")
	p.addAct("further-days", "Paste further days", "")
	field := ".to"
	if c.Periods[at].From == "" {
		field = ".from"
	}
	p.goTo("periods." + strconv.Itoa(at) + field)
}

// furtherDays puts the cursor on a fresh line below the readings that the button
// stands by, or below those of the first monitor.
func (p *page) furtherDays(button js.Value) {
	item := button.Call("closest", "[data-item]")
	if item.IsNull() {
		item = p.all(`[data-list="monitors"] > [data-item]`)[0]
	}
	area := item.Call("querySelector", "textarea[data-field]")
	if text := area.Get("value").String(); text != "" && !strings.HasSuffix(text, "\n") {
		area.Set("value", text+"\n")
		p.changed()
	}
	end := area.Get("textLength")
	area.Call("scrollIntoView", map[string]any{"block": "center"})
	area.Call("focus", map[string]any{"preventScroll": true})
	area.Call("setSelectionRange", end, end)
	area.Set("scrollTop", area.Get("scrollHeight"))
}
