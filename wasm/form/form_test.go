package form

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"splittally/calc"
	"splittally/calc/billing"
	"splittally/calc/document"
	"splittally/calc/gain"
	"splittally/calc/tariff"
)

func TestCaseOfFields(t *testing.T) {
	got, problems := Case([]Field{
		{Path: "title", Text: "May"},
		{Path: "monitors.0.readings", Text: "Oct 3 12.4\n\nOct 4 <b>", Lines: true},
		{Path: "monitors.1.name", Text: "second"},
		{Path: "periods.1.kwh", Text: "412"},
		{Path: "checks.legs.0.pairs.1.monitor", Text: "119,8"},
		{Path: "price.per-kwh", Text: ""},
		{Path: "note", Text: "", Lines: true},
	})
	want := calc.Case{
		Title:    "May",
		Monitors: []calc.Monitor{{Readings: "Oct 3 12.4\n\nOct 4 <b>"}, {Name: "second"}},
		Periods:  []billing.Period{{}, {KWh: "412"}},
		Checks:   gain.Checks{Legs: []gain.Leg{{Pairs: []gain.Pair{{}, {Monitor: "119,8"}}}}},
	}
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

func TestFieldsOfCase(t *testing.T) {
	got := Fields(calc.Case{
		Monitors: []calc.Monitor{{Readings: "a\nb"}, {}},
		Checks:   gain.Checks{Legs: []gain.Leg{{Pairs: []gain.Pair{{}, {Monitor: "1"}}}}},
		Price:    tariff.Flat{Tax: "5"},
	})
	want := document.Flat{
		Texts: map[string]string{"monitors.0.readings": "a\nb", "checks.legs.0.pairs.1.monitor": "1", "price.tax": "5"},
		Items: map[string]int{"monitors": 2, "checks.legs": 1, "checks.legs.0.pairs": 2},
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

// A page that has a field nobody knows is told, not passed over.
func TestUnknownField(t *testing.T) {
	if _, problems := Case([]Field{{Path: "periods.0.kilowatts", Text: "1"}}); len(problems) != 1 {
		t.Errorf("%v, want one problem", problems)
	}
}

func TestBlank(t *testing.T) {
	if !Blank([]Field{{Path: "title", Text: " \n"}}) || Blank([]Field{{Path: "title", Text: "x"}}) {
		t.Error("Blank goes by what is typed")
	}
}

func TestRenumber(t *testing.T) {
	for _, c := range []struct {
		value, list string
		index       int
		want        string
	}{
		{"periods-0-to", "periods", 3, "periods-3-to"},
		{"periods-0-to-hint periods-0-to-says", "periods", 12, "periods-12-to-hint periods-12-to-says"},
		{"checks-legs-0-pairs-1-monitor", "checks.legs", 2, "checks-legs-2-pairs-1-monitor"},
		{"checks-legs-2-pairs-1-monitor", "checks.legs.2.pairs", 0, "checks-legs-2-pairs-0-monitor"},
		{"periods-title", "periods", 1, "periods-title"},
		{"periods-0", "periods", 1, "periods-1"},
		{"other-0-to", "periods", 1, "other-0-to"},
		{"", "periods", 1, ""},
	} {
		if got := Renumber(c.value, c.list, c.index); got != c.want {
			t.Errorf("Renumber(%q, %q, %d) = %q, want %q", c.value, c.list, c.index, got, c.want)
		}
	}
}

func TestKind(t *testing.T) {
	for path, want := range map[string]string{"plans": "plans", "plans.10.rows.0.steps": "plans.rows.steps", "checks.legs.1.steps": "checks.legs.steps"} {
		if got := Kind(path); got != want {
			t.Errorf("Kind(%q) = %q, want %q", path, got, want)
		}
	}
}

func TestWords(t *testing.T) {
	if got := With("a b", "b"); got != "a b" {
		t.Errorf("With: %q", got)
	}
	if got := Without("a b c", "b"); got != "a c" {
		t.Errorf("Without: %q", got)
	}
}
