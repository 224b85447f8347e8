//go:build js && wasm

package page

import (
	"syscall/js"

	"splittally/calc/chart/markup"
)

// maker makes markup of texts, where a browser asks for Trusted Types. The page's
// policy allows this one name, and allows it once; nothing but the engine holds
// the maker, so no other script can make markup of a text. It hands texts on as
// they are: package markup has escaped what is in them.
var maker = newMaker()

func newMaker() js.Value {
	types := js.Global().Get("trustedTypes")
	if !types.Truthy() {
		return js.Undefined()
	}
	return types.Call("createPolicy", "split-tally", map[string]any{"createHTML": js.Global().Get("String")})
}

// pour puts markup into an element. It is the only place where a text becomes
// markup; all else in the page is set as text or as a value.
func pour(el js.Value, html string) {
	if maker.Truthy() {
		el.Set("innerHTML", maker.Call("createHTML", html))
		return
	}
	el.Set("innerHTML", html)
}

// show puts a sentence into an element, in which names of files and instruments
// may stand.
func show(el js.Value, text string) { el.Set("textContent", markup.Plain(text)) }
