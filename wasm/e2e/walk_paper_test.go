//go:build !js

package e2e

import (
	"context"
	"encoding/base64"
	"encoding/csv"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"splittally/calc"
	"splittally/calc/billing"
	"splittally/calc/calendar"
	"splittally/calc/example"
	"splittally/calc/tariff"
)

// mostSheets is how long the paper of any case may be.
const mostSheets = 2

// papers are the sizes on which it must fit.
var papers = map[string]chromedp.PaperSize{"A4": chromedp.PaperA4, "Letter": chromedp.PaperLetter}

// scenarios gives the files of all scenarios, and of a case that has much of
// everything.
func scenarios(t *testing.T) []string {
	t.Helper()
	files, err := filepath.Glob("../../testdata/scenario/*.case.json")
	if err != nil || len(files) < 30 {
		t.Fatalf("%d scenarios, %v", len(files), err)
	}
	full := filepath.Join(t.TempDir(), "full.json")
	if err := os.WriteFile(full, []byte(calc.Save(fullCase(t))), 0o600); err != nil {
		t.Fatal(err)
	}
	return append(files, full)
}

// fullCase has twelve bills of two monitors with gaps, a long tariff, printed
// lines, checks of legs and timings, and long names.
func fullCase(t *testing.T) calc.Case {
	t.Helper()
	c, problems := calc.Open(example.Text)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	c.Title = strings.Repeat("The lodge behind the orchard ", 6)
	c.Note = strings.Repeat("What whoever reads this should know. ", 12)
	c.Periods = nil
	first, _ := calendar.Date(2024, 1, 3)
	day, readings := first, ""
	for m := range 12 {
		from := day
		for range 29 + m%3 {
			amount := 15 + float64(int(day)*7%11)
			a, b := fmt.Sprintf("%.2f", 1.03*amount), fmt.Sprintf("%.2f", 0.98*amount)
			if int(day)%17 == 3 {
				a = "no data"
			}
			if int(day)%23 == 5 {
				b = "no data"
			}
			readings += day.String() + "\t" + a + "\t" + b + "\n"
			day++
		}
		p := billing.Period{From: from.Long(), To: day.Long(), Days: fmt.Sprint(int(day - from)), KWh: fmt.Sprint(582 + 7*m), Total: "123.45"}
		for n := range 8 {
			p.Lines = append(p.Lines, billing.Line{Name: fmt.Sprintf("A printed line with a long name, number %d", n), Amount: fmt.Sprint(10 + n)})
		}
		c.Periods = append(c.Periods, p)
	}
	c.Monitors = []calc.Monitor{{Name: "A monitor in the cupboard under the stairs", Accuracy: "1.5", Readings: "date\tUpper floor kWh\tLower floor kWh\n" + readings}}
	s := tariff.Schedule{Name: "Household", Currency: "EUR"}
	for n := range 14 {
		s.Rows = append(s.Rows, tariff.Row{Kind: "energy", Name: fmt.Sprintf("A printed line with a long name, number %d", n), Price: "0.0312"})
	}
	c.Price, c.Plans = tariff.Flat{}, []tariff.Schedule{s, s, s}
	c.Checks.Legs = append(c.Checks.Legs, c.Checks.Legs...)
	c.Timing.Runs = append(c.Timing.Runs, c.Timing.Runs...)
	return c
}

// Every case fits two sheets of A4 and of Letter, by the margins that the page
// asks for; the fullest ones also where a person sets others.
func TestTwoSheets(t *testing.T) {
	p := open(t, look{form: singleFile})
	p.tap(`[data-do="show-example"]`)
	p.waitFor("#findings", "Hallway monitor")
	p.fitsSheets("the example", 0.25, 0.4, 0.6)
	files := scenarios(t) // the fullest is the last
	for i, file := range files {
		if !*every && (len(files)-1-i)%4 != 0 {
			continue
		}
		p.openCase(file)
		p.fitsSheets(filepath.Base(file), 0.4)
	}
	p.fitsSheets("the fullest case", 0.25, 0.6)
}

// openCase opens a saved case and waits for its title.
func (p *page) openCase(file string) {
	p.Helper()
	p.upload("#file", file)
	title := titleOf(p, file)
	p.until("the case of "+file, func() bool { return p.value("#title") == title })
}

func titleOf(t testing.TB, file string) string {
	t.Helper()
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	c, problems := calc.Open(string(text))
	if len(problems) > 0 || c.Title == "" {
		t.Fatalf("%s: title %q, %v", file, c.Title, problems)
	}
	return c.Title
}

func (p *page) fitsSheets(name string, margins ...float64) {
	p.Helper()
	for size, paper := range papers {
		for _, inches := range margins {
			pdf := p.printOn(paper, inches)
			if n := pages(pdf); n < 1 || n > mostSheets {
				p.Errorf("%s takes %d sheets of %s with margins of %v inches", name, n, size, inches)
			}
			if len(pdf) > 1_500_000 {
				p.Errorf("%s is %d bytes when printed to a file", name, len(pdf))
			}
		}
	}
}

func (p *page) printOn(paper chromedp.PaperSize, margin float64) []byte {
	p.Helper()
	ctx, cancel := context.WithTimeout(p.ctx, patience)
	defer cancel()
	pdf, err := chromedp.Run(ctx, chromedp.PrintToPDF(chromedp.PDFPaper(paper), chromedp.PDFMargin(margin)))
	if err != nil {
		p.Fatalf("printing: %v", err)
	}
	return pdf
}

// The same in Firefox, whose type and breaks are others, for the fullest cases.
func TestTwoSheetsInFirefox(t *testing.T) {
	f := openFirefoxSized(t, 1280, 800)
	f.load(singleFileAddress(t))
	await(t, f, `document.documentElement.dataset.engine`, "ready")
	f.settle()
	files := scenarios(t)
	for _, name := range []string{"three-months-two-columns", "current-pairs-three-phase", "minutes-with-gaps-beside-the-meter", "three-tariffs-compared", "full"} {
		for _, file := range files {
			if !strings.HasPrefix(filepath.Base(file), name+".") {
				continue
			}
			path, err := filepath.Abs(file)
			if err != nil {
				t.Fatal(err)
			}
			f.upload("#file", path)
			await(t, f, find("#title")+`.value`, titleOf(t, file))
			for size, paper := range map[string][2]float64{"A4": {21, 29.7}, "Letter": {21.59, 27.94}} {
				if n := pages(f.printedOn(paper)); n < 1 || n > mostSheets {
					t.Errorf("%s takes %d sheets of %s", name, n, size)
				}
			}
		}
	}
}

// printedOn is the page as PDF, on paper of so many centimetres.
func (f *firefox) printedOn(paper [2]float64) []byte {
	f.Helper()
	var r struct{ Data string }
	f.call("browsingContext.print", map[string]any{"context": f.tab, "page": map[string]any{"width": paper[0], "height": paper[1]}}, &r)
	data, err := base64.StdEncoding.DecodeString(r.Data)
	if err != nil {
		f.Fatal(err)
	}
	return data
}

// paper is what would be printed, as text.
func (p *page) paper() string {
	p.Helper()
	return evaluate[string](p, `(() => {
		dispatchEvent(new Event("beforeprint"));
		const text = document.querySelector("#paper").textContent;
		dispatchEvent(new Event("afterprint"));
		return text + (document.querySelector("#paper").textContent ? " and it stays" : "");
	})()`)
}

// What is printed is the paper of the case as it is, and nothing else of the
// page; afterwards the page is as before.
func TestPrintedPage(t *testing.T) {
	p := open(t, look{form: singleFile, width: 360})
	p.tap(`[data-do="show-example"]`)
	p.waitFor("#bar", "Hallway monitor")
	p.tap("#result-0-1-head")
	p.waitFor("#result-0-1", "Registration")
	hash := p.attribute("html", "data-engine-hash")
	for _, want := range []string{"The house at Larch Bend", "Hallway monitor", "+3.4", "Check it by hand", "Split Tally " + calc.Version, "engine " + hash} {
		if got := p.paper(); !strings.Contains(got, want) || strings.Contains(got, "and it stays") {
			t.Errorf("the paper lacks %q, or stays on the page:\n%s", want, got)
		}
	}
	evaluate[chromedp.Void](p, `addEventListener("afterprint", () => { window.after = document.querySelectorAll("#paper *").length + " " + document.querySelectorAll("#findings details[open]").length; })`)
	p.pdf()
	p.until("the page to be as before", func() bool { return evaluate[string](p, `window.after || ""`) == "0 1" })

	// While it is printed nothing but the paper is in sight.
	evaluate[chromedp.Void](p, `dispatchEvent(new Event("beforeprint"))`)
	p.do("looking as paper does", chromedp.Func(func(ctx context.Context, _ *chromedp.Target) error { return p.media(ctx, "print") }))
	if got := evaluate[string](p, `[...document.querySelectorAll("body *")].filter((e) => !e.closest("#paper") && e.getClientRects().length).map((e) => e.id || e.outerHTML.slice(0, 80)).join(", ")`); got != "" {
		t.Errorf("printed beside the paper: %s", got)
	}
	if got := evaluate[int](p, `document.querySelectorAll("#paper svg").length`); got < 2 {
		t.Errorf("%d pictures are printed, want the two sticks", got)
	}
}

// Only the example is printed as an invented home: a sheet with one's own
// figures that said so would be worth nothing to the utility.
func TestOnlyTheExamplePrintsAsInvented(t *testing.T) {
	p := open(t, look{form: singleFile, width: 360})
	says := func() bool { return strings.Contains(p.paper(), "This home is invented") }
	p.fillIn(1)
	p.waitFor("#findings", "%")
	if says() {
		t.Error("one's own figures are printed as those of an invented home")
	}
	p.tap(`[data-do="show-example"]`)
	p.waitFor("#findings", "Hallway monitor")
	if !says() {
		t.Error("the example is printed as if it were somebody's home")
	}
}

// Days and bills go into a spreadsheet as files that any reader of CSV takes.
func TestTablesForASpreadsheet(t *testing.T) {
	for _, f := range forms {
		p := open(t, look{form: f, width: 360})
		p.fillIn(2)
		p.typeInto("#monitors-0-name", "=1+1")
		p.waitFor("#findings", "%")
		for what, rows := range map[string]int{"days": 60, "bills": 3} {
			name, data := p.download(func() { p.tap(`[data-do="save-table"][data-table="` + what + `"]`) })
			if !strings.HasSuffix(name, "-"+what+".csv") || !strings.HasPrefix(string(data), "\ufeff") {
				t.Errorf("saved %s, beginning %.10q", name, data)
			}
			got, err := csv.NewReader(strings.NewReader(strings.TrimPrefix(string(data), "\ufeff"))).ReadAll()
			if err != nil || len(got) != rows {
				t.Errorf("%s: %d rows, want %d; %v", name, len(got), rows, err)
			}
			if head := strings.Join(got[0], "|"); !strings.Contains(head, "|'=1+1 kWh|") {
				t.Errorf("%s: the head is %s", name, head)
			}
		}
	}
}
