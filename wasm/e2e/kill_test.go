//go:build !js

package e2e

import (
	"flag"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// kills is how many tabs are killed. Each wants a page that has started, so two
// hundred take some minutes: go test -run Killed ./wasm/e2e -kills 200.
var kills = flag.Int("kills", 12, "how many tabs TestKilledAtAnyKey kills")

// promise is how old a key may be that is lost with its tab.
const promise = time.Second

// stall is how late a browser may be with a key. If it was later the machine was
// too busy to say anything about the page, and the kill is made again.
const stall = 200 * time.Millisecond

// Killed at any key, a tab loses nothing that is older than a second, whether
// somebody types without a pause or stops now and then.
func TestKilledAtAnyKey(t *testing.T) {
	const typists = 3
	for typist := range typists {
		t.Run(fmt.Sprintf("typist %d", typist), func(t *testing.T) {
			t.Parallel()
			k := &typing{random: rand.New(rand.NewPCG(7, uint64(typist)))}
			k.home = open(t, look{form: forms[typist%len(forms)]})
			k.home.typeInto("#title", "killed")
			k.home.waitKept("killed")
			k.home.tap(`[data-do="new-case"]`) // so that the only tab with the case is the one that dies
			stalled := 0
			for done := 0; done < (*kills+typists-1)/typists && !t.Failed(); {
				if k.kill() {
					done++
				} else if stalled++; stalled > 2**kills {
					t.Skip("the machine is too busy")
				}
			}
			t.Logf("%d kills that a busy machine spoiled; at most %d keys were lost", stalled, k.lost)
		})
	}
}

// typing is somebody whose tabs die.
type typing struct {
	random *rand.Rand
	home   *page
	field  string // that was typed into last
	held   string // what it must hold at least
	typed  string // and at most
	lost   int    // the most keys that a kill has cost
}

// kill opens the case, sees whether all is there, types for a while and kills
// the tab. It says whether the browser kept up with the keys.
func (k *typing) kill() bool {
	p := k.home.again()
	p.Helper()
	if k.field != "" {
		got := p.value(k.field)
		if !strings.HasPrefix(k.typed, got) || len(got) < len(k.held) {
			p.Errorf("%s holds %q; at least %q was typed more than %v before, and then %q", k.field, last(got), last(k.held), promise, last(k.typed))
		}
		k.lost = max(k.lost, len(k.typed)-len(got))
	}
	k.field = []string{"#title", "#note", "#monitors-0-readings", "#periods-0-kwh", "#monitors-0-name"}[k.random.IntN(5)]
	before := p.value(k.field)
	evaluate[chromedp.Void](p, `{ const f = `+find(k.field)+`; f.focus(); f.setSelectionRange(f.value.length, f.value.length) }`)
	pause := []int{0, 15, 60, 300}[k.random.IntN(4)] // milliseconds, at most, between keys
	kept, text := true, before
	var when []time.Time
	for end := time.Now().Add(time.Duration(k.random.IntN(2200)) * time.Millisecond); time.Now().Before(end); {
		key := string(rune('a' + k.random.IntN(26)))
		if k.random.IntN(12) == 0 && k.field != "#title" && strings.HasSuffix(k.field, "readings") {
			key = kb.Enter
		}
		sent := time.Now()
		p.press(key)
		when = append(when, sent)
		kept = kept && time.Since(sent) < stall
		if text += key; key == kb.Enter {
			text = text[:len(text)-1] + "\n"
		}
		time.Sleep(time.Duration(k.random.IntN(pause+1)) * time.Millisecond)
	}
	died := time.Now()
	p.crash()
	old := 0
	for _, at := range when {
		if died.Sub(at) > promise {
			old++
		}
	}
	k.typed, k.held = text, text[:len(before)+old]
	if !kept {
		k.held = before
	}
	return kept
}

// last is the end of a text, for a message.
func last(text string) string { return text[max(0, len(text)-60):] }
