//go:build !js

package e2e

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// A state is something that the page can show; show gets there from the state
// before it.
type state struct {
	name string
	show func(p *page)
}

// states are those of one sitting with the hosted page, each with all that
// unfolds, so that nothing is left unlooked at.
var states = []state{
	{"empty", func(*page) {}},
	{"questions and problems", (*page).askAndErr},
	{"a bad link", func(p *page) {
		p.typeInto("#link-in", "hello")
		p.tap(`[data-do="open-link"]`)
		p.until("a sentence about the link", func() bool { return p.visible("#link-in-says") })
	}},
	{"a file that is none of ours", func(p *page) {
		p.upload("#file", written(p, "holiday.json", []byte(`{"places": ["beach"]}`)))
		p.until("a sentence about the file", func() bool { return p.visible("#file-says") })
	}},
	{"a file of readings", func(p *page) {
		p.upload(pickFile, written(p, "minutes.csv", minutes(3)))
		p.waitFor(fileCard, "minutes.csv")
	}},
	{"a file that gives nothing", func(p *page) {
		p.upload("#meter-readings-file", written(p, "holiday.csv", []byte("beach,sand\nwide,warm\n")))
		p.until("a sentence about the file", func() bool { return p.count(`[data-group="meter"] [data-slot="file"] .trouble`) > 0 })
	}},
	{"a run of taps", func(p *page) {
		p.typeInto("#timing-constant", "1000")
		p.choose("#timing-runs-0-how", "taps")
		for range 3 {
			p.tap(run0 + ` [data-do="tap"]`)
		}
		p.tap(run0 + ` [data-do="tap-done"]`)
	}},
	{"several cases, one taken away", func(p *page) {
		for _, name := range []string{"Barn", "Shed"} {
			p.tap(`[data-do="new-case"]`)
			p.typeInto("#title", name)
			p.until("the case in the list", func() bool { return strings.Contains(p.caseNames(), name) })
		}
		p.onCase("away-case", "Barn")
		p.waitFor("#page-notice", "taken away")
	}},
	{"storage that is full", func(p *page) {
		evaluate[chromedp.Void](p, `Storage.prototype.setItem = () => { throw new DOMException("the quota has been exceeded", "QuotaExceededError"); }`)
		p.typeInto("#note", "x")
		p.waitFor("#page-notice", "could not keep")
	}},
	{"a new version, and trouble inside", func(p *page) {
		evaluate[chromedp.Void](p, `for (const id of ["new-version", "inside-trouble", "no-engine"]) document.getElementById(id).hidden = false`)
	}},
	{"the example", func(p *page) {
		p.tap(`[data-do="show-example"]`)
		p.waitFor("#bar", "Hallway monitor")
	}},
	{"a link, its code and the findings as text", func(p *page) {
		p.tap(`[data-do="make-link"]`)
		p.tap(`[data-do="show-code"]`)
		p.until("the code", func() bool { return p.count("#code svg") > 0 })
		p.tap(`[data-do="as-text"]`)
	}},
	{"a guest, and what changed", func(p *page) {
		evaluate[string](p, `location.hash = document.querySelector("#link").value.split("#")[1]`)
		p.until("the guest", func() bool { return p.attribute("html", "data-case") == "guest" })
		p.tap(`[data-do="ask-changes"]`)
	}},
}

// zoomed is the width in CSS pixels of a window of 1280 px at 400 %.
const zoomed = 320

// TestEveryState looks at every state on a phone, on a desktop, and in a window
// of 1280 × 1024 px zoomed to 400 %, in light, in dark and in forced colours:
// axe-core finds no barrier, nothing is wider than the window, what is tapped is
// 44 px tall and wide, and nothing is told by a background alone.
func TestEveryState(t *testing.T) {
	program(t, "chromium")
	checker, err := os.ReadFile(filepath.FromSlash(axe))
	if err != nil {
		t.Fatalf("axe-core is not installed; make test installs it (%v)", err)
	}
	for _, l := range []look{{width: 360, height: 780}, {width: 1280}, {width: zoomed, height: 256}} {
		t.Run(fmt.Sprintf("%d", l.width), func(t *testing.T) {
			p := open(t, l)
			evaluate[chromedp.Void](p, string(checker))
			for _, s := range states {
				s.show(p)
				p.unfoldAll()
				p.frame()
				p.targets(s.name)
				p.fits()
				if l.width != zoomed { // it has the same elements in the same colours as the phone
					p.violations(s.name)
				}
				if l.width == 360 || *every { // the others have the same style sheet
					p.inDark(s.name)
					p.still(s.name)
					p.inForcedColours(s.name)
				}
				if t.Failed() {
					t.Fatalf("in the state: %s", s.name)
				}
			}
			evaluate[chromedp.Void](p, `document.querySelector("main").append(document.createElement("button"))`)
			if found := p.axe(); len(found.Violations) == 0 {
				t.Error("a button without a name went unseen: the checker is blind")
			}
		})
	}
}

// inDark looks again at what colours make unreadable.
func (p *page) inDark(what string) {
	p.Helper()
	p.look.dark = true
	p.feature("prefers-reduced-motion", "reduce")
	for _, v := range p.axeOnly(`runOnly: ["color-contrast"], `).Violations {
		p.Errorf("%s, dark: %s", what, v)
	}
	p.look.dark = false
	p.feature("prefers-reduced-motion", "no-preference")
}

// still fails the walk for what moves although the person wants no motion.
func (p *page) still(what string) {
	p.Helper()
	p.feature("prefers-reduced-motion", "reduce")
	moving := evaluate[string](p, `[...document.querySelectorAll("*")].filter((e) => {
		const s = getComputedStyle(e);
		return s.scrollBehavior === "smooth" || s.animationName !== "none" || parseFloat(s.transitionDuration) > 0;
	}).map((e) => e.outerHTML.slice(0, 90)).concat(document.getAnimations().map((a) => "an animation of " + a.effect.target.outerHTML.slice(0, 90))).slice(0, 5).join("\n")`)
	if moving != "" {
		p.Errorf("%s: moves: %s", what, moving)
	}
}

// edged is JavaScript that tells whether a style draws a border.
const edged = `const edged = (s) => ["Top", "Right", "Bottom", "Left"].some((side) => s["border" + side + "Style"] !== "none" && parseFloat(s["border" + side + "Width"]) > 0);
`

// boxed is JavaScript for elements whose background differs from what lies behind
// them and that have neither border nor outline nor underline: in forced colours,
// where all backgrounds are one, nobody sees them.
const boxed = `(() => {
	` + edged + `
	const behind = (e) => {
		for (let a = e.parentElement; a; a = a.parentElement) {
			const c = getComputedStyle(a).backgroundColor;
			if (c !== "rgba(0, 0, 0, 0)") return c;
		}
		return "";
	};
	return [...document.querySelectorAll("body *:not(svg *)")].filter((e) => {
		if (!e.checkVisibility({ visibilityProperty: true })) return false;
		const s = getComputedStyle(e), r = e.getBoundingClientRect();
		const stands = s.backgroundColor !== "rgba(0, 0, 0, 0)" && s.backgroundColor !== behind(e) || s.backgroundImage !== "none";
		return stands && r.width > 1 && r.height > 1 && !edged(s) && s.textDecorationLine === "none";
	});
})()`

// inForcedColours fails the walk for what a background alone tells, and for
// controls that are no longer to be told from text.
func (p *page) inForcedColours(what string) {
	p.Helper()
	if lost := evaluate[string](p, boxed+`.map((e) => e.outerHTML.slice(0, 120)).slice(0, 8).join("\n")`); lost != "" {
		p.Errorf("%s: told by a background alone:\n%s", what, lost)
	}
	p.feature("forced-colors", "active")
	lost := evaluate[string](p, `(() => { `+edged+` return [...document.querySelectorAll("button, input:not([type=checkbox], [type=radio]), select, textarea")].filter((e) => {
		const s = getComputedStyle(e);
		return e.checkVisibility({ visibilityProperty: true, opacityProperty: true }) && !edged(s) && s.textDecorationLine === "none";
	}).map((e) => e.outerHTML.slice(0, 120)).slice(0, 8).join("\n"); })()`)
	if lost != "" {
		p.Errorf("%s, forced colours: without an edge:\n%s", what, lost)
	}
	p.feature("forced-colors", "none")
}
