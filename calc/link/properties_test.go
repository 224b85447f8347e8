package link

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"splittally/calc"
	"splittally/calc/calendar"
	"splittally/calc/document"
)

// drawNode draws a document with texts in any field of the table.
func drawNode(t *rapid.T, p *place, path string) document.Node {
	switch {
	case p.item != nil:
		n := document.Node{Kind: document.List}
		for i := range rapid.IntRange(1, 3).Draw(t, path) {
			n.Items = append(n.Items, drawNode(t, p.item, fmt.Sprint(path, ".", i)))
		}
		return n
	case p.places != nil:
		n := document.Node{Kind: document.Group}
		for _, child := range p.places {
			if rapid.IntRange(0, 2).Draw(t, path+" has "+child.name) > 0 {
				n.Set(child.name, drawNode(t, child, path+"."+child.name))
			}
		}
		return n
	case p.name == "readings":
		return document.Node{Text: drawReadings(t, path)}
	case p.name == "record", p.name == "marks":
		return document.Node{}
	}
	return document.Node{Text: rapid.OneOf(
		rapid.StringMatching(`-?[0-9]{1,9}([.,][0-9]{0,4})?`),
		rapid.StringMatching(`20[0-9]{2}-(0[1-9]|1[0-2])-(0[1-9]|1[0-9])`),
		rapid.SampledFrom(strings.Split(vocabulary, "|")),
		rapid.StringMatching(`[A-Z][a-z]{1,8}( [a-z]{1,8}){0,3}`),
		rapid.StringMatching(`[0-9]{1,3} ?(¢|%|kWh|€)`),
		rapid.StringN(0, 12, 40),
	).Draw(t, path)}
}

// drawReadings draws a text of days as people paste them.
func drawReadings(t *rapid.T, path string) string {
	columns := rapid.IntRange(1, 3).Draw(t, path+" columns")
	places := rapid.IntRange(1, 3).Draw(t, path+" places")
	form := rapid.SampledFrom([]string{"2006-01-02", "long"}).Draw(t, path+" form")
	var b strings.Builder
	b.WriteString(strings.Join([]string{"Day", "Leg A kWh", "Leg B kWh", "House kWh"}[:columns+1], "\t"))
	day, _ := calendar.Date(2024, 1, 1)
	day += calendar.Day(rapid.IntRange(0, 900).Draw(t, path+" first"))
	for range rapid.IntRange(12, 40).Draw(t, path+" days") {
		if day++; rapid.IntRange(0, 12).Draw(t, path+" gap") == 0 {
			continue
		}
		b.WriteByte('\n')
		if form == "long" {
			b.WriteString(day.Long())
		} else {
			b.WriteString(day.String())
		}
		for range columns {
			b.WriteByte('\t')
			if rapid.IntRange(0, 20).Draw(t, path+" blank") > 0 {
				fmt.Fprintf(&b, "%.*f", places, rapid.Float64Range(4, 40).Draw(t, path+" figure"))
			}
		}
	}
	return b.String()
}

func drawCase(t *rapid.T) calc.Case {
	root, _ := fields(-1)
	n := drawNode(t, root, "")
	var c calc.Case
	if problems := document.Read(n, c.Fields); len(problems) > 0 {
		t.Fatal(problems)
	}
	return c
}

func TestAnyCaseComesBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawCase(t)
		o := Options{Names: rapid.Bool().Draw(t, "names"), Hours: rapid.Bool().Draw(t, "hours")}
		link := Write(c, o)
		if strings.Trim(link, "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz") != "" || !Is(link) {
			t.Fatalf("%q", link)
		}
		back, err := Read(link)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(Clean(c, o), back); diff != "" {
			t.Fatal(diff)
		}
		if again := Write(back, o); again != link {
			t.Fatalf("a link of the link differs: %s", cmp.Diff(back, Clean(back, o)))
		}
		if !o.Names {
			return
		}
		// With names every field of one line comes back as it was typed, but for
		// signs that do not show.
		want, got := document.Flatten(document.Write(c.Fields)).Texts, document.Flatten(document.Write(back.Fields)).Texts
		for path, text := range want {
			field := path[strings.LastIndexByte(path, '.')+1:]
			if field != "readings" && field != "watts" && !strings.HasPrefix(path, "answers.") && got[path] != printable(text) {
				t.Fatalf("%s: %q came back as %q", path, text, got[path])
			}
		}
	})
}

func TestAnyReadingsComeToTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := calc.Case{Monitors: []calc.Monitor{{Readings: drawReadings(t, "one")}, {Readings: drawReadings(t, "two")}}}
		c.Meter.Readings = drawReadings(t, "meter")
		a, b := calc.Work(c), calc.Work(Clean(c, Options{Names: true}))
		if differ := sameNumbers(a, b, true); len(differ) > 0 {
			t.Fatalf("%s\n%s", strings.Join(differ, "\n"), c.Monitors[0].Readings)
		}
	})
}

func TestHalfTypedNumbersComeBack(t *testing.T) {
	for _, text := range []string{"12.", "12,", ".5", "0.50", "-3", "007", "1e5", "1,234.50", "−4", "12.40", "99999999999999999999"} {
		var c calc.Case
		c.Confidence = text
		back, err := Read(Write(c, Options{}))
		if err != nil || back.Confidence != text {
			t.Errorf("%q came back as %q (%v)", text, back.Confidence, err)
		}
	}
}

func TestComparingSeesADifference(t *testing.T) {
	c := cases(t)["two-tiers-and-a-daily-charge"]
	a := calc.Work(c)
	c.Monitors[0].Readings = strings.Replace(c.Monitors[0].Readings, "23.17", "23.18", 1)
	if differ := sameNumbers(a, calc.Work(c), true); len(differ) == 0 {
		t.Error("one day differs, and nothing is seen")
	}
}
