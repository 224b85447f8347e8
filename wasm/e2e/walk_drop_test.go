//go:build !js

package e2e

import (
	"strconv"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// drop lets go of a file over an element.
func (p *page) drop(selector, name string, text string) {
	p.Helper()
	evaluate[chromedp.Void](p, `{
		const dataTransfer = new DataTransfer();
		dataTransfer.items.add(new File([`+quote(text)+`], `+quote(name)+`));
		for (const kind of ["dragover", "drop"]) `+find(selector)+`.dispatchEvent(new DragEvent(kind, { bubbles: true, cancelable: true, dataTransfer }));
	}`)
}

// A dropped file goes to the part of the page that it is dropped on, or to the
// first monitor without readings; a saved case is opened wherever it falls.
func TestFileDropped(t *testing.T) {
	p := open(t, look{form: singleFile})
	second := `[data-list="monitors"] > :nth-child(2)`
	p.tap(`[data-do="add-item"][data-to="monitors"]`)
	p.drop("#monitors-1-name", "attic.csv", string(minutes(12)))
	p.waitFor(second, "12 days")
	p.drop("#findings", "barn.csv", string(minutes(15)))
	p.waitFor(fileCard, "15 days")
	p.drop("#findings", "byre.csv", string(minutes(16))) // both have readings
	p.waitFor(fileCard, "16 days")
	p.waitFor("#page-notice", "took the place")
	p.drop(`details[data-takes-file] summary`, "utility.csv", string(minutes(20)))
	p.waitFor(`[data-group="meter"][data-takes-file]`, "20 days")
	if got := p.count(".over, .drop"); got != 0 {
		t.Errorf("%d parts still look as if something were about to fall on them", got)
	}
	_, saved := p.download(func() { p.tap(`[data-do="save-file"]`) })
	p.typeInto("#title", "changed since")
	p.drop("#monitors-0-name", "case.json", string(saved))
	p.waitFor("#page-notice", "is open")
	if got := p.value("#title"); got != "" {
		t.Errorf("the title is %q", got)
	}
	p.drop("#monitors-0-name", "photo.json", "\x89PNG")
	p.waitFor("#file-says", "not JSON")
	p.upload(pickFile, written(t, "case", saved))
	p.waitFor(fileCard, "is a saved case")
	p.waitFor(fileCard, "16 days")
}

// A short text of daily totals goes into the field for such.
func TestFileOfDailyTotals(t *testing.T) {
	p := open(t, look{form: singleFile})
	p.upload(pickFile, written(t, "days.txt", []byte(dailyTotals(0))))
	p.waitFor(fileCard, "field for daily totals")
	if got := p.value("#monitors-0-readings"); strings.TrimSpace(got) != strings.TrimSpace(dailyTotals(0)) {
		t.Errorf("the field holds %.80q", got)
	}
	p.waitFor("#bar", "now a bill")
}

// A file in the other engines, which differ in the streams that they have.
func TestFileInOtherEngines(t *testing.T) {
	for name, start := range map[string]func(testing.TB) engine{
		"firefox": func(t testing.TB) engine { return openFirefox(t) },
		"webkit":  func(t testing.TB) engine { return openWebKit(t) },
	} {
		t.Run(name, func(t *testing.T) {
			e := start(t)
			e.load(singleFileAddress(t))
			await(t, e, `document.documentElement.dataset.engine`, "ready")
			t.Logf("streams of bytes: %s", e.evaluate(`(() => { try { new Blob(["x"]).stream().getReader({ mode: "byob" }); return "yes"; } catch (e) { return "no: " + e.message; } })()`))
			pick := func(field, data string) {
				e.evaluate(`(() => {
					const data = new DataTransfer();
					data.items.add(` + data + `);
					const field = ` + find(field) + `;
					field.files = data.files;
					field.dispatchEvent(new Event("change", { bubbles: true }));
				})()`)
			}
			pick(pickFile, `new File([`+minutesInScript(200)+`], "barn.csv")`)
			await(t, e, find(fileCard)+`.innerText`, "200 days")
			pick("#meter-readings-file", `new File([`+minutesInScript(30)+`], "utility.csv")`)
			await(t, e, find(`[data-group="meter"] [data-slot="file"]`)+`.innerText`, "30 days")
			fitsIn(t, e, "a page with two files")
			e.report()
		})
	}
}

// minutesInScript is JavaScript for a file of minutes.
func minutesInScript(days int) string {
	return `(() => {
		const lines = ["time,House"], two = (n) => String(n).padStart(2, "0");
		for (let m = 0; m < 1440 * ` + strconv.Itoa(days) + `; m++) {
			const t = new Date(Date.UTC(2024, 2, 1, 0, m));
			lines.push(t.toISOString().slice(0, 16).replace("T", " ") + "," + (0.005 + m % 97 / 9000).toFixed(4));
		}
		return lines.join("\n") + "\n";
	})()`
}
