//go:build js && wasm

package page

import (
	"syscall/js"

	"splittally/calc"
	"splittally/calc/report"
	"splittally/wasm/view"
)

// listenToPrinting has the paper drawn whenever the browser prints: it is what
// is printed, not the page.
func (p *page) listenToPrinting() {
	p.onWindow("beforeprint", func(js.Value) { p.drawPaper() })
	p.onWindow("afterprint", func(js.Value) { p.showPaper("") })
}

// print prints the paper. It is drawn before the browser is asked, since not all
// of them tell that they are about to print.
func (p *page) print() {
	p.drawPaper()
	js.Global().Call("print")
}

func (p *page) drawPaper() {
	p.find()
	p.showPaper(view.Paper(p.paper(), p.c, p.f))
}

func (p *page) showPaper(html string) {
	for _, s := range p.slots {
		if s.path == "paper" {
			p.show(s, html)
		}
	}
}

// paper makes the report of the case.
func (p *page) paper() report.Paper {
	return report.Compose(p.c, p.f, report.About{
		Today: today(), Version: calc.Version, IsExample: p.guest == exampleGuest,
		Engine: attribute(p.doc.DocumentElement().Underlying(), "data-engine-hash"),
	})
}
