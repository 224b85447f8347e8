package main

import (
	"bytes"
	"fmt"
)

// A probe is one package and a few lines that use it the way the engine does.
// Lines work on text, which the linker cannot foresee, so nothing is left out
// as unused.
type probe struct {
	name    string
	imports []string
	use     string
	module  string // a module that the repository does not require yet
}

// probes stand in the order in which the program grew; the last ones belong to
// rooms that are still to come, and tell what those would add.
var probes = []probe{
	{name: "empty"},
	{name: "+ syscall/js", imports: []string{"syscall/js"}, use: `
		text = js.Global().Get("location").Get("hash").String()`},
	{name: "+ dom/v2", imports: []string{"honnef.co/go/js/dom/v2"}, use: `
		doc := dom.GetWindow().Document()
		doc.GetElementByID("in").AddEventListener("input", false, func(e dom.Event) {
			doc.GetElementByID("out").SetTextContent(e.Target().(*dom.HTMLTextAreaElement).Value())
		})`},
	{name: "+ fmt", imports: []string{"fmt"}, use: `
		text = fmt.Sprintf("%s %d %.3f", text, len(text), float64(len(text)))`},
	{name: "+ shopspring/decimal", imports: []string{"github.com/shopspring/decimal"}, use: `
		if d, err := decimal.NewFromString(text); err == nil {
			text = d.Mul(d).DivRound(d.Add(d), 6).StringFixed(2)
		}`},
	{name: "+ fastjson", imports: []string{"github.com/valyala/fastjson"}, use: `
		if v, err := fastjson.Parse(text); err == nil {
			text = string(v.GetStringBytes("note"))
		}`},
	{name: "+ gonum stat, stat/distuv", imports: []string{"gonum.org/v1/gonum/stat", "gonum.org/v1/gonum/stat/distuv"}, use: `
		mean, sd := stat.MeanStdDev([]float64{float64(len(text)), 2, 3}, nil)
		t, chi := distuv.StudentsT{Mu: 0, Sigma: 1, Nu: sd}, distuv.ChiSquared{K: mean}
		text = fmt.Sprint(t.Quantile(0.975), chi.CDF(sd))`},
	{name: "later: + compress/flate, both ways", imports: []string{"bytes", "compress/flate", "io", "strings"}, use: `
		var packed bytes.Buffer
		w, _ := flate.NewWriter(&packed, flate.BestCompression)
		io.WriteString(w, text)
		w.Close()
		if all, err := io.ReadAll(flate.NewReader(strings.NewReader(packed.String()))); err == nil {
			text = string(all)
		}`},
	{name: "later: + go-mp3", module: "github.com/hajimehoshi/go-mp3@v0.3.4", imports: []string{"github.com/hajimehoshi/go-mp3"}, use: `
		if d, err := mp3.NewDecoder(strings.NewReader(text)); err == nil {
			io.Copy(&packed, d)
		}`},
	{name: "later: + encoding/xml, tokens only", imports: []string{"encoding/xml"}, use: `
		tokens := xml.NewDecoder(strings.NewReader(text))
		for t, err := tokens.RawToken(); err == nil; t, err = tokens.RawToken() {
			if start, ok := t.(xml.StartElement); ok {
				text += start.Name.Local
			}
		}`},
}

// program puts the probes into one main function.
func program(have []probe) []byte {
	var imports, uses bytes.Buffer
	for _, p := range have {
		for _, path := range p.imports {
			fmt.Fprintf(&imports, "\t%q\n", path)
		}
		uses.WriteString(p.use)
	}
	return fmt.Appendf(nil, "package main\n\nimport (\n%s)\n\nvar text string\n\nfunc main() {%s\n\tprintln(text)\n\tselect {}\n}\n", imports.Bytes(), uses.Bytes())
}
