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

// tariffFold holds the tariffs, plan one of them, printedFold what a bill prints.
const tariffFold = `[aria-labelledby="price-title"] > details`

func plan(n int) string { return fmt.Sprintf(`[data-list="plans"] > :nth-child(%d)`, n+1) }

func printedFold(n int) string {
	return fmt.Sprintf(`[data-list="periods"] > :nth-child(%d) > details:nth-of-type(2)`, n+1)
}

// On a phone: a tariff of two tiers, a charge a day and a tax, typed key by key
// from a printed bill; the bill rebuilt, and the one line that differs with its
// reason; the tariff in a file and back; another tariff to compare.
func TestWholeTariff(t *testing.T) {
	program(t, "chromium")
	p := open(t, look{form: singleFile, width: 360})
	p.fillIn(1)
	p.typeInto("#monitors-0-name", "Hall")
	p.typeTariff()
	// 400 · 0.12 + 27 · 0.15 + 31 · 0.30, and 5 % of it.
	p.waitFor(`[data-slot="accounts"]`, "64.42")
	p.fits()

	p.tap(printedFold(0) + " > summary")
	for i, line := range [][2]string{{"Energy", "52.05"}, {"Customer charge", "9.30"}, {"City tax", "2.60"}} {
		p.typeInto(fmt.Sprintf("#periods-0-lines-%d-name", i), line[0])
		p.typeInto(fmt.Sprintf("#periods-0-lines-%d-amount", i), line[1])
	}
	p.typeInto("#periods-0-total", "63.95")
	p.waitFor(`[data-slot="accounts"] .sum`, "63.95")
	p.waitFor(`[data-slot="accounts"] .sum`, "\u22120.47")
	p.waitFor(`[data-slot="accounts"] .reason`, "if “Customer charge” is not taxed")
	if n := p.count(`[data-slot="accounts"] .reason`); n != 1 {
		t.Errorf("%d lines have a reason, want one: %s", n, p.text(`[data-slot="accounts"]`))
	}
	p.waitFor(`[data-slot="worth"]`, "a year of 365.25 days")
	p.fits()
	p.findPrice()

	p.tap(tariffFold + ` > [data-do="add-item"]`)
	p.choose("#plans-1-rows-0-kind", "energy")
	p.typeInto("#plans-1-name", "Level")
	p.typeInto("#plans-1-currency", "USD")
	p.typeInto("#plans-1-rows-0-price", "0.14")
	p.waitFor(`[data-slot="choices"]`, "Level")
	p.waitFor(`[data-slot="choices"]`, "Cedar Row yours")
	p.unfoldAll()
	p.fits()
	checker, err := os.ReadFile(filepath.FromSlash(axe))
	if err != nil {
		t.Fatalf("axe-core is not installed; make test installs it (%v)", err)
	}
	evaluate[chromedp.Void](p, string(checker))
	p.violations("tariff")
	p.tariffFile()
}

// typeTariff types the tariff row by row, and sees only the fields that each
// kind of row needs.
func (p *page) typeTariff() {
	p.Helper()
	p.tap(tariffFold + " > summary")
	p.typeInto("#plans-0-name", "Cedar Row")
	p.typeInto("#plans-0-currency", "USD")
	p.shows("#plans-0-rows-0-", "price", "name")
	p.choose("#plans-0-rows-0-kind", "tiers")
	p.shows("#plans-0-rows-0-", "name", "per", "basis", "steps")
	p.typeInto("#plans-0-rows-0-name", "Energy")
	p.typeInto("#plans-0-rows-0-steps-0-up-to", "400")
	p.typeInto("#plans-0-rows-0-steps-0-price", "0.12")
	p.waitFor(plan(0)+` [data-slot="waits"]`, "a last tier without end")
	p.typeInto("#plans-0-rows-0-steps-1-price", "0.15")
	p.tap(plan(0) + ` > [data-do="add-item"]`)
	p.choose("#plans-0-rows-1-kind", "fixed")
	p.shows("#plans-0-rows-1-", "name", "price", "per")
	p.typeInto("#plans-0-rows-1-name", "Customer charge")
	p.typeInto("#plans-0-rows-1-price", "0.30")
	p.choose("#plans-0-rows-1-per", "day")
	p.tap(plan(0) + ` > [data-do="add-item"]`)
	p.choose("#plans-0-rows-2-kind", "tax")
	p.shows("#plans-0-rows-2-", "name", "price", "on")
	if n := p.count(`#plans-0-rows-2-bands > *`); n != 2 {
		p.Errorf("a row begins with %d time-of-use periods, want 2", n)
	}
	p.typeInto("#plans-0-rows-2-name", "City tax")
	p.typeInto("#plans-0-rows-2-price", "5")
}

// findPrice looks for the price of the second tier. The choice stays while the
// tariff that gives the choices is typed on, even where it loses the tier.
func (p *page) findPrice() {
	p.Helper()
	p.choose("#periods-0-solve", "row.0.1")
	p.waitFor(`[data-slot="accounts"] .decide`, "With 0.15 per kWh as the price of part 2 of “Energy”")
	for _, kind := range []string{"", "tiers"} {
		p.choose("#plans-0-rows-0-kind", kind)
		if got := p.value("#periods-0-solve"); got != "row.0.1" {
			p.Errorf("with a row of the kind %q, what to find is %q", kind, got)
		}
	}
	if n := p.count(`#periods-0-solve option[value="row.0.1"]`); n != 1 {
		p.Errorf("the second tier is offered %d times", n)
	}
	p.choose("#periods-0-solve", "")
}

// shows fails the walk unless of a row's fields just these are seen.
func (p *page) shows(row string, fields ...string) {
	p.Helper()
	for _, f := range []string{"name", "price", "per", "basis", "on", "steps", "bands"} {
		want := strings.Contains(" "+strings.Join(fields, " ")+" ", " "+f+" ")
		if got := evaluate[bool](p, find(row+f)+`.checkVisibility()`); got != want {
			p.Errorf("%s%s is seen: %v, want %v", row, f, got, want)
		}
	}
}

// tariffFile saves the tariff, and loads it in another browser, where a file of
// another kind is refused.
func (p *page) tariffFile() {
	p.Helper()
	name, data := p.download(func() { p.tap(plan(0) + ` [data-do="save-plan"]`) })
	if name != "tariff-cedar-row.json" || !strings.Contains(string(data), `"City tax"`) || strings.Contains(string(data), "Hall") {
		p.Errorf("saved %s:\n%s", name, data)
	}
	path := filepath.Join(p.TempDir(), name)
	if err := os.WriteFile(path, data, 0o600); err != nil {
		p.Fatal(err)
	}
	elsewhere := open(p.TB, look{form: singleFile, width: 360})
	elsewhere.upload("#plan-file", path)
	elsewhere.waitFor("#page-notice", name)
	for field, want := range map[string]string{"#plans-0-name": "Cedar Row", "#plans-0-rows-0-steps-1-price": "0.15", "#plans-0-rows-1-per": "day", "#plans-0-rows-2-kind": "tax"} {
		if got := elsewhere.value(field); got != want || !evaluate[bool](elsewhere, find(field)+`.checkVisibility()`) {
			p.Errorf("%s holds %q of the file, and must show %q", field, got, want)
		}
	}
	elsewhere.upload("#plan-file", "../../testdata/scenario/no-bill-yet.case.json")
	elsewhere.waitFor("#file-says", "a tariff saved by Split Tally")
	if got := elsewhere.value("#plans-0-name"); got != "Cedar Row" {
		p.Errorf("a refused file left %q", got)
	}
}
