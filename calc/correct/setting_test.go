package correct

import (
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"splittally/calc/figure"
)

func factorOf(text string) ratio {
	return ratio{decimal.RequireFromString(text), decimal.NewFromInt(1)}
}

func TestSettings(t *testing.T) {
	for _, c := range []struct {
		typed, factor       string
		now, step, inverse  string
		coarse              string // empty if not finer
		rounded             float64
		old, unit           string
		assumed, hasProblem bool
	}{
		{typed: "1.000", factor: "0.97561", now: "0.976", step: "0.001", inverse: "1.025", rounded: 0.976, old: "1"},
		{typed: "", factor: "0.97561", now: "0.976", step: "0.001", inverse: "1.025", rounded: 0.976, old: "1", assumed: true},
		{typed: "0,985", factor: "1.02", now: "1.005", step: "0.001", inverse: "0.966", rounded: 1.005 / 0.985, old: "0.985"},
		{typed: "1.0000", factor: "0.97561", now: "0.9756", step: "0.0001", inverse: "1.025", rounded: 0.9756, old: "1"},
		{typed: "1500", factor: "0.97561", now: "1463", step: "1", inverse: "1537", rounded: 1463. / 1500, old: "1500"},
		{typed: "1 500,0", factor: "0.97561", now: "1463.4", step: "0.1", inverse: "1537.5", rounded: 1463.4 / 1500, old: "1500"},
		{typed: "100 %", factor: "0.97561", now: "97.6", step: "0.1", inverse: "102.5", coarse: "98", rounded: 0.976, old: "100", unit: "%"},
		{typed: "100.0%", factor: "0.97561", now: "97.6", step: "0.1", inverse: "102.5", rounded: 0.976, old: "100", unit: "%"},
		{typed: "1", factor: "0.97561", now: "0.976", step: "0.001", inverse: "1.025", coarse: "1", rounded: 0.976, old: "1"},
		{typed: "20", factor: "1.0123", now: "20.25", step: "0.01", inverse: "19.76", coarse: "20", rounded: 1.0125, old: "20"},
		{typed: "-1", factor: "0.97561", now: "-0.976", step: "0.001", inverse: "-1.025", coarse: "-1", rounded: 0.976, old: "-1"},
		{typed: "1.2e4", factor: "0.97561", now: "11710", step: "10", inverse: "12300", coarse: "12000", rounded: 11710. / 12000, old: "12000"},
		{typed: "0.5", factor: "1.0004", now: "0.500", step: "0.001", inverse: "0.500", coarse: "0.5", rounded: 1, old: "0.5"},
		{typed: "full", factor: "0.97561", now: "0.976", step: "0.001", inverse: "1.025", rounded: 0.976, old: "1", assumed: true, hasProblem: true},
		{typed: "0", factor: "0.97561", now: "0.976", step: "0.001", inverse: "1.025", rounded: 0.976, old: "1", assumed: true, hasProblem: true},
		{typed: "%", factor: "0.97561", now: "0.976", step: "0.001", inverse: "1.025", rounded: 0.976, old: "1", assumed: true, hasProblem: true},
	} {
		t.Run(c.typed, func(t *testing.T) {
			var got Correction
			got.set("A", Typed{"a.b", c.typed}, factorOf(c.factor), 0.01)
			s := got.Settings[0]
			for what, pair := range map[string][2]string{
				"old":     {s.Old.String(), c.old},
				"new":     {s.New.StringFixed(s.Places()), c.now},
				"step":    {s.Step.String(), c.step},
				"inverse": {s.Inverse.String(), c.inverse},
				"unit":    {s.Unit, c.unit},
			} {
				if what == "inverse" {
					pair[1] = decimal.RequireFromString(pair[1]).String()
				}
				if pair[0] != pair[1] {
					t.Errorf("%s %s, want %s", what, pair[0], pair[1])
				}
			}
			if s.IsFiner != (c.coarse != "") || s.IsFiner && s.Coarse.String() != c.coarse {
				t.Errorf("finer %v, coarse %s; want %q", s.IsFiner, s.Coarse, c.coarse)
			}
			near(t, "rounded", s.Rounded, c.rounded, 1e-14)
			if s.IsAssumed != c.assumed || s.Name != "A" {
				t.Errorf("%+v", s)
			}
			if (len(got.Problems) == 1) != c.hasProblem || c.hasProblem && (got.Problems[0].Path != "a.b" || got.Problems[0].Found != c.typed) {
				t.Errorf("problems %+v", got.Problems)
			}
		})
	}
}

// plain puts usual blanks in place of those that no line breaks at.
func plain(text string) string {
	return strings.NewReplacer(figure.Thin, " ", "\u00a0", " ").Replace(text)
}

func TestSettingInWords(t *testing.T) {
	for _, c := range []struct{ typed, factor, want string }{
		{"1.000", "0.97561", "Set 0.976 instead of 1.000; rounding it changes the energy by +0.04 %."},
		{"", "0.97561", "Set 0.976 instead of 1.000 (assumed); rounding it changes the energy by +0.04 %."},
		{"100 %", "0.97561", "Set 97.6 % instead of 100 %; rounding it changes the energy by +0.04 %. If it takes no more digits than were typed, set 98 %, which changes it by +0.45 %."},
		{"1", "0.97561", "Set 0.976 instead of 1; rounding it changes the energy by +0.04 %. A setting that takes no more digits than were typed is too coarse for this."},
		{"-1.000", "0.9755", "Set −0.976 instead of −1.000; rounding it changes the energy by +0.05 %."},
		{"1.000", "1.0002", "Leave it at 1.000: one step of 0.001 would move it further than it is off."},
	} {
		var got Correction
		got.set("", Typed{Text: c.typed}, factorOf(c.factor), 0.01)
		if words := plain(got.Settings[0].Words()); words != c.want {
			t.Errorf("%q times %s: %s\nwant %s", c.typed, c.factor, words, c.want)
		}
	}
}

// Rounding to half a step never moves the energy by more than 0.1 % of what was
// set, whatever was typed; and nothing that is typed breaks it.
func FuzzSetting(f *testing.F) {
	for _, typed := range []string{"1.000", "0,985", "1500", "100 %", "", "full", "1.2e4", "1,234", "−1", "0.000001", "1e12", "1e-12", "１００％"} {
		f.Add(typed, 0.97561)
	}
	f.Fuzz(func(t *testing.T, typed string, factor float64) {
		if !usable(factor) {
			return
		}
		var got Correction
		got.set("", Typed{"a.b", typed}, Gain{Factor: factor}.ratio(), 0.01)
		s := got.Settings[0]
		if s.Rounded < factor-0.001-1e-12 || s.Rounded > factor+0.001+1e-12 {
			t.Errorf("%q times %g: %+v", typed, factor, s)
		}
		if !s.New.Mod(s.Step).IsZero() || s.Words() == "" {
			t.Errorf("%s is no step of %s", s.New, s.Step)
		}
		for _, p := range got.Problems {
			if p.Path != "a.b" || p.Wanted == "" || !s.IsAssumed {
				t.Errorf("%+v", p)
			}
		}
	})
}
