//go:build js && wasm

package page

import "syscall/js"

// listenToPrinting makes the page ready for paper whenever the browser prints.
func (p *page) listenToPrinting() {
	p.onWindow("beforeprint", func(js.Value) { p.unfold(true) })
	p.onWindow("afterprint", func(js.Value) { p.unfold(false) })
}

// unfold opens the workings for the printed page, and closes those again. Parts
// have parts inside, which are there only once the outer ones are drawn open.
// Tables of days are printed only if they were open: what was typed is printed
// too, and each table takes a page.
func (p *page) unfold(open bool) {
	p.printing = open
	if !open {
		for _, d := range p.all("#findings details") {
			if !p.before[d.Get("id").String()] {
				d.Set("open", false)
			}
		}
		p.redraw()
		return
	}
	p.before = p.unfolded
	for {
		folded := p.all(`#findings details:not([open], [id^="table-"])`)
		for _, d := range folded {
			d.Set("open", true)
		}
		p.redraw()
		if len(folded) == 0 {
			return
		}
	}
}
