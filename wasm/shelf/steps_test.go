package shelf

import (
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"splittally/calc"
	"splittally/calc/billing"
	"splittally/calc/document"
)

type change = document.Change

// drawCase draws a case with few fields, so that two often share one.
func drawCase(t *rapid.T) calc.Case {
	text := rapid.SampledFrom([]string{"", "", "a", "b", "412", "ä\n\"x\"", "é\\"})
	c := calc.Case{Title: text.Draw(t, "title"), Note: text.Draw(t, "note"), Today: rapid.SampledFrom([]string{"2025-01-01", "2025-01-02"}).Draw(t, "today")}
	for range rapid.IntRange(0, 4).Draw(t, "bills") {
		p := billing.Period{From: text.Draw(t, "from"), KWh: text.Draw(t, "kwh")}
		for range rapid.IntRange(0, 2).Draw(t, "lines") {
			p.Lines = append(p.Lines, billing.Line{Name: text.Draw(t, "name"), Amount: text.Draw(t, "amount")})
		}
		c.Periods = append(c.Periods, p)
	}
	for range rapid.IntRange(0, 2).Draw(t, "monitors") {
		c.Monitors = append(c.Monitors, calc.Monitor{Readings: text.Draw(t, "readings")})
	}
	return c
}

// drawEdit changes one thing in a case.
func drawEdit(t *rapid.T, c calc.Case) calc.Case {
	c.Periods = append([]billing.Period(nil), c.Periods...)
	text := rapid.StringMatching(`[0-9]{1,3}`).Draw(t, "text")
	at := 0
	if n := len(c.Periods); n > 0 {
		at = rapid.IntRange(0, n-1).Draw(t, "at")
	}
	switch what := rapid.IntRange(0, 5).Draw(t, "what"); {
	case what == 0:
		c.Title = text
	case what == 1:
		c.Note += "\n" + text
	case what == 2 || len(c.Periods) == 0:
		c.Periods = append(c.Periods, billing.Period{From: text})
	case what == 3:
		c.Periods = append(c.Periods[:at], c.Periods[at+1:]...)
	case what == 4:
		c.Periods[at].KWh = text
	default:
		c.Periods[at].Lines = append(append([]billing.Line(nil), c.Periods[at].Lines...), billing.Line{Name: text})
	}
	return c
}

func equal(a, b document.Flat) bool { return len(changesOf(a, b)) == 0 }

// However often it is kept and opened again: undoing everything gives the first
// document, doing it again the last, through the same ones.
func TestUndoAndRedo(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := newMemory()
		s := m.shelf("a")
		tab := s.Add(drawCase(t))
		if _, err := tab.Keep(); err != nil {
			t.Fatal(err)
		}
		was := []document.Flat{tab.doc}
		for range rapid.IntRange(1, 20).Draw(t, "edits") {
			c := drawEdit(t, tab.Case())
			if rapid.IntRange(0, 9).Draw(t, "anew") == 0 {
				c = drawCase(t)
				c.Note = strings.Repeat(c.Note+"x", 500)
			}
			if tab.Note(c, first) {
				was = append(was, tab.doc)
			}
			tab.Pause()
			switch rapid.IntRange(0, 3).Draw(t, "then") {
			case 0:
				if _, err := tab.Keep(); err != nil {
					t.Fatal(err)
				}
			case 1:
				if _, err := tab.Keep(); err != nil {
					t.Fatal(err)
				}
				tab = openTab(t, s, tab.ID())
			case 2:
				if tab.Undo() {
					was = was[:len(was)-1]
				}
			}
			if !equal(was[len(was)-1], tab.doc) {
				t.Fatal("another document than expected")
			}
		}
		for i := len(was) - 2; i >= 0; i-- {
			if !tab.Undo() || !equal(was[i], tab.doc) {
				t.Fatalf("undone to step %d: %v", i, changesOf(was[i], tab.doc))
			}
		}
		if tab.Undo() {
			t.Fatal("one step more than there were")
		}
		for i := 1; i < len(was); i++ {
			if !tab.Redo() || !equal(was[i], tab.doc) {
				t.Fatalf("done again to step %d: %v", i, changesOf(was[i], tab.doc))
			}
		}
	})
}

func TestKeysOfOneFieldAreOneStep(t *testing.T) {
	m := newMemory()
	tab := m.shelf("a").Add(calc.Case{})
	for _, title := range []string{"L", "La", "Lar", "Larch"} {
		tab.Note(titled(title), first)
	}
	c := titled("Larch")
	c.Note = "x"
	tab.Note(c, first)
	c.Note = "xy"
	tab.Note(c, first)
	m.clock += stepWaits + 10
	c.Note = "xyz"
	tab.Note(c, first)
	var got []string
	for tab.Undo() {
		got = append(got, tab.Case().Title+"/"+tab.Case().Note)
	}
	if diff := cmp.Diff([]string{"Larch/xy", "Larch/", "/"}, got); diff != "" {
		t.Error(diff)
	}
}

// A text that is typed and deleted again is no step.
func TestTypedAndDeletedIsNoStep(t *testing.T) {
	tab := newMemory().shelf("a").Add(titled("x"))
	tab.Note(titled("xy"), first)
	tab.Note(titled("x"), first)
	if tab.Undo() {
		t.Error("there is a step")
	}
}

func TestWordsOfSteps(t *testing.T) {
	tab := newMemory().shelf("a").Add(titled("x"))
	tab.Note(titled("y"), func(c []change) string { return "the title, from " + c[0].Before })
	undo, redo := tab.Undoes()
	if undo != "the title, from x" || redo != "" {
		t.Errorf("%q, %q", undo, redo)
	}
	tab.Undo()
	if undo, redo = tab.Undoes(); undo != "" || redo != "the title, from x" {
		t.Errorf("%q, %q", undo, redo)
	}
}

func TestHistoryIsBounded(t *testing.T) {
	m := newMemory()
	s := m.shelf("a")
	tab := s.Add(calc.Case{})
	for i := range 500 {
		c := titled(strconv.Itoa(i))
		c.Note = strings.Repeat(strconv.Itoa(i), 1000)
		tab.Note(c, first)
		tab.Pause()
		keep(t, tab)
	}
	if n := len(m.texts[stepsKey+tab.ID()]) + len(m.texts[caseKey+tab.ID()]); n > 2*mostBytes {
		t.Errorf("%d bytes are kept", n)
	}
	tab = openTab(t, s, tab.ID())
	n := 0
	for tab.Undo() {
		n++
	}
	if n < 10 || n > mostSteps {
		t.Errorf("%d steps can be undone", n)
	}
}

// Steps that do not fit the case are forgotten, and change nothing.
func TestStepsThatDoNotFit(t *testing.T) {
	tab := newMemory().shelf("a").Add(titled("x"))
	tab.Note(titled("y"), first)
	tab.doc = flat(titled("z"))
	if tab.Undo() || tab.Case().Title != "z" {
		t.Error("a step was undone that is none of this case’s")
	}
	if undo, _ := tab.Undoes(); undo != "" {
		t.Error("it is still offered")
	}
}

func TestRecordAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := record{
			id: stamp{"a", 1}, at: rapid.Int64Min(0).Draw(t, "at"), name: rapid.String().Draw(t, "name"), done: 3, history: "h",
			seen: seen{{"b", 2}, {"c", 3}}, isAway: rapid.Bool().Draw(t, "away"), text: calc.Save(drawCase(t)),
		}
		before := flat(drawCase(t))
		for i := range 3 {
			after := flat(drawCase(t))
			s := step{n: i + 1, at: 7, began: 5, words: rapid.String().Draw(t, "words")}
			for _, c := range changesOf(before, after) {
				s.parts = append(s.parts, partOf(c))
			}
			r.tail, before = append(r.tail, s), after
		}
		got, err := readRecord(r.String())
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(r, got, cmp.AllowUnexported(record{}, stamp{}, step{}, part{})); diff != "" {
			t.Fatal(diff)
		}
	})
}

func FuzzReadRecord(f *testing.F) {
	f.Add(record{id: stamp{"a", 1}, name: "x", text: "{}\n", tail: []step{{n: 1, parts: []part{{path: "title", before: "a", after: "b"}}}}}.String())
	f.Add("split-tally case 2\nid x.1\n")
	f.Fuzz(func(t *testing.T, text string) {
		r, err := readRecord(text)
		if err != nil {
			return
		}
		again, err := readRecord(r.String())
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(r, again, cmp.AllowUnexported(record{}, stamp{}, step{}, part{})); diff != "" {
			t.Fatal(diff)
		}
	})
}

func FuzzReadSteps(f *testing.F) {
	f.Add("= 1 2 3 \"x\"\n. \"title\" 0 1 \"a\" \"b\"\n# \"periods\" 0 0 \"1\" \"2\"\n")
	f.Fuzz(func(t *testing.T, text string) {
		steps, ok := readSteps(text)
		if !ok {
			return
		}
		for _, s := range steps {
			s.of(flat(bills("1")), false) // must not fall
			s.of(flat(bills("1")), true)
		}
		again, ok := readSteps(writeSteps(steps))
		if diff := cmp.Diff(steps, again, cmp.AllowUnexported(step{}, part{})); !ok || diff != "" {
			t.Fatal(diff)
		}
	})
}
