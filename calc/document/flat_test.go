package document

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// A tree that is written flat and made again reads as the same value, and the
// changes between two values make the one of the other.
func TestFlatAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := drawSheet(t), drawSheet(t)
		before, after := Flatten(Write(a.fields)), Flatten(Write(b.fields))
		var again sheet
		if problems := Read(before.Node(), again.fields); len(problems) > 0 {
			t.Fatal(problems)
		}
		if diff := cmp.Diff(Write(a.fields), Write(again.fields)); diff != "" {
			t.Fatal(diff)
		}
		changes := Changes(before, after)
		if len(changes) == 0 && !cmp.Equal(before, after) {
			t.Fatal("no change between two that differ")
		}
		for _, c := range changes {
			if c.IsItems {
				continue
			}
			if got := before.Texts[c.Path]; got != c.Before {
				t.Fatalf("%s stood as %q, not %q", c.Path, got, c.Before)
			}
			if got := after.Texts[c.Path]; got != c.After {
				t.Fatalf("%s stands as %q, not %q", c.Path, got, c.After)
			}
		}
	})
}
