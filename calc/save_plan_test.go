package calc

import (
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"splittally/calc/tariff"
)

// eveningPlan is a tariff with one of everything.
var eveningPlan = tariff.Schedule{
	Name: "Evening & night", Currency: "EUR", Round: "total", Half: "even", Places: "3", Inclusive: "19", Region: "DE", Dates: "24 Dec\n\n2026-02-02",
	Rows: []tariff.Row{
		{Kind: "tiers", Name: "Energy", Per: "month", Basis: "adjusted", From: "1 May", To: "31 Oct", Steps: []tariff.Step{{UpTo: "600", Price: "0,12"}, {Price: "0,18"}}},
		{Kind: "times", Since: "2026-01-01", Until: "2026-06-30", Bands: []tariff.Band{{Name: "Night", Price: "9 ¢", Days: "all", Hours: "22:30-6"}, {Price: "15 ¢"}}},
		{Kind: "tax", Price: "7", On: "Energy"},
		{},
	},
}

func TestPlanFile(t *testing.T) {
	for _, s := range []tariff.Schedule{eveningPlan, {}} {
		text := SavePlan(s)
		if !strings.HasPrefix(text, "{\n  \"splittally-tariff\": \"1\"") {
			t.Errorf("the file begins with %.40s", text)
		}
		got, problems := OpenPlan(text)
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		if diff := cmp.Diff(s, got, cmpopts.EquateEmpty()); diff != "" {
			t.Error(diff)
		}
	}
}

// The file in testdata shows the form, and opens in the page.
func TestPlanFileOfTestdata(t *testing.T) {
	const path = "../testdata/tariff/evening.tariff.json"
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	s, problems := OpenPlan(string(text))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	if diff := cmp.Diff(string(text), SavePlan(s)); diff != "" {
		t.Error(diff)
	}
	if built := tariff.Build(s, tariff.Options{}); !built.Tariff.Given || len(built.Problems) > 0 || len(built.Notices) > 0 {
		t.Errorf("%+v", built)
	}
}

func TestOpenPlanRefuses(t *testing.T) {
	for name, c := range map[string]struct{ text, path, found string }{
		"no JSON":         {"name: x", "", ""},
		"a case":          {Save(Case{Title: "x"}), "", "JSON of another kind"},
		"another version": {`{"splittally-tariff": "2"}`, "splittally-tariff", "2"},
		"unknown field":   {`{"splittally-tariff": "1", "rows": [{"kind": "tax", "rate": "7"}]}`, "rows.0.rate", "rate"},
		"a list for text": {`{"splittally-tariff": "1", "name": ["x"]}`, "name", "a list"},
	} {
		s, problems := OpenPlan(c.text)
		if len(problems) != 1 || problems[0].Path != c.path || c.found != "" && problems[0].Found != c.found || problems[0].Wanted == "" {
			t.Errorf("%s: %v", name, problems)
		}
		if diff := cmp.Diff(tariff.Schedule{}, s); diff != "" {
			t.Errorf("%s: something was opened: %s", name, diff)
		}
	}
	if _, problems := Open(SavePlan(eveningPlan)); len(problems) == 0 {
		t.Error("a tariff was opened as a case")
	}
}

// What opens says the same when it is saved and opened again.
func FuzzOpenPlan(f *testing.F) {
	f.Add(SavePlan(eveningPlan))
	f.Add(`{"splittally-tariff": "1", "rows": [{"steps": [{}, {"up-to": "1e9"}]}], "dates": ["\u0000", ""]}`)
	f.Add(`{"splittally-tariff": "1", "splittally-tariff": "1", "name": 3}`)
	f.Fuzz(func(t *testing.T, text string) {
		s, problems := OpenPlan(text)
		if len(problems) > 0 {
			return
		}
		again, problems := OpenPlan(SavePlan(s))
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		if diff := cmp.Diff(s, again, cmpopts.EquateEmpty()); diff != "" {
			t.Error(diff)
		}
	})
}
