//go:build !js

package e2e

import (
	"strings"
	"testing"
)

// The findings go into a forum as text: copied by one tap, from disk too, and
// true to what is typed afterwards.
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
	p.fits()
	p.typeInto("#title", " (mended)")
	p.until("the text to follow the fields", func() bool { return strings.Contains(p.value("#as-text"), "(mended)") })
	p.tap(`[data-do="as-text"]`)
	p.until("the text to be put away", func() bool { return p.count("#text-box[hidden]") == 1 })
}
