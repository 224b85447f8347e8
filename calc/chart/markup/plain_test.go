package markup

import (
	"strings"
	"testing"

	"golang.org/x/text/unicode/bidi"
	"pgregory.net/rapid"
)

func TestPlain(t *testing.T) {
	for text, want := range map[string]string{
		"":                                  "",
		"Hallway 12 kWh ± 0.3\u202f%":       "Hallway 12 kWh ± 0.3\u202f%",
		"two\nlines\tand more":              "two\nlines\tand more",
		"photo\u202egnp.json":               "photognp.json",
		"a\u2066b\u2069c\u200e\u200f":       "abc",
		"a\u200bb\ufeffc\u00add\u2060":      "abcd",
		"a\x00b\x07c\x7fd\u0085e":           "a b c de",
		"a\u2028b":                          "a b",
		"שלום reads 2.3 % high":             "\u2068שלום\u2069 reads 2.3 % high",
		"Flat 3, בית קטן, 12":               "Flat 3, \u2068בית קטן\u2069, 12",
		"مقياس":                             "\u2068مقياس\u2069",
		"family \U0001f468\u200d\U0001f469": "family \U0001f468\u200d\U0001f469",
	} {
		if got := Plain(text); got != want {
			t.Errorf("Plain(%q) = %q, want %q", text, got, want)
		}
	}
	if got := El("p", A("value", "a\u202eb"), A("aria-label", "a\u202eb"), Text("a\u202eb")).String(); got != "<p value=\"a\u202eb\" aria-label=\"ab\">ab</p>" {
		t.Errorf("drawn: %q", got)
	}
}

// A name cannot turn what stands behind it: the Unicode algorithm, as the
// reference of golang.org/x/text has it, leaves a sentence's figures in order.
func TestPlainLeavesTheOrder(t *testing.T) {
	const says = " reads 2.3 % high, by 9.5 kWh"
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.StringOf(rapid.RuneFrom([]rune("ab 12,.-אבשمق\u202e\u202d\u2066\u2067\u2068\u2069\u200f\u200e\u061c\u0661"))).Draw(t, "name")
		var p bidi.Paragraph
		p.SetString("Monitor "+Plain(name)+says, bidi.DefaultDirection(bidi.LeftToRight))
		order, err := p.Order()
		if err != nil {
			t.Skip(err)
		}
		last := order.Run(order.NumRuns() - 1)
		if !strings.HasSuffix(last.String(), strings.TrimLeft(says, " ")) || last.Direction() != bidi.LeftToRight {
			t.Fatalf("%q: the last run is %q, %v", name, last.String(), last.Direction())
		}
	})
}
