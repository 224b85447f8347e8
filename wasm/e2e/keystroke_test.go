//go:build !js

package e2e

import (
	"fmt"
	"slices"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// stopwatch measures, from the time stamp that the browser gave a key, until the
// findings have changed and until the frame that shows it is done. A task that
// a frame's callback posts runs after that frame. Begun is when the page hears
// of the input: what lies between that and the change is what the page itself
// needs, if it does not wait.
const stopwatch = `{
	const times = window.times = [];
	let key = null;
	new MutationObserver(() => { if (key && key.begun && !key.changed) key.changed = performance.now(); })
		.observe(document.querySelector("#findings"), { subtree: true, childList: true, characterData: true, attributes: true });
	const after = new MessageChannel();
	const frame = () => after.port2.postMessage(0);
	after.port1.onmessage = () => {
		if (!key.changed) { requestAnimationFrame(frame); return; }
		times.push([key.changed - key.begun, key.changed - key.at, performance.now() - key.at]);
		key = null;
	};
	addEventListener("keydown", (e) => {
		key = { at: e.timeStamp };
		requestAnimationFrame(frame);
	}, { capture: true });
	addEventListener("input", () => { if (key) key.begun = performance.now(); }, { capture: true });
}`

// BenchmarkKeystroke types into the readings of one of two monitors over two
// months and reports medians, on a plain processor and on one throttled to a
// quarter: work is what the page needs to read, calculate and change itself;
// changed adds what the browser needs to hand it the key; drawn adds the wait
// for the next frame (up to 17 ms), layout and paint, and is what a person waits.
//
// Compare times of one run only; what else the machine does shows.
func BenchmarkKeystroke(b *testing.B) {
	for _, slower := range []float64{1, 4} {
		b.Run(fmt.Sprintf("processor=1/%v", slower), func(b *testing.B) {
			p := open(b, look{form: singleFile})
			p.fillIn(2)
			_, err := chromedp.Call(p.ctx, emulation.SetCPUThrottlingRate, emulation.SetCPUThrottlingRateParams{Rate: slower})
			if err != nil {
				b.Fatal(err)
			}
			evaluate[chromedp.Void](p, stopwatch)
			for b.Loop() {
				p.typeTimed("#monitors-1-readings", 40)
			}
			b.ReportMetric(0, "ns/op") // the loop's own time says nothing
			times := evaluate[[][]float64](p, `window.times`)
			for i, name := range []string{"work", "changed", "drawn"} {
				var column []float64
				for _, t := range times {
					column = append(column, t[i])
				}
				slices.Sort(column)
				b.ReportMetric(column[len(column)/2], "ms-median-"+name)
				b.ReportMetric(column[len(column)*95/100], "ms-95%-"+name)
			}
		})
	}
}

// typeTimed adds a digit to the last day's total and takes it away again, so
// often, each time waiting until the findings have followed.
func (p *page) typeTimed(selector string, keys int) {
	p.Helper()
	evaluate[chromedp.Void](p, `{
		const field = `+find(selector)+`;
		field.focus();
		field.selectionStart = field.selectionEnd = field.value.trimEnd().length;
	}`)
	for i := range keys {
		before := evaluate[int](p, `window.times.length`)
		p.press([]string{"5", kb.Backspace}[i%2])
		p.until("the findings to follow a key", func() bool { return evaluate[int](p, `window.times.length`) > before })
	}
}
