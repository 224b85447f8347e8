//go:build !js

package e2e

import (
	"encoding/base64"
	"strconv"
	"strings"
	"testing"
	"time"
)

// An engine is what all clients of this package can do.
type engine interface {
	testing.TB
	load(address string)
	evaluate(script string) string
	report()
}

// The worked example in the other engines: it opens, says its verdict, and
// nothing is wider than the window.
func TestExampleInOtherEngines(t *testing.T) {
	for name, start := range map[string]func(testing.TB) engine{
		"firefox": func(t testing.TB) engine { return openFirefox(t) },
		"webkit":  func(t testing.TB) engine { return openWebKit(t) },
	} {
		t.Run(name, func(t *testing.T) {
			e := start(t)
			e.load(singleFileAddress(t))
			await(t, e, `document.documentElement.dataset.engine`, "ready")
			fitsIn(t, e, "empty")
			e.evaluate(find(`[data-do="show-example"]`) + `.click()`)
			await(t, e, find("#findings")+`.innerText`, "Hallway monitor reads high")
			unfold := `(document.querySelectorAll("details").forEach((d) => { d.open = true; }), ` + find("#findings") + `.innerText)`
			await(t, e, unfold, "Uncertainty budget") // parts have parts inside
			fitsIn(t, e, "the example")
			e.report()
		})
	}
}

// await waits until a script gives a text that holds want.
func await(t testing.TB, e engine, script, want string) {
	t.Helper()
	for end := time.Now().Add(patience); ; time.Sleep(50 * time.Millisecond) {
		got := e.evaluate(script)
		if strings.Contains(got, want) {
			return
		}
		if time.Now().After(end) {
			t.Fatalf("waited for %q in %s, which is %q", want, script, got)
		}
	}
}

func fitsIn(t testing.TB, e engine, what string) {
	t.Helper()
	got := strings.Fields(e.evaluate(`document.documentElement.scrollWidth + " " + document.documentElement.clientWidth`))
	page, _ := strconv.Atoi(got[0])
	if window, _ := strconv.Atoi(got[1]); page > window || page == 0 {
		t.Errorf("%s is %d px wide in a window of %d px", what, page, window)
	}
}

// A recording and taps in the other engines: what they stream, decode and time
// otherwise.
func TestTimingInOtherEngines(t *testing.T) {
	for name, start := range map[string]func(testing.TB) engine{
		"firefox": func(t testing.TB) engine { return openFirefox(t) },
		"webkit":  func(t testing.TB) engine { return openWebKit(t) },
	} {
		t.Run(name, func(t *testing.T) {
			e := start(t)
			e.load(singleFileAddress(t))
			await(t, e, `document.documentElement.dataset.engine`, "ready")
			e.evaluate(`(() => {
				const set = (selector, value) => { const f = document.querySelector(selector); f.value = value; f.dispatchEvent(new Event("input", { bubbles: true })); };
				set("#timing-constant", "1000");
				set("#timing-runs-0-how", "sound");
				const bytes = Uint8Array.from(atob("` + base64.StdEncoding.EncodeToString(clicks(20)) + `"), (c) => c.charCodeAt(0));
				const dropped = new DataTransfer();
				dropped.items.add(new File([bytes], "cellar.wav", { type: "audio/wav" }));
				const input = document.querySelector("` + pickSound + `");
				input.files = dropped.files;
				input.dispatchEvent(new Event("change", { bubbles: true }));
				return "";
			})()`)
			await(t, e, `document.querySelector('`+soundCard+`').textContent`, "cellar.wav")
			await(t, e, `document.querySelector('`+runLive+`').textContent.replace(/^3999\.\d+/, "4000")`, "4000")
			fitsIn(t, e, "a recording")
			e.evaluate(`(() => {
				const how = document.querySelector("#timing-runs-0-how");
				how.value = "taps";
				how.dispatchEvent(new Event("input", { bubbles: true }));
				const pad = document.querySelector('` + run0 + ` [data-do="tap"]');
				document.querySelector('` + run0 + ` [data-do="marks-away"]').click();
				pad.click(); // as a reader of the screen does
				for (let i = 0; i < 3; i++) {
					for (const end = performance.now() + 50; performance.now() < end; );
					pad.dispatchEvent(new PointerEvent("pointerdown", { bubbles: true, button: 0 }));
				}
				return "";
			})()`)
			await(t, e, `document.querySelector('`+runLive+`').textContent`, "3 flashes")
			e.report()
		})
	}
}
