package view

import (
	"strings"
	"testing"
	"unicode/utf16"

	"pgregory.net/rapid"
)

// The mark § stands where a selection must begin, ¶ where it must end; both are
// taken out before the text is asked about.
func TestPlace(t *testing.T) {
	for _, c := range []struct {
		marked       string
		line, column int
		found        string
	}{
		{"§abc¶\ndef", 1, 1, "abc"},
		{"abc\nd§e¶f", 2, 2, "e"},
		{"abc\nd§ef¶", 2, 2, ""},
		{"abc\nd§ef¶", 2, 2, "not there"},
		{"é é §x¶ é\n", 1, 5, "x"},
		{"😀😀 §12,4¶ kWh", 1, 4, "12,4"},
		{"Tag\u00a0😀\n— §Oct 3¶", 2, 3, "Oct 3"},
		{"a\n\n§¶\nb", 3, 1, ""},
		{"ab§¶", 1, 99, ""},
		{"ab§¶", 9, 1, ""},
		{"§¶", 1, 1, ""},
	} {
		before, rest, _ := strings.Cut(c.marked, "§")
		inside, after, _ := strings.Cut(rest, "¶")
		from, to := place(before+inside+after, c.line, c.column, c.found)
		wantFrom := len(utf16.Encode([]rune(before)))
		wantTo := wantFrom + len(utf16.Encode([]rune(inside)))
		if from != wantFrom || to != wantTo {
			t.Errorf("%q, line %d, column %d: %d to %d, want %d to %d", c.marked, c.line, c.column, from, to, wantFrom, wantTo)
		}
	}
}

func TestPlaceIsInTheText(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.String().Draw(t, "text")
		from, to := place(text, rapid.IntRange(0, 9).Draw(t, "line"), rapid.IntRange(0, 9).Draw(t, "column"), rapid.String().Draw(t, "found"))
		if all := len(utf16.Encode([]rune(text))); from < 0 || to < from || to > all {
			t.Fatalf("%d to %d in a text of %d units", from, to, all)
		}
	})
}
