package form

import (
	"encoding/xml"
	"errors"
	"io"
	"maps"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"splittally/calc"
	"splittally/calc/billing"
	"splittally/calc/fill"
	"splittally/calc/gain"
	"splittally/calc/holiday"
	"splittally/calc/tariff"
)

// tag is an element of the page with the places that its ancestors name.
type tag struct {
	name  string
	attrs map[string]string
	path  string // of a data-field or data-slot
}

// pageTags reads static/index.html and works out the paths of its fields as
// wasm/page does.
func pageTags(t *testing.T) []tag {
	t.Helper()
	file, err := os.Open(filepath.Join("..", "..", "static", "index.html"))
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	d := xml.NewDecoder(file)
	d.Strict, d.AutoClose, d.Entity = false, xml.HTMLAutoClose, xml.HTMLEntity
	type level struct {
		step  string
		items int
	}
	var tags []tag
	levels := []level{{}}
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return tags
		}
		if err != nil {
			t.Fatal(err)
		}
		switch token := token.(type) {
		case xml.StartElement:
			e := tag{name: token.Name.Local, attrs: map[string]string{}}
			for _, a := range token.Attr {
				e.attrs[a.Name.Local] = a.Value
			}
			l := level{step: e.attrs["data-list"] + e.attrs["data-group"]}
			if _, ok := e.attrs["data-item"]; ok {
				above := &levels[len(levels)-1]
				l.step = strconv.Itoa(above.items)
				above.items++
			}
			levels = append(levels, l)
			if last := e.attrs["data-field"] + e.attrs["data-slot"]; last != "" {
				steps := ""
				for _, l := range levels {
					if l.step != "" {
						steps = below(steps, l.step)
					}
				}
				e.path = below(steps, last)
			}
			tags = append(tags, e)
		case xml.EndElement:
			levels = levels[:len(levels)-1]
		}
	}
}

// Every field of the page is a field of the case, and has the id that messages
// are sent to.
func TestFieldsOfThePage(t *testing.T) {
	var fields []Field
	for _, e := range pageTags(t) {
		if e.attrs["data-field"] == "" {
			continue
		}
		fields = append(fields, Field{Path: e.path, Text: "x", Lines: e.name == "textarea" || e.attrs["type"] == "hidden"})
		if e.attrs["id"] != ID(e.path) {
			t.Errorf("field %s has the id %q, want %q", e.path, e.attrs["id"], ID(e.path))
		}
	}
	c, problems := Case(fields)
	if len(problems) > 0 {
		t.Error(problems)
	}
	// Each text of the case has its field: the page would lose it otherwise.
	filled := Fields(c)
	want := map[string]string{}
	for _, f := range fields {
		want[f.Path] = "x"
	}
	if diff := cmp.Diff(want, filled.Texts); diff != "" {
		t.Error(diff)
	}
}

// Every field of the case is a field of the page, but for what the page keeps
// itself. The page would lose it from a file otherwise.
func TestFieldsOfTheCase(t *testing.T) {
	onPage := map[string]bool{}
	for _, e := range pageTags(t) {
		if e.attrs["data-field"] != "" {
			onPage[anyItem(e.path)] = true
		}
	}
	var c calc.Case
	fillTexts(reflect.ValueOf(&c).Elem())
	texts := Fields(c).Texts
	for path := range texts {
		if path = anyItem(path); path != "today" && !strings.HasPrefix(path, "answers.") && !onPage[path] {
			t.Errorf("the page has no field for %s", path)
		}
	}
	if named := countTexts(reflect.TypeOf(c)); len(texts) != named {
		t.Errorf("the case has %d texts and names %d of them: %s", named, len(texts), strings.Join(slices.Sorted(maps.Keys(texts)), " "))
	}
}

// anyItem takes the numbers out of a path.
func anyItem(path string) string { return itemNumber.ReplaceAllString(path, ".0") }

var itemNumber = regexp.MustCompile(`\.\d+`)

// fillTexts puts a text into every field, and one item into every list.
func fillTexts(v reflect.Value) {
	switch v.Kind() {
	case reflect.String:
		v.SetString("x")
	case reflect.Struct:
		for i := range v.NumField() {
			fillTexts(v.Field(i))
		}
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), 1, 1))
		fillTexts(v.Index(0))
	}
}

// countTexts counts the texts that fillTexts fills.
func countTexts(t reflect.Type) int {
	n := 0
	switch t.Kind() {
	case reflect.String:
		return 1
	case reflect.Struct:
		for i := range t.NumField() {
			n += countTexts(t.Field(i).Type)
		}
	case reflect.Slice:
		return countTexts(t.Elem())
	}
	return n
}

// What points at an element by its id must find one, and only one.
func TestReferencesOfThePage(t *testing.T) {
	tags := pageTags(t)
	ids := map[string]int{}
	for _, e := range tags {
		if id := e.attrs["id"]; id != "" {
			ids[id]++
		}
	}
	for id, n := range ids {
		if n > 1 {
			t.Errorf("id %s stands there %d times", id, n)
		}
	}
	for _, e := range tags {
		for _, name := range []string{"for", "aria-describedby", "aria-labelledby", "aria-controls"} {
			for _, id := range strings.Fields(e.attrs[name]) {
				if ids[id] == 0 {
					t.Errorf("<%s %s=%q> points at nothing", e.name, name, id)
				}
			}
		}
	}
}

// The source has one item of each list: the engine makes the others from it.
func TestOneItemOfEachList(t *testing.T) {
	for _, e := range pageTags(t) {
		if path := e.path; path != anyItem(path) {
			t.Errorf("%s is of an item that the engine would make", path)
		}
	}
}

// The choices of the page are those of the program.
func TestOptionsOfThePage(t *testing.T) {
	options := map[string][]string{}
	last := ""
	for _, e := range pageTags(t) {
		if e.name == "select" || e.name == "datalist" {
			last = e.path
		}
		if e.name == "option" {
			options[last] = append(options[last], e.attrs["value"])
		}
	}
	methods := []string{string(fill.Choose)}
	for _, m := range fill.Methods() {
		methods = append(methods, string(m))
	}
	kinds := []string{""}
	for _, k := range []tariff.Kind{tariff.Energy, tariff.Tiers, tariff.Times, tariff.Fixed, tariff.Demand, tariff.Export, tariff.Netting, tariff.Discount, tariff.Tax, tariff.Minimum} {
		kinds = append(kinds, string(k))
	}
	regions := []string{""}
	for _, r := range holiday.Regions() {
		regions = append(regions, r.ID)
	}
	for path, want := range map[string][]string{
		"plans.0.region":          regions,
		"plans.0.round":           {"", "line", "total"},
		"plans.0.half":            {"", "up", "even", "down"},
		"plans.0.rows.0.kind":     kinds,
		"plans.0.rows.0.per":      {"", "period", "day", "month", "15", "30", "60"},
		"plans.0.rows.0.basis":    {"", "metered", "adjusted", "losses"},
		"periods.0.solve":         {"", "loss-factor"}, // the rest is the tariff's
		"monitors.0.method":       methods,
		"periods.0.convention":    {"", string(billing.BothBelong), string(billing.LastExcluded), string(billing.FirstExcluded)},
		"periods.0.loss-included": {"", "yes", "no"},
		"timing.shows":            {"", "lamp", "disc", "block"},
		"timing.per":              {"", "wh", "imp"},
		"timing.runs.0.how":       {"", "taps", "sound"},
		"checks.service":          {"", string(gain.Single), string(gain.Split), string(gain.Three), string(gain.TwoOfThree)},
	} {
		got := map[string]bool{}
		for _, v := range options[path] {
			got[v] = true
		}
		for _, v := range want {
			if !got[v] {
				t.Errorf("%s lacks the option %q", path, v)
			}
		}
		if len(got) != len(want) {
			t.Errorf("%s has the options %q, want %q", path, options[path], want)
		}
	}
}

func below(path, name string) string {
	if path == "" {
		return name
	}
	return path + "." + name
}
