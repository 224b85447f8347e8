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

// checksFold and the selectors below it are the parts of the leg checks.
const checksFold = `[aria-labelledby="legs-title"] > details`

func leg(n int) string { return fmt.Sprintf(`[data-list="legs"] > :nth-child(%d)`, n+1) }

// From two bills that a monitor reads high, on a phone: what was checked at the
// legs, typed key by key, then by the verdict's link to the causes, to what
// decides, to the settings and the corrected days.
func TestWhyTheyDiffer(t *testing.T) {
	program(t, "chromium")
	p := open(t, look{form: singleFile, width: 360})
	p.fillIn(1)
	p.typeInto("#monitors-0-name", "Hall")
	p.typeInto("#monitors-0-accuracy", "1")
	p.typeInto("#periods-0-kwh", "413")
	p.typeInto("#periods-1-kwh", "364")
	p.waitFor("#bar", "Hall")
	if got := p.count(`[data-slot="legs"] table`); got != 0 {
		t.Errorf("%d tables of legs before anything was checked", got)
	}
	p.typeChecks()
	p.waitFor(`[data-slot="legs"]`, "Black")
	p.waitFor(`[data-slot="legs"]`, "between the lines")
	p.fits()

	p.waitFor(".why", "Why")
	p.tap(".why button")
	p.until("the causes to have the focus", func() bool { return evaluate[string](p, `document.activeElement.id`) == "causes-0" })
	if y := evaluate[float64](p, find("#causes-0")+`.getBoundingClientRect().y`); y < 0 || y > 700 {
		t.Errorf("the causes are at %v px, out of sight", y)
	}
	p.waitFor(`[data-slot="causes"]`, "of the evidence")
	p.waitFor(`[data-slot="causes"]`, "not a legal proof")
	p.waitFor(`[data-slot="causes"]`, "explained far less well")
	p.waitFor(`[data-slot="corrections"]`, "The settings")
	p.tap("#table-corrected-0-0-head")
	p.waitFor("#table-corrected-0-0", "estimated")
	p.unfoldAll()
	p.fits()
	checker, err := os.ReadFile(filepath.FromSlash(axe))
	if err != nil {
		t.Fatalf("axe-core is not installed; make test installs it (%v)", err)
	}
	evaluate[chromedp.Void](p, string(checker))
	p.violations("causes")
	path := filepath.Join(work, "causes-phone.png")
	if *pictures {
		path = "../../testdata/pictures/causes-phone.png"
	}
	p.picture(path, "#causes-0", 1200)
	fewerColours(t, path)

	// What was typed in a part folded within others is seen after a reload.
	p.waitKept("247.0")
	p.reload()
	for field, want := range map[string]string{"#checks-legs-1-steps-1-load": "1502", "#checks-lines-0-monitor": "247.0"} {
		if got := p.value(field); got != want || !evaluate[bool](p, find(field)+`.checkVisibility()`) {
			t.Errorf("after a reload %s holds %q and must show %q", field, got, want)
		}
	}
	p.waitFor(".why", "Why")
}

// Every scenario, with all that unfolds, fits the narrowest window.
func TestScenariosFit(t *testing.T) {
	program(t, "chromium")
	files, err := filepath.Glob("../../testdata/scenario/*.case.json")
	if err != nil || len(files) < 10 {
		t.Fatalf("%d scenarios (%v)", len(files), err)
	}
	p := open(t, look{form: singleFile, width: 320})
	for _, file := range files {
		p.upload("#file", file)
		p.waitFor("#page-notice", filepath.Base(file))
		p.unfoldAll()
		if p.fits(); t.Failed() {
			t.Fatalf("that was %s", file)
		}
	}
}

// typeChecks types volts, load steps and line volts of two legs whose monitor
// reads some three per cent high, and sees the cautions on the way.
func (p *page) typeChecks() {
	p.Helper()
	p.tap(checksFold + " > summary")
	p.waitFor(checksFold, "Line voltage kills")
	p.choose("#checks-service", "split")
	p.typeInto("#checks-legs-0-name", "Black")
	p.typeInto("#checks-legs-1-name", "Red")
	for n, volts := range [][3][2]string{
		{{"120.1", "123.8"}, {"120.3", "123.9"}, {"119.9", "123.6"}},
		{{"119.8", "123.4"}, {"120.0", "123.7"}, {"119.7", "123.3"}},
	} {
		for i, pair := range volts {
			at := fmt.Sprintf("#checks-legs-%d-pairs-%d-", n, i)
			p.typeInto(at+"reference", pair[0])
			p.typeInto(at+"monitor", pair[1])
		}
		p.typeSteps(n)
	}
	amps := leg(0) + " > details:nth-of-type(2)"
	if got := p.text(amps); strings.Contains(got, "Clamp meter") {
		p.Errorf("the current pairs are open at once: %s", got)
	}
	p.tap(amps + " > summary")
	p.waitFor(amps, "Not without an electrician")
	lines := checksFold + ` > [data-list="legs"] ~ details:nth-of-type(1)`
	p.tap(lines + " > summary")
	p.typeInto("#checks-lines-0-reference", "240.0")
	p.typeInto("#checks-lines-0-monitor", "247.0")
}

// typeSteps types two known loads at a leg.
func (p *page) typeSteps(n int) {
	p.Helper()
	steps := leg(n) + " > details:nth-of-type(1)"
	p.tap(steps + " > summary")
	p.waitFor(steps, "Never leave a heater unattended")
	p.tap(steps + ` [data-do="add-item"]`)
	for i, watts := range [][3]string{{"310", "1838", "1480"}, {"295", "1844", "1502"}} {
		at := fmt.Sprintf("#checks-legs-%d-steps-%d-", n, i)
		p.typeInto(at+"before", watts[0])
		p.typeInto(at+"after", watts[1])
		p.typeInto(at+"load", watts[2])
	}
}
