package document

import (
	"encoding/json"
	"errors"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"splittally/calc/remark"
)

type sheet struct {
	Title, Text string
	Legs        []leg
	Nested      string
}

type leg struct {
	Name  string
	Pairs []pair
}

type pair struct{ A, B string }

func (s *sheet) fields(f *Fields) {
	f.Text("title", &s.Title)
	f.Lines("text", &s.Text)
	f.Group("deep", func(f *Fields) { f.Text("nested", &s.Nested) })
	Each(f, "legs", &s.Legs, (*leg).fields)
}

func (l *leg) fields(f *Fields) {
	f.Text("name", &l.Name)
	Each(f, "pairs", &l.Pairs, (*pair).fields)
}

func (p *pair) fields(f *Fields) {
	f.Text("a", &p.A)
	f.Text("b", &p.B)
}

func drawSheet(t *rapid.T) sheet {
	text := rapid.String()
	pairs := rapid.Custom(func(t *rapid.T) pair { return pair{text.Draw(t, "a"), text.Draw(t, "b")} })
	legs := rapid.Custom(func(t *rapid.T) leg {
		l := leg{Name: text.Draw(t, "name")}
		if n := rapid.IntRange(0, 3).Draw(t, "pairs"); n > 0 {
			l.Pairs = rapid.SliceOfN(pairs, n, n).Draw(t, "pair")
		}
		return l
	})
	s := sheet{Title: text.Draw(t, "title"), Text: text.Draw(t, "text"), Nested: text.Draw(t, "nested")}
	if n := rapid.IntRange(0, 3).Draw(t, "legs"); n > 0 {
		s.Legs = rapid.SliceOfN(legs, n, n).Draw(t, "leg")
	}
	return s
}

func TestWrittenThenReadIsTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSheet(t)
		text := JSON(Write(s.fields))
		if !json.Valid([]byte(text)) {
			t.Fatalf("the standard library finds no JSON in\n%s", text)
		}
		n, err := ParseJSON(text)
		if err != nil {
			t.Fatal(err)
		}
		var back sheet
		if problems := Read(n, back.fields); len(problems) > 0 {
			t.Fatal(problems)
		}
		if diff := cmp.Diff(s, back); diff != "" {
			t.Fatal(diff)
		}
	})
}

func TestReadRefuses(t *testing.T) {
	for _, c := range []struct {
		text string
		want remark.Problem
	}{
		{`{"titel": "x"}`, remark.Problem{Path: "titel", Found: "titel", Wanted: "only fields that this version knows"}},
		{`{"title": "x", "title": "y"}`, remark.Problem{Path: "title", Found: "title twice", Wanted: "each field once"}},
		{`{"title": []}`, remark.Problem{Path: "title", Found: "a list", Wanted: "a text"}},
		{`{"legs": {}}`, remark.Problem{Path: "legs", Found: "a group of fields", Wanted: "a list"}},
		{`{"legs": [{"pairs": [{"a": "1"}, {"a": {}}]}]}`, remark.Problem{Path: "legs.0.pairs.1.a", Found: "a group of fields", Wanted: "a text"}},
		{`{"legs": ["x"]}`, remark.Problem{Path: "legs.0", Found: "a text", Wanted: "a group of fields"}},
		{`{"text": ["x", {}]}`, remark.Problem{Path: "text.1", Found: "a group of fields", Wanted: "a text"}},
		{`[]`, remark.Problem{Found: "a list", Wanted: "a group of fields"}},
	} {
		n, err := ParseJSON(c.text)
		if err != nil {
			t.Errorf("%s: %v", c.text, err)
			continue
		}
		var s sheet
		if diff := cmp.Diff([]remark.Problem{c.want}, Read(n, s.fields)); diff != "" {
			t.Errorf("%s:\n%s", c.text, diff)
		}
	}
}

func TestHandWrittenJSON(t *testing.T) {
	n, err := ParseJSON("\ufeff" + `{"title": 12.50, "deep": {"nested": true}, "text": ["a", null]}`)
	if err != nil {
		t.Fatal(err)
	}
	var s sheet
	if problems := Read(n, s.fields); len(problems) > 0 {
		t.Fatal(problems)
	}
	if diff := cmp.Diff(sheet{Title: "12.50", Nested: "yes", Text: "a\n"}, s); diff != "" {
		t.Error(diff)
	}
}

func TestNotJSON(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"", "not JSON"},
		{"<html>", "line 1"},
		{"{\n\"title\": \"x\",\n\"text\": [1, 2,, 3]\n}", "line 3"},
		{`{"title": "x"`, "not JSON"},
		{`{"title": NaN}`, "not JSON"},
		{"{\"title\": \"\xff\"}", "UTF-8"},
		{strings.Repeat("[", 100_000), "not JSON"},
	} {
		_, err := ParseJSON(c.text)
		if !errors.Is(err, ErrJSON) || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%.40q: %v, want %q", c.text, err, c.want)
		}
	}
}

func FuzzParseJSON(f *testing.F) {
	f.Add(`{"title": "x", "legs": [{"pairs": [{"a": "1"}]}], "text": ["a"]}`)
	f.Add(`{"title": 1e5, "deep": {"nested": null}}`)
	f.Fuzz(func(t *testing.T, text string) {
		n, err := ParseJSON(text)
		if err != nil {
			return
		}
		if !json.Valid([]byte(strings.TrimPrefix(text, "\ufeff"))) {
			t.Fatalf("%q was taken, but is not JSON", text)
		}
		again, err := ParseJSON(JSON(n))
		if err != nil {
			t.Fatalf("what was written cannot be read: %v", err)
		}
		if diff := cmp.Diff(n, again); diff != "" {
			t.Fatal(diff)
		}
	})
}
