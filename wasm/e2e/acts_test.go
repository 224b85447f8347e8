//go:build !js

package e2e

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"github.com/chromedp/cdproto/input"
	cdppage "github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// find is JavaScript for the first element that a selector names; it throws,
// with the selector, when there is none.
func find(selector string) string {
	q := strconv.Quote(selector)
	return `(document.querySelector(` + q + `) || (() => { throw new Error("nothing is " + ` + q + `) })())`
}

// typeInto replaces what a field holds by text, key by key.
func (p *page) typeInto(selector, text string) {
	p.Helper()
	p.empty(selector)
	p.do("typing into "+selector, chromedp.KeyEvent(text))
}

// pasteInto replaces what a field holds by text, from the clipboard.
func (p *page) pasteInto(selector, text string) {
	p.Helper()
	evaluate[chromedp.Void](p, `navigator.clipboard.writeText(`+quote(text)+`)`)
	p.empty(selector)
	p.do("pasting into "+selector, command("v", "KeyV", "paste"))
}

// empty puts the cursor into a field and deletes what is there. (A library's
// own Clear leaves what was typed.)
func (p *page) empty(selector string) {
	p.Helper()
	evaluate[chromedp.Void](p, find(selector)+`.focus()`)
	p.do("emptying "+selector, command("a", "KeyA", "selectAll"), chromedp.KeyEvent(kb.Delete))
}

// command is Ctrl and a key, with the editing command that a desktop's keyboard
// would make of it; a headless browser has no such table.
func command(key, code, name string) chromedp.Action[chromedp.Void] {
	return chromedp.Func(func(ctx context.Context, _ *chromedp.Target) error {
		for _, kind := range []input.DispatchKeyEventType{kb.KeyRawDown, kb.KeyUp} {
			event := input.DispatchKeyEventParams{
				Type: kind, Modifiers: int64(kb.ModifierCtrl), Key: key, Code: code,
				WindowsVirtualKeyCode: int64(strings.ToUpper(key)[0]),
			}
			if kind == kb.KeyRawDown {
				event.Commands = []string{name}
			}
			if _, err := chromedp.Call(ctx, input.DispatchKeyEvent, event); err != nil {
				return err
			}
		}
		return nil
	})
}

// press sends one key to whatever has the focus, for instance kb.Tab.
func (p *page) press(key string) {
	p.Helper()
	p.do("pressing a key", chromedp.KeyEvent(key))
}

// spot is where to tap, and what lies over it there.
type spot struct {
	X, Y float64
	Over string
}

// spotOf is JavaScript that finds the middle of an element once it stands still.
func spotOf(selector string) string {
	return `(async () => {
		const e = ` + find(selector) + `;
		const frame = () => new Promise(requestAnimationFrame);
		const middle = () => { const r = e.getBoundingClientRect(); return { X: r.x + r.width / 2, Y: r.y + r.height / 2 }; };
		e.scrollIntoView({ block: "center", behavior: "instant" });
		for (let last = middle(), still = 0; still < 3; ) { // what was drawn before may still move it
			await frame();
			const now = middle();
			if (now.Y < 0 || now.Y > innerHeight) e.scrollIntoView({ block: "center", behavior: "instant" });
			still = now.X === last.X && now.Y === last.Y ? still + 1 : 0;
			last = now;
		}
		const spot = middle(), hit = document.elementFromPoint(spot.X, spot.Y);
		return { ...spot, Over: !hit ? "nothing (it is not shown)" : e.contains(hit) || hit.contains(e) && hit.matches("label") ? "" : hit.outerHTML.slice(0, 80) };
	})()`
}

// tap touches an element on a phone and clicks it elsewhere, in its middle,
// once it stands still. Nothing may lie over it.
func (p *page) tap(selector string) {
	p.Helper()
	at := evaluate[spot](p, spotOf(selector))
	if at.Over != "" {
		p.Fatalf("tapping %s would hit %s", selector, at.Over)
	}
	if p.look.phone() {
		p.do("tapping "+selector, chromedp.TapXY(at.X, at.Y))
		return
	}
	p.do("clicking "+selector, chromedp.MouseClickXY(at.X, at.Y))
}

// choose picks an option of a select element by its value.
func (p *page) choose(selector, value string) {
	p.Helper()
	evaluate[chromedp.Void](p, `{
		const field = `+find(selector)+`;
		if (![...field.options].some((o) => o.value === `+quote(value)+`)) throw new Error("no such option");
		field.focus();
		field.value = `+quote(value)+`;
		for (const kind of ["input", "change"]) field.dispatchEvent(new Event(kind, { bubbles: true }));
	}`)
}

// text is what a person reads in an element, hidden parts left out.
func (p *page) text(selector string) string {
	p.Helper()
	return evaluate[string](p, find(selector)+`.innerText`)
}

// value is what a field holds.
func (p *page) value(selector string) string {
	p.Helper()
	return evaluate[string](p, find(selector)+`.value`)
}

// attribute is an attribute of an element, "" when it has none.
func (p *page) attribute(selector, name string) string {
	p.Helper()
	return evaluate[string](p, find(selector)+`.getAttribute(`+quote(name)+`) || ""`)
}

// count is how many elements a selector names.
func (p *page) count(selector string) int {
	p.Helper()
	return evaluate[int](p, `document.querySelectorAll(`+quote(selector)+`).length`)
}

// waitFor waits until an element is there and its text holds want.
func (p *page) waitFor(selector, want string) {
	p.Helper()
	last := ""
	p.untilOr(func() string { return fmt.Sprintf("%q in %s, which holds %q", want, selector, last) }, func() bool {
		last = evaluate[string](p, `(document.querySelector(`+quote(selector)+`) || { innerText: "(nothing)" }).innerText`)
		return strings.Contains(last, want)
	})
}

// until waits for a condition, and ends the walk when it never comes.
func (p *page) until(what string, done func() bool) {
	p.Helper()
	p.untilOr(func() string { return what }, done)
}

func (p *page) untilOr(what func() string, done func() bool) {
	p.Helper()
	for end := time.Now().Add(patience); !done(); time.Sleep(20 * time.Millisecond) {
		if time.Now().After(end) {
			p.Fatalf("waited %v for %s", patience, what())
		}
	}
}

// frame waits until the browser has drawn what was done so far.
func (p *page) frame() {
	p.Helper()
	evaluate[chromedp.Void](p, `new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => done())))`)
}

// fits fails the walk when the page is wider than the window.
func (p *page) fits() {
	p.Helper()
	if wide := evaluate[int](p, `document.documentElement.scrollWidth`); wide > p.look.width {
		widest := evaluate[string](p, `[...document.querySelectorAll("body *")]
			.filter((e) => e.getBoundingClientRect().right > `+strconv.Itoa(p.look.width)+` + 1)
			.slice(0, 8).map((e) => e.tagName.toLowerCase() + (e.id ? "#" + e.id : "." + e.className)).join(", ")`)
		p.Errorf("the page is %d px wide in a window of %d px; beyond the edge: %s", wide, p.look.width, widest)
	}
}

// screenshot writes the whole page as PNG.
func (p *page) screenshot(path string) {
	p.Helper()
	p.picture(path, "html", 0)
}

// picture writes a part of the page as PNG: its whole width, from the top of an
// element down by height CSS pixels, or to the end when height is 0.
func (p *page) picture(path, from string, height float64) {
	p.Helper()
	p.fits() // an over-wide page takes half a minute to draw
	p.frame()
	top := evaluate[float64](p, `scrollY + `+find(from)+`.getBoundingClientRect().y`)
	if height == 0 {
		height = evaluate[float64](p, `document.documentElement.scrollHeight`) - top
	}
	ctx, cancel := context.WithTimeout(p.ctx, patience)
	defer cancel()
	taken, err := chromedp.Call(ctx, cdppage.CaptureScreenshot, cdppage.CaptureScreenshotParams{
		CaptureBeyondViewport: new(true),
		Clip:                  &cdppage.Viewport{Y: top, Width: float64(p.look.width), Height: height, Scale: 1},
	})
	if err != nil {
		p.Fatalf("taking a picture: %v", err)
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		p.Fatal(err)
	}
	if err := os.WriteFile(path, taken.Data, 0o644); err != nil {
		p.Fatal(err)
	}
}

// quote writes text as a JavaScript string. Go's escapes for what cannot be
// printed are not JavaScript's, so those are written by code unit.
func quote(text string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range text {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r < ' ' || r == '\u2028' || r == '\u2029' || r == '\u007f':
			fmt.Fprintf(&b, `\u%04x`, r)
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
	return b.String()
}
