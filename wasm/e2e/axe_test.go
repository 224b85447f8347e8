//go:build !js

package e2e

import (
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

// axe is where make test puts the accessibility checker axe-core.
const axe = "../tools/node_modules/axe-core/axe.min.js"

// violations fails the walk for whatever the checker finds, and if it looked at
// nothing.
func (p *page) violations(what string) {
	p.Helper()
	found := p.axe()
	if found.Passed < 20 {
		p.Errorf("%s: only %d rules had anything to look at", what, found.Passed)
	}
	for _, v := range found.Violations {
		p.Errorf("%s: %s", what, v)
	}
}

// checked is what the checker found.
type checked struct {
	Passed     int // rules that had something to look at
	Violations []string
}

func (p *page) axe() checked {
	p.Helper()
	return p.axeOnly("")
}

// axeOnly takes options for the checker, with a comma after each.
func (p *page) axeOnly(options string) checked {
	p.Helper()
	return evaluate[checked](p, `axe.run({ `+options+`resultTypes: ["violations"] }).then((r) => ({
		Passed: r.passes.length,
		Violations: r.violations.flatMap((v) => v.nodes.slice(0, 3).map((n) => v.id + ": " + n.target + " " + n.html.slice(0, 120) + " " + n.any.concat(n.all, n.none).map((c) => c.message).join(" "))),
	}))`)
}

// askAndErr types a case that leaves questions open and has wrong entries.
func (p *page) askAndErr() {
	p.Helper()
	p.pasteInto("#monitors-0-readings", "03/04/2025 12.4\n04/04/2025 11.9\n05/04/2025 12x4\n06/04/2025 13.3\nTotal 37.6\n")
	p.typeInto("#periods-0-from", "03/04/2025")
	p.typeInto("#periods-0-to", "07/04/2025")
	p.typeInto("#periods-0-kwh", "51")
	p.typeInto("#price-per-kwh", "fourteen cents")
	p.waitFor("#bar", "questions open")
	p.waitFor("#bar", "to mend")
}

// media features that a person may have set, besides the scheme.
func (p *page) feature(name, value string) {
	p.Helper()
	scheme := map[bool]string{false: "light", true: "dark"}[p.look.dark]
	_, err := chromedp.Call(p.ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
		Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}, {Name: name, Value: value}},
	})
	if err != nil {
		p.Fatal(err)
	}
}
