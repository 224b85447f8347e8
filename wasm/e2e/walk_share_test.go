//go:build !js

package e2e

import (
	"encoding/json"
	"maps"
	"strings"
	"testing"
)

// The walk of a link: the owner makes one, a helper elsewhere opens it, mends the
// case and sends one back, and the owner takes that over.
func TestLinkThereAndBack(t *testing.T) {
	for _, f := range forms {
		t.Run(f.String(), func(t *testing.T) {
			owner := open(t, look{form: f, width: 360})
			owner.fillIn(2)
			owner.typeInto("#title", "The lodge")
			verdict, _, _ := strings.Cut(owner.text("#bar .short"), "\n")
			there := makeLink(owner)
			if strings.HasPrefix(there, "#") != (f == singleFile) {
				t.Errorf("the link is %.60q", there)
			}
			if len(there) > 700 {
				t.Errorf("the link of two months has %d characters, want at most 700", len(there))
			}
			owner.tap(`[data-do="show-code"]`)
			owner.until("the QR code", func() bool { return owner.count("#code svg path") == 2 })
			owner.fits()

			helper := open(t, look{form: f})
			helper.typeInto("#title", "My own")
			openLink(helper, there)
			helper.waitFor("#bar .short", verdict)
			if got := helper.value("#title"); got != "" {
				t.Errorf("the title %q went along unasked", got)
			}
			helper.empty("#periods-1-kwh")
			helper.typeInto("#periods-1-kwh", "444")
			back := makeLink(helper)
			helper.reload() // what was mended is still there in this tab
			helper.until("the mended case after a reload", func() bool { return helper.value("#periods-1-kwh") == "444" })
			for _, leave := range []string{"new-case", "leave-guest"} {
				helper.tap(`[data-do="` + leave + `"]`)
				helper.until("no guest", func() bool { return helper.attribute("html", "data-case") == "" })
				helper.tap(`#page-notice [data-do="show-link"]`)
				helper.until("what was mended", func() bool { return helper.value("#periods-1-kwh") == "444" })
			}
			helper.tap(`[data-do="leave-guest"]`)
			helper.tap(`#page-notice [data-do="put-away"]`)
			helper.onCase("open-case", "My own")
			helper.until("the helper's own case", func() bool { return helper.value("#title") == "My own" })

			openLink(owner, back)
			owner.tap(`[data-do="ask-changes"]`)
			owner.waitFor("#changed", "444")
			if got := owner.text("#changed"); !strings.Contains(got, "One thing differs") {
				t.Errorf("the changes are %q", got)
			}
			owner.fits()
			if got := owner.value("#title"); got != "" {
				t.Errorf("the guest has the title %q", got)
			}
			owner.tap(`[data-do="take-changes"]`)
			owner.until("the change in one's own case", func() bool {
				return owner.value("#periods-1-kwh") == "444" && owner.value("#title") == "The lodge"
			})
			if got := owner.value("#monitors-0-readings"); got != dailyTotals(0) {
				t.Errorf("the text that was pasted is now %.80q", got)
			}
			owner.tap(`#page-notice [data-do="undo"]`)
			owner.until("the change to be undone", func() bool { return owner.value("#periods-1-kwh") == months[1].kwh })
		})
	}
}

// A phone's own way to send something on gets the link and no more.
func TestSendLink(t *testing.T) {
	const stub = `navigator.share = async (sent) => { window.sent = JSON.stringify(sent); }`
	for _, f := range forms {
		p := open(t, look{form: f, width: 360, before: stub})
		p.fillIn(1)
		there := makeLink(p)
		p.tap(`[data-do="send-link"]`)
		field := map[form]string{hosted: "url", singleFile: "text"}[f]
		want := `{"title":"Split Tally",` + quote(field) + `:` + quote(there) + `}`
		p.until("the link to be sent", func() bool { return evaluate[bool](p, `window.sent !== undefined`) })
		if got := evaluate[string](p, `window.sent`); !sameJSON(t, got, want) {
			t.Errorf("%v: sent %s, want %s", f, got, want)
		}
	}
}

func sameJSON(t *testing.T, got, want string) bool {
	t.Helper()
	var a, b map[string]string
	if json.Unmarshal([]byte(got), &a) != nil || json.Unmarshal([]byte(want), &b) != nil {
		t.Fatalf("%s and %s are not both JSON", got, want)
	}
	return maps.Equal(a, b)
}

// makeLink makes a link of what the page shows.
func makeLink(p *page) string {
	p.Helper()
	p.tap(`[data-do="make-link"]`)
	p.until("the link", func() bool { return strings.Contains(p.value("#link"), "tally1") })
	return p.value("#link")
}

// openLink opens a link in a page that is open already: by its address where
// there is one, else by pasting it.
func openLink(p *page, text string) {
	p.Helper()
	if address, fragment, _ := strings.Cut(text, "#"); address != "" {
		evaluate[string](p, `location.hash = `+quote(fragment))
	} else {
		p.pasteInto("#link-in", text)
		p.tap(`[data-do="open-link"]`)
	}
	p.until("the guest", func() bool {
		return evaluate[string](p, `document.documentElement.dataset.case || ""`) == "guest"
	})
}

// Links that are none, cut short or damaged: a sentence, and one's own case stays.
func TestBadLinks(t *testing.T) {
	p := open(t, look{form: singleFile})
	p.fillIn(1)
	good := makeLink(p)
	middle := len(good) / 2
	for text, want := range map[string]string{
		"hello":             "no case",
		good[:len(good)-40]: "cut",
		good[:middle] + strings.Map(otherLetter, good[middle:middle+1]) + good[middle+1:]: "damaged",
		"tally" + "9" + good[6:]: "newer",
	} {
		p.empty("#link-in")
		p.pasteInto("#link-in", text)
		p.tap(`[data-do="open-link"]`)
		p.until("a sentence about "+text[:5], func() bool { return strings.Contains(strings.ToLower(p.text("#link-in-says")), want) })
		if got := p.value("#periods-0-kwh"); got != months[0].kwh {
			t.Errorf("one's own bill is %q now", got)
		}
	}
	p.empty("#link-in")
	p.pasteInto("#link-in", "https://forum.invalid/#"+good+".") // as a forum may set it
	p.tap(`[data-do="open-link"]`)
	p.until("the guest", func() bool { return p.count(`[data-case="guest"]`) == 1 })
	p.tap(`[data-do="keep-guest"]`)
	p.until("a second case", func() bool { return p.count("#cases li") == 2 })
}

func otherLetter(r rune) rune {
	if r == 'a' {
		return 'b'
	}
	return 'a'
}
