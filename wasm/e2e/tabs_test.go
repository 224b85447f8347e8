//go:build !js

package e2e

import (
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
)

// Two tabs with the same case: each shows what the other types, and nothing of
// either is lost.
func TestTwoTabsOfOneCase(t *testing.T) {
	for _, f := range forms {
		t.Run(f.String(), func(t *testing.T) {
			p := open(t, look{form: f})
			p.fillIn(1)
			p.waitKept(months[1].kwh)
			q := p.again()
			q.typeInto("#title", "from the second tab")
			p.until("the title in the first tab", func() bool { return p.value("#title") == "from the second tab" })
			p.typeInto("#note", "from the first tab")
			q.until("the note in the second tab", func() bool { return q.value("#note") == "from the first tab" })
			p.typeInto("#monitors-0-name", "Hallway")
			q.typeInto("#monitors-0-accuracy", "1.5")
			for _, tab := range []*page{p, q} {
				tab.until("both", func() bool {
					return tab.value("#monitors-0-name") == "Hallway" && tab.value("#monitors-0-accuracy") == "1.5"
				})
			}
			// A bill that one tab takes away and one that the other changes.
			q.typeInto("#periods-1-kwh", "399")
			p.until("the energy in the first tab", func() bool { return p.value("#periods-1-kwh") == "399" })
			q.typeInto("#periods-1-kwh", "388")
			p.tap(`[data-list="periods"] > :nth-child(1) [data-do="remove-item"]`)
			for _, tab := range []*page{p, q} {
				tab.until("the one bill that is left", func() bool {
					return tab.count(`[data-list="periods"] > *`) == 1 && tab.value("#periods-0-kwh") == "388"
				})
			}
			p.reload()
			if got := p.value("#title") + "/" + p.value("#note") + "/" + p.value("#monitors-0-name"); got != "from the second tab/from the first tab/Hallway" {
				t.Errorf("after a reload: %s", got)
			}
		})
	}
}

// deaf lets a tab hear nothing of others while window.deaf is set, as one that
// sleeps.
const deaf = `addEventListener("storage", (e) => { if (window.deaf) e.stopImmediatePropagation(); }, true);`

// The same field in both tabs: both end with the same text, the page says what
// the other was, and it is one undoing away.
func TestTwoTabsInOneField(t *testing.T) {
	p := open(t, look{before: deaf})
	p.typeInto("#title", "Larch Bend")
	p.waitKept("Larch Bend")
	q := p.again()
	evaluate[chromedp.Void](p, `window.deaf = true`)
	time.Sleep(2 * time.Second) // until the first tab no longer looks after what it kept
	q.typeInto("#periods-0-kwh", "413")
	q.waitKept("413")
	p.typeInto("#periods-0-kwh", "412")
	p.waitFor("#page-notice", "Two tabs changed the same: Bill 1, Energy billed")
	p.waitFor("#page-notice", "“412” stands now, and the other was “413”")
	q.until("the later text in the other tab", func() bool { return q.value("#periods-0-kwh") == "412" })
	p.tap(`#page-notice [data-do="undo"]`)
	for _, tab := range []*page{p, q} {
		tab.until("the other text in both", func() bool { return tab.value("#periods-0-kwh") == "413" })
	}
}

// Another case in another tab is left alone, and so is its list.
func TestTwoTabsOfTwoCases(t *testing.T) {
	p := open(t, look{})
	p.typeInto("#title", "Larch Bend")
	p.waitKept("Larch Bend")
	q := p.again()
	q.tap(`[data-do="new-case"]`)
	q.typeInto("#title", "The mill")
	q.waitKept("The mill")
	p.until("the other case in the list", func() bool { return strings.Contains(p.caseNames(), "The mill") })
	p.typeInto("#note", "here")
	p.waitKept("here")
	if got := q.value("#title") + q.value("#note"); got != "The mill" {
		t.Errorf("the other tab holds %q", got)
	}
	p.reload()
	q.reload()
	if got := p.value("#title") + "/" + q.value("#title"); got != "Larch Bend/The mill" {
		t.Errorf("after a reload the tabs show %s", got)
	}
}

// A case taken away in one tab while it is open in the other.
func TestTakenAwayInTheOtherTab(t *testing.T) {
	p := open(t, look{form: singleFile})
	p.typeInto("#title", "Larch Bend")
	p.waitKept("Larch Bend")
	q := p.again()
	p.onCase("away-case", "Larch Bend")
	p.waitFor("#page-notice", "taken away")
	q.waitFor("#page-notice", "taken away in another tab")
	if got := q.value("#title"); got != "Larch Bend" {
		t.Errorf("the other tab lost it: %q", got)
	}
	q.typeInto("#note", "typed on")
	q.waitKept("typed on")
	p.until("the case to be back in the list", func() bool { return strings.Contains(p.caseNames(), "Larch Bend") })
}
