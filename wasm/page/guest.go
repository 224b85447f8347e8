//go:build js && wasm

package page

import (
	"strings"

	"splittally/calc/link"
)

// openTyped opens the link that was pasted into the page.
func (p *page) openTyped() {
	text := strings.TrimSpace(p.byID("link-in").Get("value").String())
	if _, behind, ok := strings.Cut(text, "#"); ok {
		text = behind
	}
	says := ""
	if !link.Is(text) {
		says = "No case is in this: a link made here has a long run of letters and digits behind its #."
	} else if _, err := link.Read(text); err != nil {
		says = err.Error()
	}
	p.byID("link-in-says").Set("textContent", says)
	p.byID("link-in-says").Set("hidden", says == "")
}
