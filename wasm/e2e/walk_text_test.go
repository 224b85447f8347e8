//go:build !js

package e2e

import (
	"strings"
	"testing"
)

// The findings go into a forum as text of three kinds: copied by one tap, from
// disk too, and true to what is typed afterwards.
func TestFindingsAsText(t *testing.T) {
	p := open(t, look{form: singleFile, width: 360})
	p.tap(`[data-do="show-example"]`)
	p.waitFor("#findings", "Hallway monitor")
	p.tap(`[data-do="as-text"]`)
	p.waitFor("#text-says", "Copied")
	for _, want := range []string{"The house at Larch Bend", "Hallway monitor reads high by 3.4 % ± 1.9 %", "not a legal proof"} {
		if got := p.value("#as-text"); !strings.Contains(got, want) {
			t.Errorf("the text lacks %q:\n%.600s", want, got)
		}
	}
	for kind, want := range map[string]string{"plain": "WHAT WAS MEASURED", "all": "LINES PASTED", "markdown": "## What was measured"} {
		p.tap(`[data-do="copy-text"][data-text="` + kind + `"]`)
		p.until("the findings as "+kind, func() bool { return strings.Contains(p.value("#as-text"), want) })
		p.waitFor("#text-says", "Copied")
		if n := p.count(`[data-text][aria-pressed="true"]`); n != 1 {
			t.Errorf("%d forms are marked as shown", n)
		}
	}
	p.fits()
	p.typeInto("#title", " (mended)")
	p.until("the text to follow the fields", func() bool { return strings.Contains(p.value("#as-text"), "(mended)") })
	p.tap(`[data-do="as-text"]`)
	p.until("the text to be put away", func() bool { return p.count("#text-box[hidden]") == 1 })
}
