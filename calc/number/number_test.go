package number

import (
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

// show writes readings so that a table can hold them: value/places, the
// decimal mark, and the group mark in brackets.
func show(rs []Reading) string {
	var parts []string
	for _, r := range rs {
		s := r.Value.String() + "/" + decimal.NewFromInt32(r.Places).String()
		if r.Mark != 0 {
			s += string(r.Mark)
		}
		if r.Group != 0 {
			s += "(" + string(r.Group) + ")"
		}
		parts = append(parts, s)
	}
	return strings.Join(parts, " or ")
}

func TestReadings(t *testing.T) {
	for text, want := range map[string]string{
		"0": "0/0", "12": "12/0", "12.4": "12.4/1.", "12,4": "12.4/1,", "12.40": "12.4/2.",
		".5": "0.5/1.", "5.": "5/0.", ",5": "0.5/1,", "5,": "5/0,", "007": "7/0",
		"+5": "5/0", "-5": "-5/0", "−5.5": "-5.5/1.", "–5": "-5/0", "－５": "-5/0", "-.5": "-0.5/1.",
		"1,234": "1.234/3, or 1234/0(,)", "1.234": "1.234/3. or 1234/0(.)", "-1,234": "-1.234/3, or -1234/0(,)",
		"1,23": "1.23/2,", "12,345": "12.345/3, or 12345/0(,)", "0,123": "0.123/3,", "0.123": "0.123/3.", "1234,567": "1234.567/3,",
		"1,234.5": "1234.5/1.(,)", "1.234,5": "1234.5/1,(.)", "1,234.567": "1234.567/3.(,)",
		"1,234,567": "1234567/0(,)", "1.234.567": "1234567/0(.)", "1.234.567,8": "1234567.8/1,(.)",
		"1 234,5": "1234.5/1,( )", "1 234.5": "1234.5/1.( )", "1 234": "1234/0( )", "1\u00a0234,5": "1234.5/1,( )",
		"1\u202f234,5": "1234.5/1,( )", "1\u2009234,5": "1234.5/1,( )", "1 234 567": "1234567/0( )",
		"1'234.5": "1234.5/1.(')", "1’234,5": "1234.5/1,(')", "1'234": "1234/0(')", "1'234’567": "1234567/0(')",
		"1,23,456.7": "123456.7/1.(,)", "12,34,567": "1234567/0(,)",
		"１２．４": "12.4/1.", "１，２３４": "1.234/3, or 1234/0(,)",
		" \t12.4\u00a0": "12.4/1.", "\ufeff12.4\u200b": "12.4/1.",
		"1.2e3": "1200/-2.", "1.20E+04": "12000/-2.", "5e-3": "0.005/3", "1,2e3": "1200/-2,", "1e12": "1000000000000/-12",
		"1234567890123456789012345678901234567890": "1234567890123456789012345678901234567890/0",
	} {
		if got := show(Readings(text)); got != want {
			t.Errorf("Readings(%q) = %s, want %s", text, got, want)
		}
	}
}

func TestReadingsRefuses(t *testing.T) {
	for _, text := range []string{
		"", " ", ".", ",", "-", "–", "--", "+-5", "5-", "- 5", "1-2", "NaN", "inf", "Infinity", "abc", "12 kWh", "0x10", "$5",
		"1.2.3", "1,2,3", "1,,234", "12,34.5", "1,234.5.6", "1.234,5,6", "1,234.567,8", "1 23", "5'11", "1'23",
		"1234 567", "12 34 567", "1,2345,678", "01,234,567", "1 234'567", "1,234 567.8", ", ", "1e", "1e+", "e5", "1e13", "1e-13", "1e999",
		"1,234e5", "1 234e5", "1e5.5", "1e1e1", "1_000", "12345678901234567890123456789012345678901", "1\n2", strings.Repeat("1", 500),
	} {
		if got := Readings(text); got != nil {
			t.Errorf("Readings(%q) = %s, want none", text, show(got))
		}
	}
}

// TestWrittenThenRead writes amounts in the manners of several countries; each
// must be among the readings, and be the only one unless a lone mark stands
// before three digits.
func TestWrittenThenRead(t *testing.T) {
	manners := []struct{ group, mark string }{{"", "."}, {"", ","}, {",", "."}, {".", ","}, {" ", ","}, {"\u202f", ","}, {"'", "."}, {"’", "."}}
	rapid.Check(t, func(t *rapid.T) {
		v := decimal.New(rapid.Int64().Draw(t, "digits"), -rapid.Int32Range(0, 9).Draw(t, "places"))
		m := rapid.SampledFrom(manners).Draw(t, "manner")
		places := -v.Exponent()
		text := write(v, places, m.group, m.mark)
		rs := Readings(text)
		found := false
		for _, r := range rs {
			found = found || r.Value.Equal(v) && r.Places == places
		}
		if !found {
			t.Fatalf("Readings(%q) = %s, want %s among them", text, show(rs), v)
		}
		lone := strings.Count(text, ".")+strings.Count(text, ",") == 1
		if len(rs) > 1 && !lone {
			t.Fatalf("Readings(%q) = %s, want one", text, show(rs))
		}
	})
}

func write(v decimal.Decimal, places int32, group, mark string) string {
	sign := ""
	if v.IsNegative() {
		sign = "-"
	}
	before, after, _ := strings.Cut(v.Abs().StringFixed(places), ".")
	for i := len(before) - 3; i > 0; i -= 3 {
		before = before[:i] + group + before[i:]
	}
	if after != "" {
		after = mark + after
	}
	return sign + before + after
}

func FuzzReadings(f *testing.F) {
	for _, s := range []string{"12.4", "1,234", "1.234,5", "1’234", "−5", "１２．４", "1.2e3", "1,23,456.7", "+.5", "1\u202f234", "\ufeff5"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		rs := Readings(text)
		if len(rs) > 2 {
			t.Fatalf("%q: %d readings", text, len(rs))
		}
		for _, r := range rs {
			if r.Places > maxDigits+maxExponent || r.Places < -maxExponent {
				t.Fatalf("%q: %d places", text, r.Places)
			}
			if r.Mark != 0 && r.Mark == r.Group {
				t.Fatalf("%q: %q is decimal mark and group mark at once", text, r.Mark)
			}
			// The plain form of what was read is read as the same number.
			again := Readings(r.Value.String())
			if len(again) == 0 || !again[0].Value.Equal(r.Value) {
				t.Fatalf("%q: read as %s, which reads as %s", text, r.Value, show(again))
			}
		}
		if len(rs) == 2 && rs[0].Value.Equal(rs[1].Value) && !rs[0].Value.IsZero() {
			t.Fatalf("%q: twice %s", text, rs[0].Value)
		}
	})
}

func BenchmarkReadings(b *testing.B) {
	for b.Loop() {
		Readings("1,234.5")
	}
}
